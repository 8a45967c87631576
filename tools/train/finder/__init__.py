"""Training of the network that finds where words stand on a page."""
