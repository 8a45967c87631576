"""Marks of drawn pages, whose paths tell each mark from the next."""
