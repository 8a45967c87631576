"""Why a single mark asks: for its shape, or for where it stands."""
