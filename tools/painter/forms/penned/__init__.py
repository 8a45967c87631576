"""Forms that are filled in by hand."""
