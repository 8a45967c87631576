"""Which row and column of a table a cell stands in, and what they are called."""
