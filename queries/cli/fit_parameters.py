"""What `fit` takes, as parameter types and one bundle of options."""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

import click

from indexer.errors import PlanError, WordError
from queries.cli.parameters import PhotoType
from queries.photos import Photo

if TYPE_CHECKING:  # slow to import, and help is shown without it
    from queries.spread.values import Wishes

_F = TypeVar("_F", bound=Callable[..., Any])
_T = TypeVar("_T")
_POCKET = re.compile(r"[LR][1-9][0-9]{0,5}", re.IGNORECASE)
_PLACE = re.compile(r"[LR][1-9][0-9]{0,5}(\.[1-9])?", re.IGNORECASE)
#: Where along its free axis a crop lies, as a person says it, or back to the tool's own; else a number from 0 to 1.
CROPS = ("left", "center", "right", "top", "bottom", "auto")
_EDGES = ("top", "bottom", "left", "right")
_MOST_ZOOM = 10.0


class PocketType(click.ParamType[str]):
    """A pocket of the spread, R2."""

    name = "POCKET"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        if not _POCKET.fullmatch(str(value)):
            self.fail(f"{value!r} is no pocket; write it like L3 or R2", param, ctx)
        return str(value).upper()


class PinType(click.ParamType[tuple[str, Photo]]):
    """A photo pinned to a pocket or to a cell of its collage, L3=PHOTO or L1.2=PHOTO."""

    name = "POCKET=PHOTO"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, Photo]:
        place, equals, photo = str(value).partition("=")
        if not equals or not _PLACE.fullmatch(place.strip()):
            self.fail(f"{value!r} is no pin; write it like L3=a1b2c, or L1.2=a1b2c in a collage", param, ctx)
        return place.strip().upper(), PhotoType().convert(photo, param, ctx)


class CollageType(click.ParamType[tuple[str, int]]):
    """How many photos a pocket holds, L1=3."""

    name = "POCKET=COUNT"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, int]:
        pocket, _, count = str(value).partition("=")
        if count not in set("1234") or not _POCKET.fullmatch(pocket.strip()):
            self.fail(f"{value!r} is no collage of 1 to 4 photos; write it like L1=3", param, ctx)
        return pocket.strip().upper(), int(count)


class CropType(click.ParamType[tuple[Photo, str | float]]):
    """Which part of a photo is shown, PHOTO=left or PHOTO=0.35."""

    name = "PHOTO=WHERE"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[Photo, str | float]:
        photo, _, where = str(value).rpartition("=")
        told = where.strip().lower()
        number = None if told in CROPS else _number(told)
        if not photo or (told not in CROPS and (number is None or not 0 <= number <= 1)):
            self.fail(f"{value!r} is no crop; write PHOTO={'|'.join(CROPS)} or PHOTO=0.35, from 0 to 1", param, ctx)
        return PhotoType().convert(photo, param, ctx), told if number is None else number


class ZoomType(click.ParamType[tuple[Photo, float]]):
    """How much nearer a photo is shown, PHOTO=1.2."""

    name = "PHOTO=TIMES"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[Photo, float]:
        photo, _, times = str(value).rpartition("=")
        number = _number(times)
        if not photo or number is None or not 1 <= number <= _MOST_ZOOM:
            self.fail(f"{value!r} is no zoom; write PHOTO=1.2, from 1 to {_MOST_ZOOM:g}", param, ctx)
        return PhotoType().convert(photo, param, ctx), number


class InchesType(click.ParamType[float]):
    """A length in inches or millimetres, 1/8in or 3mm; inches. None is longer than the smallest pocket is wide."""

    name = "LENGTH"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        from queries.sleeves.sizes import parse_length

        try:
            length = parse_length(str(value))
        except WordError as error:
            self.fail(str(error), param, ctx)
        if length > 2:
            self.fail(f"{value!r} is too wide; give at most 2in", param, ctx)
        return length


class StripType(click.ParamType[tuple[str, float]]):
    """An edge and how much of it is left free, bottom=1/2in."""

    name = "EDGE=LENGTH"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, float]:
        edge, _, length = str(value).partition("=")
        if edge.strip().lower() not in _EDGES or not length:
            self.fail(f"{value!r} is no strip; write it like bottom=1/2in, at {', '.join(_EDGES)}", param, ctx)
        return edge.strip().lower(), InchesType().convert(length, param, ctx)


class ColourType(click.ParamType[str]):
    """A colour as CSS writes it, white or #f4efe6."""

    name = "COLOUR"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        from PIL import ImageColor

        try:
            ImageColor.getrgb(str(value))
        except ValueError:
            self.fail(f"{value!r} is no colour; write it like white or #f4efe6", param, ctx)
        return str(value)


_OPTIONS = (
    click.option("--left", metavar="SLEEVE", help="The sleeve of the left page, which is its back."),
    click.option("--right", metavar="SLEEVE", help="The sleeve of the right page, which is its front."),
    click.option("--cards", "card_count", metavar="N", type=click.IntRange(min=0), help="How many pockets hold cards."),
    click.option(
        "--photos", "photo_count", metavar="N", type=click.IntRange(min=1), help="How many photos are placed."
    ),
    click.option("--pin", "pins", type=PinType(), multiple=True, help="Put a photo into this pocket: L3=PHOTO."),
    click.option("--card", "cards", type=PocketType(), multiple=True, help="This pocket holds a card: R2."),
    click.option("--collage", "collages", type=CollageType(), multiple=True, help="This pocket holds so many: L1=3."),
    click.option("--free", "freed", type=PocketType(), multiple=True, help="Nothing is fixed in this pocket any more."),
    click.option("--mat", type=InchesType(), help="Paper shown around each single photo: 1/8in, 3mm."),
    click.option("--crop", "crops", type=CropType(), multiple=True, help="Which part is shown: PHOTO=top, PHOTO=0.35."),
    click.option("--zoom", "zooms", type=ZoomType(), multiple=True, help="Show a photo nearer: PHOTO=1.2."),
    click.option("--gap", type=InchesType(), help="Between the photos of a collage (1/8in)."),
    click.option("--border", type=InchesType(), help="Around the photos of a collage (1/8in)."),
    click.option("--corners", "corner", type=InchesType(), help="Radius of the corners in a collage (0)."),
    click.option("--background", type=ColourType(), help="Behind the photos of a collage (white)."),
    click.option("--strip", type=StripType(), help="Left free in a collage for decoration: bottom=1/2in."),
)


def wished(command: _F) -> _F:
    """The options that change a plan; `wishes_of` makes one value of them."""
    for option in reversed(_OPTIONS):
        command = option(command)
    return command


def wishes_of(photos: Iterable[Photo], said: Mapping[str, Any]) -> "Wishes":
    """What was asked for, from the named photos and the options. Raises PlanError where two of them contradict."""
    from queries.spread.values import Wishes

    style: dict[str, Any] = {
        name: said[name] for name in ("gap", "border", "corner", "background") if said[name] is not None
    }
    if said["strip"]:
        style |= dict(zip(("strip_edge", "strip"), said["strip"], strict=True))
    _refuse_two_places(said["pins"])
    if both := sorted({*said["cards"]} & {*said["freed"]}):
        raise PlanError(f"{both[0]} is to hold a card and to be free; leave one of the two")
    return Wishes(
        named=tuple(dict.fromkeys(photo.key for photo in photos)),
        left=said["left"],
        right=said["right"],
        card_count=said["card_count"],
        photo_count=said["photo_count"],
        pins={place: photo.key for place, photo in _once("pinned", said["pins"], lambda photo: photo.code)},
        cards=frozenset(said["cards"]),
        collages=dict(_once("given a collage", said["collages"], str)),
        freed=frozenset(said["freed"]),
        mat=said["mat"],
        style=style,
        crops=dict(_once("cropped", [(photo.key, where) for photo, where in said["crops"]], str)),
        zooms=dict(_once("zoomed", [(photo.key, times) for photo, times in said["zooms"]], str)),
    )


def _once(what: str, pairs: Iterable[tuple[str, _T]], shown: Callable[[_T], str]) -> list[tuple[str, _T]]:
    """The pairs, if no name has two values."""
    first: dict[str, _T] = {}
    for name, value in pairs:
        if first.setdefault(name, value) != value:
            raise PlanError(f"{name[:5]} is {what} twice, as {shown(first[name])} and as {shown(value)}; say which")
    return list(first.items())


def _refuse_two_places(pins: Iterable[tuple[str, Photo]]) -> None:
    first: dict[str, str] = {}
    for place, photo in pins:
        if first.setdefault(photo.key, place) != place:
            raise PlanError(f"{photo.code} is pinned twice, to {first[photo.key]} and to {place}; say which")


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None
