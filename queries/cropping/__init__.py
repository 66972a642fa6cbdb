"""Which part of a picture a cell shows."""

from queries.cropping.windows import window_of

__all__ = ["window_of"]
