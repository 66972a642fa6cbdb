"""The one writer: every statement that changes the index stands in this room."""
