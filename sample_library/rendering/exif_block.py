"""Exif blocks, with or without a thumbnail (tag numbers: Exif 2.32, CIPA DC-008)."""

import struct
from datetime import datetime, timedelta

from PIL import Image
from PIL.TiffImagePlugin import IFDRational

from .household import CLOCK_BEHIND, Shot

_EXIF_IFD, _GPS_IFD = 0x8769, 0x8825
_HEADER = b"Exif\0\0"
#: A place in open water, so nobody lives there: degrees north and east.
_PLACE = (54.62, 11.47)


def stamp(moment: datetime) -> str:
    return moment.strftime("%Y:%m:%d %H:%M:%S")


def block(shot: Shot, orientation: int = 1, thumbnail: bytes | None = None) -> bytes:
    """The Exif block that the shot's device writes, beginning with "Exif"; the picture stands as `orientation` says."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x0128], exif[0x011A], exif[0x011B], exif[0x0213] = 2, 72.0, 72.0, 1
    details = exif.get_ifd(_EXIF_IFD)
    details[0x9000], details[0xA000], details[0xA001] = b"0232", b"0100", 1
    details[0xA002], details[0xA003] = shot.size[::-1] if orientation >= 5 else shot.size
    {"ada": _ada, "ben": _ben, "compact": _compact}[shot.device](exif, shot)
    if shot.gps:
        _position(exif, shot)
    return with_thumbnail(exif.tobytes(), thumbnail) if thumbnail else exif.tobytes()


def _ada(exif: Image.Exif, shot: Shot) -> None:
    exif[0x010F], exif[0x0110], exif[0x0131] = "Skerry", "Skerry S2", "S2 camera 4.1"
    exif[0x0132] = stamp(shot.taken)
    details = exif.get_ifd(_EXIF_IFD)
    details[0x9003] = details[0x9004] = stamp(shot.taken)
    details[0x9010] = details[0x9011] = details[0x9012] = "+01:00"
    details[0x9291] = details[0x9292] = f"{shot.taken.microsecond // 1000:03d}"
    details[0x829A], details[0x829D], details[0x8827] = IFDRational(1, 125), IFDRational(9, 5), 100


def _ben(exif: Image.Exif, shot: Shot) -> None:
    exif[0x010F], exif[0x0110] = "Lantern", "L5"
    exif.get_ifd(_EXIF_IFD)[0x9003] = stamp(shot.taken)


def _compact(exif: Image.Exif, shot: Shot) -> None:
    """The clock of this one is wrong; it knows nothing of time zones."""
    shown = stamp(shot.taken - CLOCK_BEHIND)
    exif[0x010F], exif[0x0110] = "Brinlow", "Brinlow Compact 12"
    exif[0x0132] = shown
    details = exif.get_ifd(_EXIF_IFD)
    details[0x9003] = details[0x9004] = shown
    details[0xA431] = "BC12-0047215"
    details[0x829A], details[0x829D], details[0x8827] = IFDRational(1, 200), IFDRational(14, 5), 200


def _position(exif: Image.Exif, shot: Shot) -> None:
    """GPS date and time are universal time, one hour behind the household's winter time."""
    utc = shot.taken - timedelta(hours=1)
    near = (shot.seed % 17 - 8) * 0.0011
    gps = exif.get_ifd(_GPS_IFD)
    gps[0] = b"\x02\x03\x00\x00"
    gps[1], gps[2] = "N", _degrees(_PLACE[0] + near)
    gps[3], gps[4] = "E", _degrees(_PLACE[1] - near)
    gps[7], gps[29] = (float(utc.hour), float(utc.minute), float(utc.second)), utc.strftime("%Y:%m:%d")


def _degrees(value: float) -> tuple[float, float, float]:
    minutes = (value - int(value)) * 60
    return float(int(value)), float(int(minutes)), round((minutes - int(minutes)) * 60, 2)


def with_thumbnail(exif: bytes, thumbnail: bytes) -> bytes:
    """The block with a second directory (IFD1) that holds a JPEG thumbnail; a block has one directory before."""
    tiff = exif.removeprefix(_HEADER)
    order = "<" if tiff[:2] == b"II" else ">"
    (first,) = struct.unpack_from(order + "L", tiff, 4)
    (entries,) = struct.unpack_from(order + "H", tiff, first)
    link = first + 2 + 12 * entries
    tiff += b"\0" * (len(tiff) % 2)
    second = len(tiff)
    resolution = second + 2 + 12 * 6 + 4
    data = resolution + 16
    directory = struct.pack(order + "H", 6)
    directory += struct.pack(order + "HHLHH", 0x0103, 3, 1, 6, 0)  # Compression: JPEG
    directory += struct.pack(order + "HHLL", 0x011A, 5, 1, resolution)  # XResolution
    directory += struct.pack(order + "HHLL", 0x011B, 5, 1, resolution + 8)  # YResolution
    directory += struct.pack(order + "HHLHH", 0x0128, 3, 1, 2, 0)  # ResolutionUnit: inch
    directory += struct.pack(order + "HHLL", 0x0201, 4, 1, data)  # JPEGInterchangeFormat: where it begins
    directory += struct.pack(order + "HHLL", 0x0202, 4, 1, len(thumbnail))  # JPEGInterchangeFormatLength
    directory += struct.pack(order + "5L", 0, 72, 1, 72, 1)  # no further directory; 72 to the inch, twice
    return _HEADER + tiff[:link] + struct.pack(order + "L", second) + tiff[link + 4 :] + directory + thumbnail
