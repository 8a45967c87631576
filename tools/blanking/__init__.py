"""Files blanked: every page covered, and written as pictures that hold nothing else."""
