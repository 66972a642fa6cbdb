"""What a container says of the picture in it, and the two ways in which a file can fail to be one."""

from dataclasses import dataclass
from typing import Literal

Format = Literal["JPEG", "PNG", "WebP", "HEIF", "AVIF", "TIFF", "raw"]

#: (offset, length) of stretches of the file, in the order in which the picture is made of them.
Spans = tuple[tuple[int, int], ...]

#: The damage of a file that was not copied or received to its end.
CUT_OFF = "the file ends before the picture does (cut off)"


@dataclass(frozen=True, slots=True)
class Container:
    """What the header of one picture file says, and where the picture lies in the file.

    `width` and `height` are pixels as stored, before any turning. `turn` is the orientation (Exif values 1..8) that
    the container itself asks for, or None where the format has no such notion and the Exif tag decides. `exif` is a
    block of TIFF structure (it begins II*\\0 or MM\\0*), `xmp` the packet and `iptc` the IPTC block as they stand,
    `resources` the image resources, among which IPTC may lie too. `picture_spans` are the stretches of the file that
    hold the picture data; none means the whole file. `damage` says in plain words why the pixels cannot be whole, or
    is None.
    """

    format: Format
    width: int
    height: int
    turn: int | None = None
    exif: bytes | None = None
    xmp: bytes | None = None
    iptc: bytes | None = None
    resources: bytes | None = None
    picture_spans: Spans = ()
    damage: str | None = None


class NotAPicture(Exception):  # noqa: N818 - it is a finding, not a fault
    """The file holds something else, or a kind of picture that is not a photo; `what` says it in plain words."""

    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


class BrokenContainer(Exception):  # noqa: N818 - named for what was found
    """The file is of a picture format, and its header cannot be used; `reason` says why in plain words.

    `exif` and `xmp` are the metadata that could be read all the same: a JPEG that is cut before its size may still say
    when it was taken.
    """

    def __init__(self, reason: str, exif: bytes | None = None, xmp: bytes | None = None) -> None:
        super().__init__(
            reason, exif, xmp
        )  # the same arguments, so that it can be pickled on its way between processes
        self.reason = reason
        self.exif = exif
        self.xmp = xmp

    def __str__(self) -> str:
        return self.reason
