"""What a run of the benchmark leaves behind: table, results, curves, the worst pages, and the figures in the README."""
