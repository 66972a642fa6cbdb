"""The order in which claims are believed, and how each is spoken of. Pure.

The base is that of the Metadata Working Group (Guidelines for Handling Image Metadata 2.0, November 2010): the Exif
original date, then what XMP and IPTC say of the creation (IPTC first where its digest shows that it was changed last),
then the dates of digitizing; a modified date never, but as a last resort that is named so. File and folder names and
file times are not in those guidelines: names come where nothing inside the file is left but digitizing by a program.
"""

from datetime import date

from indexer.facts.records import Claim

#: No photo file is older: what says so comes from a clock that was never set.
EARLIEST = date(1990, 1, 1)

#: (source, whether of an arrival), the most believed first.
_RANKS: tuple[tuple[str, bool], ...] = (
    ("exif original", False),
    ("iptc newer", False),
    ("xmp original", False),
    ("sidecar original", False),
    ("iptc", False),
    ("exif digitized", False),
    ("file name", False),
    ("xmp digitized", False),
    ("sidecar digitized", False),
    ("iptc digitized", False),
    ("folder name", False),
    ("file name", True),
    ("gps", False),
    ("exif modified", False),
    ("xmp modified", False),
    ("sidecar modified", False),
    ("file time", True),
)
_RANK = {rank: place for place, rank in enumerate(_RANKS)}
_LAST = len(_RANKS)

#: What tells when a picture was taken. The rest are last resorts, and always to be looked at.
OF_CAPTURE = frozenset(
    {
        "exif original",
        "iptc newer",
        "xmp original",
        "sidecar original",
        "iptc",
        "exif digitized",
        "file name",
        "folder name",
    }
)
#: When something was digitized: the time of capture for a camera, that of the scan for a paper print.
OF_DIGITIZING = frozenset({"exif digitized", "xmp digitized", "sidecar digitized", "iptc digitized"})
#: When something was changed.
OF_CHANGE = frozenset({"exif modified", "xmp modified", "sidecar modified"})

#: What a source is called in a sentence.
CALLED = {
    "exif original": "the camera's date",
    "iptc newer": "the IPTC date",
    "xmp original": "the XMP date",
    "sidecar original": "the sidecar's date",
    "iptc": "the IPTC date",
    "exif digitized": "the date of digitizing",
    "file name": "its name",
    "xmp digitized": "the XMP date of digitizing",
    "sidecar digitized": "the sidecar's date of digitizing",
    "iptc digitized": "the IPTC date of digitizing",
    "folder name": "its folder",
    "gps": "the satellites' time",
    "exif modified": "the date of its last change",
    "xmp modified": "the XMP date of its last change",
    "sidecar modified": "the sidecar's date of its last change",
    "file time": "the file's own time",
}

#: Why a claim is believed, where nothing speaks against it.
GOOD_REASON = {
    "exif original": "the camera wrote it when the picture was taken",
    "iptc newer": "its IPTC fields were changed last and say so; no Exif original date is there",
    "xmp original": "the XMP in the file says so; no Exif original date is there",
    "sidecar original": "the sidecar beside the file says so; no Exif original date is there",
    "iptc": "its IPTC fields say so; no Exif original date is there",
    "exif digitized": "the camera wrote it when the picture was digitized; no original date is there",
    "file name": "no usable date inside the file; its name carries one",
    "folder name": "no usable date in the file or its name; its folder carries that day",
}


def rank(claim: Claim) -> int:
    """The place of a claim in the order of belief; the lower the better."""
    return _RANK.get((claim.source, claim.is_arrival), _RANK.get((claim.source, True), _LAST))


def may_be_chosen(claim: Claim) -> bool:
    """Whether a claim can be the verdict at all."""
    return claim.when is not None and rank(claim) < _LAST


def weak_reason(claim: Claim) -> str | None:
    """Why a claim is a last resort whatever it says, or None where it is not."""
    if claim.source == "file time":
        return "only the file's own time is known, which copying changes"
    if claim.is_arrival:
        return "the name tells the day it arrived, not the day it was taken"
    if claim.source in OF_CHANGE:
        return "only the day of its last change is known, as a last resort"
    if claim.source == "gps":
        return "only the satellites' time is known, which may be hours old"
    return None
