"""Training of the network that looks closely at single marks."""
