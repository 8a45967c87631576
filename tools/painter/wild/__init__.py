"""Training charts drawn more freely than any form or program would: every style of mark, every mixture."""
