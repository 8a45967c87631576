"""Networks written in whole numbers of eight bits, and taught to say in them what they said before."""
