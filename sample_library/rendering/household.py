"""The diary read into shots: who pressed the button when, and what was there to be seen."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from .diary import GRANDMOTHER, PHOTOS
from .view import View

#: How far the compact camera's clock is behind: true time = Exif time + this.
CLOCK_BEHIND = timedelta(days=3, hours=7, minutes=12)

_SIZES = {
    "ada": {
        "L": (1600, 1200),
        "P": (1200, 1600),
        "S": (1280, 1280),
        "W": (1800, 1350),
        "M": (1440, 1080),
        "N": (1080, 1440),
        "K": (640, 480),
    },
    "ben": {"L": (1440, 1080), "P": (1080, 1440), "S": (1200, 1200)},
    "compact": {"L": (1536, 1024), "P": (1024, 1536)},
    "grandmother": {"L": (800, 600), "P": (600, 800), "S": (700, 700)},
}


@dataclass(frozen=True, slots=True)
class Shot:
    """One photo as it was taken. `taken` is true local time; `size` is that of the displayed picture."""

    taken: datetime
    device: str
    scene: str
    view: View
    size: tuple[int, int]
    orientation: int = 1
    burst: str = ""
    frame: int = 0
    gps: bool = False
    heic: bool = False

    @property
    def seed(self) -> int:
        return self.view.seed

    @property
    def occasion(self) -> str:
        """Scene and arrangement: equal for photos that show one occasion."""
        return f"{self.scene.replace('_', '-')}-{self.seed}"


def shots() -> list[Shot]:
    """All photos of the phones and the camera, in the order in which they were taken."""
    given = [shot for line in PHOTOS.split("\n") if line for shot in _frames(line)]
    first = {seed: min(shot.taken for shot in given if shot.seed == seed) for seed in {shot.seed for shot in given}}
    moved = [replace(shot, view=replace(shot.view, step=_step(shot.taken - first[shot.seed]))) for shot in given]
    return sorted(moved, key=lambda shot: (shot.taken, shot.device))


def grandmothers() -> Iterator[tuple[str, Shot]]:
    """File name and shot of each photo that only came by message; the hour is not known and stands at noon."""
    for line in GRANDMOTHER.split("\n"):
        if line:
            name, picture, seed, shape = line.split()
            day = datetime.strptime(name[4:12], "%Y%m%d") + timedelta(hours=12)  # noqa: DTZ007 - local wall time
            yield name, single(day, "grandmother", picture, int(seed), shape)


def single(taken: datetime, device: str, picture: str, seed: int, shape: str) -> Shot:
    """One photo; `picture` is scene/mood/form, for tables form-mood."""
    scene, mood, form = (*picture.split("/"), "")[:3]
    if "-" in mood:
        form, mood = mood.split("-")
    return Shot(taken, device, scene, View(seed, mood, form), _SIZES[device][shape])


def _frames(line: str) -> Iterator[Shot]:
    day, time, device, picture, seed, shape, *options = line.split()
    shot = single(datetime.fromisoformat(f"{day}T{time}"), device, picture, int(seed), shape)
    count, gap = 1, 0.0
    for option in options:
        name, _, value = option.partition("=")
        if name == "burst":
            count, gap = int(value.split("/")[0]), float(value.split("/")[1])
        elif name == "lean":
            shot = replace(shot, view=replace(shot.view, lean=float(value)))
        elif name.startswith("o"):
            shot = replace(shot, orientation=int(name[1:]))
        elif name == "gps":
            shot = replace(shot, gps=True)
        elif name == "heic":
            shot = replace(shot, heic=True)
    shot = replace(shot, taken=shot.taken + timedelta(milliseconds=shot.seed * 137 % 800))
    for number in range(count):
        later = timedelta(seconds=gap * (number + 0.3 * (number % 2)))
        yield replace(shot, taken=shot.taken + later, frame=number, burst=shot.occasion if count > 1 else "")


def _step(since: timedelta) -> float:
    """Seconds since the first look; after some twenty, things have moved as far as they will."""
    return 20 * math.tanh(since.total_seconds() / 20)
