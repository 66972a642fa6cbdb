"""Sleeves: page protectors and their pockets, drawn by the person or made by rule."""
