"""Windows of pictures as they are stored, and windows cut to another shape. Pure."""

from queries.cropping.values import Window

#: The Exif/TIFF orientations (CIPA DC-008, tag 0x0112) at which rows are stored as columns, and those at which the
#: stored picture runs against the upright one: across, and down.
_SWAPPED, _AGAINST_ACROSS, _AGAINST_DOWN = {5, 6, 7, 8}, {2, 3, 7, 8}, {3, 4, 6, 7}


def as_stored(window: Window, orientation: int) -> Window:
    """The part of the stored picture that, turned upright as the orientation asks, is that window. Values outside of
    the table turn nothing."""
    across, down = (window.left, window.right), (window.top, window.bottom)
    if orientation in _SWAPPED:
        across, down = down, across
    if orientation in _AGAINST_ACROSS:
        across = (1 - across[1], 1 - across[0])
    if orientation in _AGAINST_DOWN:
        down = (1 - down[1], 1 - down[0])
    return Window(across[0], down[0], across[1], down[1])


def size_as_stored(width: int, height: int, orientation: int) -> tuple[int, int]:
    """The sides that, turned upright, are these."""
    return (height, width) if orientation in _SWAPPED else (width, height)


def with_aspect_times(window: Window, factor: float) -> Window:
    """The largest window inside this one, about the same middle, whose width to height is `factor` times as much."""
    across, down = min(1.0, factor) * window.width, min(1.0, 1 / factor) * window.height
    left = window.left + (window.width - across) / 2
    top = window.top + (window.height - down) / 2
    return Window(left, top, min(left + across, window.right), min(top + down, window.bottom))
