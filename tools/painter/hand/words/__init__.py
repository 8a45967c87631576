"""What people write besides marks: an alphabet of single lines, words in it, and notes on a form."""
