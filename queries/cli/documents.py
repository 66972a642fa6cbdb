"""Results as JSON documents: the field names that scripts rely on."""

from collections.abc import Sequence
from typing import Any

from queries.devices import Device
from queries.membership import Alike
from queries.photos import Photo
from queries.progress import Gap, WeekRow, WeekTable
from queries.settings import Settings
from queries.week_log import Word
from queries.weeks import Week


def week_fields(week: Week) -> dict[str, Any]:
    return {
        "name": week.name,
        "first_day": week.first_day.isoformat(),
        "last_day": week.last_day.isoformat(),
    }


def week_row(row: WeekRow) -> dict[str, Any]:
    return {
        **week_fields(row.week),
        "state": row.word.state,
        "waiting_for": list(row.word.waiting_for),
        "photos": row.photos,
        "keepers": row.keepers,
        "portrait": row.portrait,
        "landscape": row.landscape,
        "square": row.square,
        "doubtful": row.doubtful,
        "late": row.late,
    }


def week_table(table: WeekTable) -> dict[str, Any]:
    return {
        "weeks": [week_row(row) for row in table.rows],
        "gaps": [gap_fields(gap) for gap in table.gaps],
        "doubtful_outside": table.outside,
    }


def gap_fields(gap: Gap) -> dict[str, Any]:
    return {
        "first_day": gap.first.first_day.isoformat(),
        "last_day": gap.last.last_day.isoformat(),
        "weeks": gap.weeks,
    }


def photo_fields(photo: Photo, settings: Settings) -> dict[str, Any]:
    day = photo.album_day(settings.day_starts_at)
    week = settings.week_rule.whole_week_of(day) if day else None
    shown = photo.shown_day(week, settings.day_starts_at)
    return {
        "path": photo.path,
        "paths": list(photo.paths),
        "key": photo.key,
        "code": photo.code,
        "week": week.name if week else None,
        "day": shown.isoformat() if shown else None,
        "taken": photo.taken,
        "precision": photo.precision,
        "zone": photo.zone,
        "source": photo.source,
        "doubtful": photo.doubtful,
        "reason": photo.reason,
        "assigned": photo.assigned,
        "shape": photo.shape,
        "width": photo.width,
        "height": photo.height,
        "orientation": photo.orientation,
        "format": photo.format,
        "camera": photo.camera,
        "damage": photo.damage,
        "alike": alike_fields(photo.alike),
        "keeper": photo.keeper,
        "choice": photo.choice,
    }


def alike_fields(alike: Alike | None) -> dict[str, Any] | None:
    """The set that a photo is in: its kind, its keeper (null where all of it are left out), how many photos it has."""
    if alike is None:
        return None
    return {
        "kind": alike.kind,
        "keeper": alike.keeper_path,
        "keeper_code": alike.keeper_code,
        "photos": alike.photos,
        "reason": alike.reason,
    }


def word_fields(word: Word) -> dict[str, Any]:
    return {
        "told_at": word.told_at,
        "state": word.state,
        "waiting_for": list(word.waiting_for),
        "note": word.note,
    }


def device_fields(device: Device, uncopied: Sequence[Device]) -> dict[str, Any]:
    return {
        "camera": device.camera,
        "serial": device.serial,
        "photos": device.photos,
        "first": device.first,
        "last": device.last,
        "not_copied_yet": device in uncopied,
    }
