"""A second look at the picture of a table, once it is known what may stand where."""
