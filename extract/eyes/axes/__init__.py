"""The axes of charts, found by their labels."""
