"""What the person told the tool: each word a row with a UUID and the moment it was told, in universal time."""

import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from uuid import uuid4

#: The tables of words and their columns. A backup holds these, and with each word of the week log what it holds.
WORD_TABLES: dict[str, tuple[str, ...]] = {
    "week_log": ("uuid", "told_at", "first_day", "state", "waiting_for", "note"),
    "setting_log": ("uuid", "told_at", "name", "value"),
    "succession": ("uuid", "told_at", "old_key", "new_key"),
    "choice": ("uuid", "told_at", "photo_key", "choice"),
    "clock_log": ("uuid", "told_at", "make", "model", "serial", "shift_seconds", "since", "until", "takes_back"),
    "assignment": ("uuid", "told_at", "photo_key", "what", "value"),
    "sleeve_log": ("uuid", "told_at", "name", "cell", "drawing"),
    "sleeve_own_log": ("uuid", "told_at", "name", "owned"),
    "plan_log": ("uuid", "told_at", "first_day", "plan"),
    "note_log": ("uuid", "told_at", "first_day", "day", "text", "takes_back"),
    "order_log": ("uuid", "told_at", "order_id", "number", "what", "content", "takes_back"),
}

#: What a week can be.
STATES = ("open", "started", "waiting", "done", "skipped")
#: What can be chosen for a photo.
CHOICES = ("keep", "leave")
#: What can be told of a photo's time: the week it belongs to, and when it was taken.
ASSIGNED = ("week", "taken")
#: What can be told of an order of prints: two with a content, three that are its state.
ORDER_CONTENTS = ("planned", "reprint")
ORDER_STATES = ("sent", "arrived", "dropped")
#: What is told of an order where one of those does not hold.
TAKEN_BACK = "taken back"
#: No order has a larger number.
LARGEST_NUMBER = 10**9
#: No clock is wrong by more: a hundred years, in seconds.
LARGEST_SHIFT = 36525 * 86400
#: What a week can wait for.
WAITS = ("supplies", "prints", "photos", "words")


@dataclass(frozen=True, slots=True)
class Stamp:
    """The identity of a new word."""

    uuid: str
    told_at: str


def new_stamp(connection: sqlite3.Connection) -> Stamp:
    """A fresh UUID and the present moment, or just after the last word should the computer's clock have been set back:
    the latest word holds, so it must also sort last."""
    now = datetime.now(UTC)
    lasts = (connection.execute(f"SELECT max(told_at) FROM {table}").fetchone()[0] for table in WORD_TABLES)
    last = max(filter(None, lasts), default="")
    if written(now) <= last:
        now = datetime.fromisoformat(last) + timedelta(microseconds=1)
    return Stamp(str(uuid4()), written(now))


def is_text(text: str) -> bool:
    """Whether a text can be kept: half a surrogate pair, which a terminal makes of undecodable bytes, cannot."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def written(moment: datetime) -> str:
    """Universal time to the microsecond in one form, so that texts sort as moments do."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")
