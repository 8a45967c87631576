"""Where words stand to one another: what labels, beside or above, give a printed value its meaning."""
