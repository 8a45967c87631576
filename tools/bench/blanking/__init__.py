"""How well blanking covers what identifies: painted pages with truth, spoiled as the bench does."""
