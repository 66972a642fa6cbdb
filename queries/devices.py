"""Cameras and phones: how many photos each took, and from when to when."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

#: A device whose photos end so long before the newest photo of all has probably not been copied yet ...
SILENT_AFTER = timedelta(days=14)
#: ... unless it fell silent so long ago that it is no longer in use.
RETIRED_AFTER = timedelta(days=365)
#: A device that took fewer photos than this was borrowed, or is somebody else's.
FEWEST = 5


@dataclass(frozen=True, slots=True)
class Device:
    """One camera or phone, or (with no `camera`) all photos that name none.

    `first` and `last` are capture times of photos whose time is not doubtful, or None.
    """

    camera: str | None
    serial: str | None
    photos: int
    first: str | None
    last: str | None


def devices(connection: sqlite3.Connection) -> list[Device]:
    """All devices, those with the most photos first, what names none last."""
    rows = connection.execute(_DEVICES)
    return [Device(row["camera"] or None, row["serial"] or None, *tuple(row)[2:]) for row in rows]


def uncopied(found: Sequence[Device]) -> list[Device]:
    """The devices whose photos end weeks before the others': they have probably not been copied yet. Pure."""
    ends = {device: date.fromisoformat(device.last[:10]) for device in found if device.last and device.camera}
    newest = max(ends.values(), default=date.min)
    return [
        device
        for device, end in ends.items()
        if device.photos >= FEWEST and SILENT_AFTER <= newest - end < RETIRED_AFTER
    ]


_DEVICES = """
SELECT camera, serial, count(*) AS photos,
       min(taken) FILTER (WHERE NOT doubtful) AS first, max(taken) FILTER (WHERE NOT doubtful) AS last
FROM photo
WHERE present
GROUP BY camera, serial
ORDER BY camera = '', photos DESC, camera, serial
"""
