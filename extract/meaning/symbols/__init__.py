"""Under which symbol set a page was drawn: its printed key, else what was asked for, else its marks and words."""
