"""Orders of prints: what was told of them, which is meant, and what of a week is printed already."""
