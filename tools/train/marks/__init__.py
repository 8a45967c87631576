"""Training of the network that sees the marks on a chart."""
