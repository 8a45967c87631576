"""PDF pages: what they draw, how they look, and both within bounds of time and memory."""
