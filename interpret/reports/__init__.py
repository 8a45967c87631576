"""Whose pages they are: the pages of a file put together by patient, report and test, and identifiers left out."""
