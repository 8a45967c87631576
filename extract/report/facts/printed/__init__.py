"""What is printed of facts: words in parts, labels, and the values that they announce."""
