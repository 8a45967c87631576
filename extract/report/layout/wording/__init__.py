"""The words around a printed value that say what it is not."""
