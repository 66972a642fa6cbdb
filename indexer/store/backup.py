"""All that the person told, as one readable JSON file, and back again.

The form, `"format": 2`: `made_by`, `format`, `made_at` (UTC), `index_id`, and `words` with a list a table: `week_log`
(`uuid, told_at, first_day, state, waiting_for, note, holding`: the keys of the photos a done week holds),
`setting_log` (`uuid, told_at, name, value`), `succession` (`uuid, told_at, old_key, new_key`), `choice` (`uuid,
told_at, photo_key, choice`), `clock_log` (`uuid, told_at, make, model, serial, shift_seconds, since, until,
takes_back`), `assignment` (`uuid, told_at, photo_key, what, value`), `sleeve_log` (`uuid, told_at, name, cell,
drawing`), `sleeve_own_log` (`uuid, told_at, name, owned`), `plan_log` (`uuid, told_at, first_day, plan`, a JSON
text), `note_log` (`uuid, told_at, first_day, day, text, takes_back`) and `order_log` (`uuid, told_at, order_id, number,
what, content`, a JSON text, `takes_back`); an older backup lacks those that came later.
Restoring is a union by `uuid`: nothing is lost or doubled, however often it is done, and into whichever index.
"""

import json
import os
import re
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

from indexer.errors import WordError
from indexer.store.alikes import renew_followed_words, renew_sets
from indexer.store.opening import backup_folder, transaction
from indexer.store.pictures import judge_all
from indexer.store.word_forms import checked
from indexer.store.words import WORD_TABLES, written

#: Versions that read format 1 alone drop the kinds of words they do not know. Later ones see by the names of the tables
#: that there are such, so a new kind needs no new number.
FORMAT = 2
#: How many of the backups made unasked are kept.
KEPT = 10

Words = dict[str, list[dict[str, Any]]]


@dataclass(frozen=True, slots=True)
class Restored:
    """How many words were new to the index, and how many it had already."""

    added: int
    had: int


def all_words(connection: sqlite3.Connection) -> Words:
    """Every word in the index, oldest first, as a backup holds them."""
    words: Words = {}
    for table, columns in WORD_TABLES.items():
        rows = connection.execute(f"SELECT {', '.join(columns)} FROM {table} ORDER BY told_at, uuid")
        words[table] = [dict(row) for row in rows]
    for entry in words["week_log"]:
        entry["waiting_for"] = json.loads(entry["waiting_for"])
        held = connection.execute(
            "SELECT photo_key FROM week_holding WHERE log_uuid = ? ORDER BY photo_key", (entry["uuid"],)
        )
        entry["holding"] = [key for (key,) in held]
    return words


def write_backup(connection: sqlite3.Connection, file: Path) -> int:
    """Write all words to `file`, whole or not at all; returns how many. OSError where it cannot be written.

    A file that is there is replaced only when it is a backup with no word that this index lacks; WordError otherwise.
    """
    words = all_words(connection)
    if file.exists():
        _refuse_loss(file, words)
    text = json.dumps(
        {
            "made_by": "weeksheaf",
            "format": FORMAT,
            "made_at": written(datetime.now(UTC)),
            "index_id": _index_id(connection),
            "words": words,
        },
        indent=1,
    )
    temporary = file.with_name(f".{uuid4().hex}.part")
    try:
        with temporary.open("x", encoding="utf-8") as out:
            out.write(text + "\n")
            out.flush()
            os.fsync(out.fileno())
        temporary.replace(file)
    finally:
        temporary.unlink(missing_ok=True)
    return sum(map(len, words.values()))


def keep_backup(connection: sqlite3.Connection, index: Path) -> None:
    """The backup made unasked after words have changed: beside the index, the newest KEPT of this index's own.

    Does nothing when the last one holds all that was told. OSError where it cannot be written, WordError where another
    file lies in its place.
    """
    words = all_words(connection)
    last = max((row["told_at"] for rows in words.values() for row in rows), default=None)
    if last is None:
        return
    folder = backup_folder(index)
    stem = f"words-{_index_id(connection)[:8]}-"
    file = folder / f"{stem}{re.sub('[-:.]', '', last)}.json"
    if file.exists() and read_backup(file) == words:  # restored words may be older than the last one told
        return
    folder.mkdir(exist_ok=True)
    write_backup(connection, file)
    for old in sorted(folder.glob(f"{stem}*.json"))[:-KEPT]:
        old.unlink(missing_ok=True)


def newest_backup(index: Path) -> Path | None:
    """The backup made last of those beside the index, of whichever index that lay there."""
    found = backup_folder(index).glob("words-*.json")
    return max(found, key=lambda file: file.name.rpartition("-")[2], default=None)


def read_backup(file: Path) -> Words:
    """The words in a backup file. Raises WordError, which names the file and what is wrong with it."""
    try:
        document = json.loads(file.read_text("utf-8"))
    except OSError as error:
        raise WordError(f"the backup {file} cannot be read ({error.strerror}); check the name") from error
    except (ValueError, RecursionError) as error:
        raise WordError(f"{file} is not a weeksheaf backup (no JSON inside); nothing was restored") from error
    if not isinstance(document, dict) or document.get("made_by") != "weeksheaf" or "words" not in document:
        raise WordError(f"{file} is not a weeksheaf backup; nothing was restored")
    if document.get("format") not in range(1, FORMAT + 1) or _holds_unknown(document["words"]):
        raise WordError(f"the backup {file} was made by a newer version of weeksheaf; update, then restore it")
    try:
        return {table: [checked(table, row) for row in document["words"].get(table, ())] for table in WORD_TABLES}
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as error:
        raise WordError(
            f"the backup {file} is damaged (a word in it has no right form: {error}); nothing was restored"
        ) from error


def restore(connection: sqlite3.Connection, words: Words, today: date) -> Restored:
    """Add the words that the index lacks, all or none, and judge every photo and make every set anew by them."""
    from sqlite_utils import Database  # slow to import, and needed here alone

    with transaction(connection):
        before = _count(connection)
        database = Database(connection)
        for table, columns in WORD_TABLES.items():
            rows = [_row_of(row, columns) for row in words[table]]
            database.table(table).insert_all(rows, ignore=True, pk="uuid")
        # Not by sqlite-utils, which asks for the rowid of a single row, and this table has none.
        connection.executemany(
            "INSERT INTO week_holding (log_uuid, photo_key) VALUES (?, ?) ON CONFLICT DO NOTHING",
            [(row["uuid"], key) for row in words["week_log"] for key in row["holding"]],
        )
        renew_followed_words(connection)
        judge_all(connection, today)
        renew_sets(connection)
        added = _count(connection) - before
    return Restored(added, sum(len(words[table]) for table in WORD_TABLES) - added)


def _refuse_loss(file: Path, words: Words) -> None:
    """Raises WordError unless the file is a backup all of whose words are among these."""
    try:
        there = read_backup(file)
    except WordError as error:
        raise WordError(
            f"{file} is there already and is no backup; it was left as it is: choose another name"
        ) from error
    for table, rows in there.items():
        if {row["uuid"] for row in rows} - {row["uuid"] for row in words[table]}:
            raise WordError(
                f"{file} is a backup with words that this index lacks; it was left as it is: choose another name,"
                " or restore it first"
            )


def _holds_unknown(words: object) -> bool:
    """Whether there are kinds of words that this version does not know: to leave them out would be to lose them."""
    return isinstance(words, dict) and not words.keys() <= WORD_TABLES.keys()


def _row_of(row: Mapping[str, Any], columns: tuple[str, ...]) -> dict[str, Any]:
    return {name: json.dumps(row[name]) if name == "waiting_for" else row[name] for name in columns}


def _count(connection: sqlite3.Connection) -> int:
    return sum(connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in WORD_TABLES)


def _index_id(connection: sqlite3.Connection) -> str:
    return str(connection.execute("SELECT value FROM about WHERE name = 'index_id'").fetchone()[0])
