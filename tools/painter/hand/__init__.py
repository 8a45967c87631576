"""People who write: their strokes, their pens, and how they fill in a printed form."""
