"""Forms of whole report pages, each a layout of our own."""
