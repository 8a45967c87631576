"""Charts of the painter: axes, ruling, marks, joining lines and keys."""
