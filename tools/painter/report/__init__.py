"""What a report says in words and numbers round its charts, drawn with its truth."""
