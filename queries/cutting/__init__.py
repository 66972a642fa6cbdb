"""Pieces laid on the lab's paper: the fewest prints that a paper trimmer can cut them from, proven."""

from queries.cutting.laying import lay_out
from queries.cutting.values import Cut, Laid, Layout, Paper, Piece, Print, Rect, Tight, Trim

__all__ = ["Cut", "Laid", "Layout", "Paper", "Piece", "Print", "Rect", "Tight", "Trim", "lay_out"]
