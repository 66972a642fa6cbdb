"""The form of each word in a backup: a file may have been changed by hand, or by another program."""

import json
from collections.abc import Callable
from datetime import MAXYEAR, date, datetime
from typing import Any
from uuid import UUID

from indexer.store.words import (
    ASSIGNED,
    CHOICES,
    LARGEST_NUMBER,
    LARGEST_SHIFT,
    ORDER_CONTENTS,
    ORDER_STATES,
    STATES,
    TAKEN_BACK,
    WORD_TABLES,
    written,
)

#: Letters of an ISO 8601 time of reduced precision, and what completes it.
_COMPLETED = {4: "-01-01", 7: "-01", 10: "", 16: "", 19: ""}


def checked(table: str, row: dict[str, Any]) -> dict[str, Any]:
    """The row if every value has its form; KeyError, TypeError, ValueError or OverflowError otherwise."""
    json.dumps(row, ensure_ascii=False).encode()  # half a surrogate pair cannot be kept
    told_at = datetime.fromisoformat(row["told_at"])
    if not is_uuid(row["uuid"]) or written(told_at) != row["told_at"] or told_at.year == MAXYEAR:
        raise ValueError(f"{row['uuid']!r}, {row['told_at']!r}")
    for name in WORD_TABLES[table]:
        _check(name, row[name], is_good=_is_good(table, name, row[name]))
    if table == "week_log":
        _check("holding", row["holding"], is_good=_is_list_of_texts(row["holding"]))
    if table == "clock_log":
        _check("takes_back", row["takes_back"], is_good=_is_correction(row) or _is_taking_back(row))
    if table == "assignment" and row["value"] is not None:
        is_good = is_first_day(row["value"]) if row["what"] == "week" else is_time(row["value"])
        _check("value", row["value"], is_good=is_good)
    if table == "sleeve_log":
        _check("drawing", row["drawing"], is_good=(row["drawing"] is None) == (row["cell"] is None))
    if table == "note_log":
        _check("takes_back", row["takes_back"], is_good=_is_note(row) or _is_note_taken_back(row))
    if table == "order_log":
        _check("what", row["what"], is_good=_is_word_of_order(row))
    return row


def is_uuid(value: object) -> bool:
    """Whether it is a UUID in its one written form. Raises ValueError for a text that is none."""
    return isinstance(value, str) and str(UUID(value)) == value


def is_time(value: object) -> bool:
    """Whether it is a local wall clock in ISO 8601, whole or reduced to minutes, a day, a month or a year."""
    if not isinstance(value, str) or len(value) not in _COMPLETED:
        return False
    whole = datetime.fromisoformat(value + _COMPLETED[len(value)])
    text = whole.isoformat() if len(value) == 19 else whole.isoformat(timespec="minutes")
    return text[: len(value)] == value


def is_first_day(value: object) -> bool:
    """Whether it is a date of a week that the calendar holds whole."""
    day = date.fromisoformat(str(value))
    return day.isoformat() == value and day.year < MAXYEAR


def _is_good(table: str, name: str, value: object) -> bool:
    if name == "what":
        return value in (ASSIGNED if table == "assignment" else (*ORDER_CONTENTS, *ORDER_STATES, TAKEN_BACK))
    if name in ("value", "takes_back", "cell", "drawing", "text"):
        return value is None or isinstance(value, str)
    return _FORMS[name](value) if name in _FORMS else isinstance(value, str)


def _is_correction(row: dict[str, Any]) -> bool:
    shift, since, until = row["shift_seconds"], row["since"], row["until"]
    if shift is None or row["takes_back"] is not None or not (row["make"] or row["model"]):
        return False  # the last would be a correction of all photos that name no camera
    return not isinstance(shift, bool) and abs(shift) <= LARGEST_SHIFT and (since or "") < (until or "~")


def _is_taking_back(row: dict[str, Any]) -> bool:
    return row["shift_seconds"] is None and is_uuid(row["takes_back"])


def _is_note(row: dict[str, Any]) -> bool:
    return bool(row["text"]) and row["takes_back"] is None


def _is_note_taken_back(row: dict[str, Any]) -> bool:
    return row["text"] is None and row["takes_back"] is not None and is_uuid(row["takes_back"])


def _is_word_of_order(row: dict[str, Any]) -> bool:
    if row["takes_back"] is not None:
        return row["what"] == TAKEN_BACK and row["content"] is None and is_uuid(row["takes_back"])
    return row["what"] in (ORDER_STATES if row["content"] is None else ORDER_CONTENTS)


def _is_json_object(value: object) -> bool:
    try:
        return isinstance(value, str) and isinstance(json.loads(value), dict)
    except RecursionError:
        return False


def _is_number(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and 0 < value <= LARGEST_NUMBER


def _is_list_of_texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(item, str) for item in value)


def _check(name: str, value: object, *, is_good: bool) -> None:
    if not is_good:
        raise ValueError(f"{name} {value!r}")


#: The form of a column's values, whichever table it is in; any other holds texts.
_FORMS: dict[str, Callable[[Any], bool]] = {
    "waiting_for": _is_list_of_texts,
    "state": lambda value: value in STATES,
    "choice": lambda value: value in (*CHOICES, None),
    "first_day": is_first_day,
    "shift_seconds": lambda value: value is None or isinstance(value, int),
    "owned": lambda value: value in (0, 1) and not isinstance(value, bool | float),
    "plan": lambda value: value is None or _is_json_object(value),
    "content": lambda value: value is None or _is_json_object(value),
    "since": lambda value: value is None or (is_time(value) and len(value) == 19),
    "until": lambda value: value is None or (is_time(value) and len(value) == 19),
    "day": lambda value: value is None or date.fromisoformat(str(value)).isoformat() == value,
    "order_id": is_uuid,
    "number": _is_number,
}
