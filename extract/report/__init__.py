"""What stands around the charts: words, facts and the other tests of a report."""
