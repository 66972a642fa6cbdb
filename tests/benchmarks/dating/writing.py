"""A made library laid down in a folder: files, sidecars, and file times."""

import os
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from tests.benchmarks.dating.pictures import picture_file
from tests.benchmarks.dating.tagging import tagged, xmp_packet
from tests.benchmarks.dating.values import Photo


def write_library(folder: Path, photos: Sequence[Photo]) -> None:
    """Write every photo, scene by scene, since a scene is drawn once for all who saw it."""
    for photo in sorted(photos, key=lambda photo: (photo.view.scene, photo.view.eye, photo.view.frame, photo.path)):
        content = tagged(picture_file(photo.view), photo)
        _write(folder / photo.path, content, photo.file_time)
        for path in photo.also_at:
            _write(folder / path, content, photo.file_time)
        if photo.sidecar:
            ending, properties = photo.sidecar
            _write(folder / f"{photo.path.rpartition('.')[0]}{ending}", xmp_packet(properties), photo.file_time)


def _write(path: Path, content: bytes, file_time: datetime) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    seconds = int(file_time.replace(tzinfo=UTC).timestamp())
    os.utime(path, (seconds, seconds))
