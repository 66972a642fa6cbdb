"""Pieces laid on the lab's paper: the fewest prints that a paper trimmer can cut them from, proven.

`laying.lay_out` is the way in, `values` what crosses the borders; whoever needs those alone starts without scipy.
"""
