"""Painted pages read as far as the pixels go, kept so that the meaning can be found anew in milliseconds a page."""
