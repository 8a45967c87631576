"""Forms whose thresholds stand as printed numbers in a table, alone or beside a chart."""
