"""What the words of values mean: days, times, and choices in words or ticks."""
