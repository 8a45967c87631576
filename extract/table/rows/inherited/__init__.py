"""Names that stand beside other rows than their own: over them, in merged cells, or wrapped over several lines."""
