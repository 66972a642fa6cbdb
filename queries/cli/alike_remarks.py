"""What is said of one photo that is alike to others, or that the person chose."""

from queries.membership import Alike
from queries.photos import Photo


def alike_remark(photo: Photo) -> str:
    """What the list of a week says of a photo that is alike to others, or that the person chose; "" for any other."""
    if photo.choice == "leave":
        return "left out by you"
    if photo.alike is None:
        return "kept by you" if photo.choice == "keep" else ""
    if photo.alike.is_keeper:
        return _keeper_words(photo, photo.alike)
    return left_out_words(photo.alike)


def _keeper_words(photo: Photo, alike: Alike) -> str:
    """ "keeper: sharpest of 5", "keeper: the camera's own file, of 3 copies"."""
    if alike.keeper_key != photo.key:
        return f"kept by you, besides {alike.keeper_code}"
    number = f"of {alike.photos}"
    is_said = number in alike.reason
    return f"keeper: {alike.reason}" + (
        "" if is_said else f", {number} {'copies' if alike.kind == 'copy' else 'alike'}"
    )


def left_out_words(alike: Alike) -> str:
    """Why a photo of a set is left out."""
    what = "copy of" if alike.kind == "copy" else "alike to"
    if alike.keeper_code is None:
        return f"one of {alike.photos} alike, all left out by you"
    kept = "which is left out too" if alike.keeper_is_out else f"which is kept: {alike.reason}"
    return f"{what} {alike.keeper_code}, {kept}"
