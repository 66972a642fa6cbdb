"""weeksheaf clock"""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from indexer.errors import WordError
from queries.cli import clock_words
from queries.cli.moving import tell_and_compare
from queries.cli.output import emit
from queries.cli.parameters import MomentType, as_json
from queries.cli.session import Session

if TYPE_CHECKING:
    from indexer.facts.records import Camera
    from queries.cameras import KnownCamera

    #: The camera, the seconds to add, and the span of its own times.
    Meant = tuple[Camera, int, str | None, str | None]


class ShiftCommand(click.Command):
    """A command that takes a word such as -6h30m for what it is, and not for an option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """A minus before a digit becomes the minus sign of typography, which the shift's own reader knows."""
        return super().parse_args(ctx, [re.sub(r"^-(?=\s*[0-9])", "\u2212", word) for word in args])


@click.group("clock", invoke_without_command=True, short_help="List the cameras' clocks; correct one that is wrong.")
@as_json
@click.pass_context
def command(context: click.Context, as_json: bool) -> None:
    """List the cameras, what their own clocks say, and the corrections that hold. No file is ever changed."""
    from queries.cameras import held_corrections, known_cameras
    from queries.evidence import count_suggestions

    if context.invoked_subcommand:
        if as_json:
            raise click.UsageError(f"write --json at the end: weeksheaf clock {context.invoked_subcommand} ... --json")
        return
    connection = context.obj.connection
    cameras = known_cameras(connection)
    shown = (cameras, held_corrections(connection, cameras), count_suggestions(connection))
    emit(as_json, clock_words.cameras_document(*shown), clock_words.camera_lines(*shown))


@command.command("set", cls=ShiftCommand, short_help="Correct a camera's clock.")
@click.argument("camera", required=False)
@click.argument("shift", nargs=-1)
@click.option("--from", "since", type=MomentType(), help="From this time of the camera's own clock on.")
@click.option("--until", type=MomentType(), help="Before this time of the camera's own clock.")
@click.option("--suggested", type=int, metavar="N", help="Apply number N of weeksheaf clock suggest.")
@as_json
@click.pass_obj
def set_clock(
    session: Session,
    camera: str | None,
    shift: tuple[str, ...],
    since: str | None,
    until: str | None,
    suggested: int | None,
    as_json: bool,
) -> None:
    """Correct the times of a CAMERA by a SHIFT: +1h, -6h30m, or "2015-01-01 00:00 is 2026-03-02 18:20".

    CAMERA is its number in weeksheaf clock, or any part of its name or serial number that no other has. +0s says that a
    clock goes right.
    """
    from indexer.store.clocks import tell_correction
    from queries.cameras import cameras_words, held_corrections, known_cameras

    cameras = known_cameras(session.connection)
    try:
        if suggested is None:
            meant = _told(cameras, camera, shift, since, until)
        else:
            meant = _suggested(session, suggested, is_alone=not (camera or since or until))
        uuid, moves = tell_and_compare(session, lambda connection: tell_correction(connection, *meant, session.today))
    except WordError as error:
        cameras_are = cameras_words(cameras)
        raise WordError(str(error) if cameras_are in str(error) else f"{error}; {cameras_are}") from error
    held = held_corrections(session.connection, known_cameras(session.connection))
    (now,) = (item for item in held if item.correction.uuid == uuid)
    document = {**clock_words.held_fields(now), **clock_words.moves_fields(moves)}
    emit(as_json, document, clock_words.told_lines(now, moves))


def _told(
    cameras: "Sequence[KnownCamera]", camera: str | None, shift: Sequence[str], since: str | None, until: str | None
) -> "Meant":
    """What the person typed."""
    from queries.cameras import camera_named
    from queries.shifts import parse_shift

    if not (camera and shift):
        raise click.UsageError("name a CAMERA and a SHIFT, or --suggested N and nothing else")
    return camera_named(cameras, camera).camera, parse_shift(" ".join(shift)), since, until


def _suggested(session: Session, number: int, *, is_alone: bool) -> "Meant":
    """What the evidence speaks for."""
    from queries.suggestions import suggestion_numbered

    if not is_alone:
        raise click.UsageError("--suggested N stands alone: a suggestion has its own camera, shift and span")
    likely = suggestion_numbered(session.connection, number)
    return likely.camera.camera, likely.shift_seconds, likely.since, likely.until


@command.command("suggest", short_help="List likely corrections; none is applied unasked.")
@as_json
@click.pass_obj
def suggest(session: Session, as_json: bool) -> None:
    """List the corrections that the evidence speaks for, and what each would do. None is applied unasked."""
    from indexer.store.archive import corrections
    from indexer.store.files import was_read_by_another_version
    from queries.suggestions import likely_corrections
    from queries.week_log import latest_words

    settings = session.settings
    words = latest_words(session.connection, settings.week_rule)
    found = likely_corrections(session.connection, words, settings.week_rule, settings.day_starts_at)
    if was_read_by_another_version(session.connection):
        click.echo(
            "The photos were read by an older version, which asked less of them; first: weeksheaf index", err=True
        )
    is_told = bool(corrections(session.connection))
    emit(as_json, clock_words.suggestions_document(found), clock_words.suggestion_lines(found, is_told=is_told))


@command.command("forget", short_help="Take a correction back.")
@click.argument("number", type=int)
@as_json
@click.pass_obj
def forget(session: Session, number: int, as_json: bool) -> None:
    """Take back the correction with this NUMBER in weeksheaf clock."""
    from indexer.store.clocks import take_back
    from queries.cameras import held_corrections, held_numbered, known_cameras

    held = held_numbered(held_corrections(session.connection, known_cameras(session.connection)), number)
    _, moves = tell_and_compare(session, lambda connection: take_back(connection, held.correction.uuid, session.today))
    document = {**clock_words.held_fields(held), **clock_words.moves_fields(moves)}
    emit(as_json, document, clock_words.forgotten_lines(held, moves))
