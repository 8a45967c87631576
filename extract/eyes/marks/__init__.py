"""The marks on a chart, seen by a network."""
