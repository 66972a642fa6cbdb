"""What the commands take, as parameter types: the text is parsed here and nowhere else."""

import sys
from collections.abc import Callable
from datetime import date
from typing import Any, TypeVar

import click

from indexer.store.words import WAITS
from queries.cli.session import Session, warn
from queries.photos import Photo
from queries.told_times import parse_moment, parse_taken
from queries.weeks import Week, parse_week

_F = TypeVar("_F", bound=Callable[..., Any])


class WeekType(click.ParamType[Week]):
    """A week by the person's own calendar."""

    name = "WEEK"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Week:  # noqa: ARG002
        if isinstance(value, Week):
            return value
        session = _session(ctx)
        return parse_week(value, session.settings.week_rule, session.album_day)


class PhotoType(click.ParamType[Photo]):
    """A photo by its path or code."""

    name = "PHOTO"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Photo:  # noqa: ARG002
        from queries.naming import is_code, photo_named

        if isinstance(value, Photo):
            return value
        photo = photo_named(_session(ctx).connection, value)
        if is_code(value) and not photo.key.startswith(value.lower()):
            warn(f"{value} was edited and saved over; it is {photo.code} now")
        return photo


class DateType(click.ParamType[date]):
    """A date written 2026-04-01."""

    name = "DATE"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        if isinstance(value, date):
            return value
        try:
            day = date.fromisoformat(value)
        except ValueError:
            day = None
        if day is None or day.isoformat() != value:  # 2026-W14 would be the week of ISO 8601, not the person's own
            self.fail(f"{value!r} is not a date; write it like 2026-04-01", param, ctx)
        return day


class MomentType(click.ParamType[str]):
    """A time of a clock, written 2026-03-30 09:15 or with seconds, or a date; ISO 8601 to the second."""

    name = "TIME"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:  # noqa: ARG002
        return parse_moment(str(value))


class TakenType(click.ParamType[str]):
    """When a photo was taken, as exactly as is known; ISO 8601 of reduced precision."""

    name = "TIME"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:  # noqa: ARG002
        return parse_taken(str(value), _session(ctx).today)


class TextType(click.ParamType[str]):
    """A text to be kept. Bytes that are no text would make a backup that cannot be restored."""

    name = "TEXT"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        text = str(value)
        try:
            text.encode()
        except UnicodeEncodeError:
            self.fail("it holds bytes that are no text; type it anew", param, ctx)
        return text


class NoteType(TextType):
    """A text for a card; "-" stands for what standard input holds."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        from queries.notes import note_text

        text = str(value)
        if text == "-":
            try:
                text = sys.stdin.buffer.read().decode("utf-8-sig")
            except UnicodeDecodeError:
                self.fail("standard input holds bytes that are no text; save it as UTF-8", param, ctx)
        return note_text(super().convert(text, param, ctx))


class WaitType(TextType):
    """What a week waits for, "kind:what"; a text without a kind is a supply."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        value = super().convert(value, param, ctx)
        kind, _colon, what = (part.strip() for part in value.partition(":"))
        if kind.lower() in WAITS:
            what = what.removeprefix("from ") if kind.lower() == "photos" else what
            return f"{kind.lower()}:{what}" if what else kind.lower()
        text = " ".join(value.split())
        if not text.strip(": "):
            self.fail(f'say what is waited for, such as {WAITS[0]}:"slate-blue cards"', param, ctx)
        return f"supplies:{text}"


def as_json(command: _F) -> _F:
    """The --json option."""
    return click.option("--json", "as_json", is_flag=True, help="One JSON document on stdout and nothing else.")(
        command
    )


def shortlisted(says: str) -> Callable[[_F], _F]:
    """The --shortlist option, the number of photos wanted or None; `says` is its help."""
    return click.option("--shortlist", "wanted", metavar="N", type=click.IntRange(min=0), help=says)


def _session(ctx: click.Context | None) -> Session:
    assert ctx is not None  # click always gives one while it parses a command line
    session: Session = ctx.obj
    return session
