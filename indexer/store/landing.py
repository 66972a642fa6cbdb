"""Where readings land: each finds its row, or the row of the file that has moved; a batch is one transaction."""

import sqlite3
from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from indexer.facts.changes import KnownFile
from indexer.interrupts import interrupts_held
from indexer.store import files
from indexer.store.files import FileRow
from indexer.store.opening import transaction
from indexer.store.pictures import judge
from indexer.store.pixels import forget_failed
from indexer.store.successions import tell_succession


class Landing:
    """Takes the readings of one run and writes them down in batches.

    `lost` are the rows of files that are not where they were; a new file with the same picture takes over such a row.
    `counts` holds files by what became of them: new, changed, moved, unchanged, other, unreadable.
    """

    def __init__(self, connection: sqlite3.Connection, lost: Iterable[KnownFile], today: date) -> None:
        self.today = today
        self.counts: Counter[str] = Counter()
        self._connection = connection
        self._batch: list[tuple[FileRow, KnownFile | None]] = []
        self._moved: set[int] = set()
        self._saved_over: list[tuple[FileRow, KnownFile | None]] = []
        self._lost: defaultdict[str, list[KnownFile]] = defaultdict(list)
        for row in lost:
            if row.key:
                self._lost[row.key].append(row)

    def add(self, row: FileRow, known: KnownFile | None) -> None:
        """Take a reading for the next batch; `known` is the row its path had before.

        Another picture in place of a known one waits for `settle`: were the run stopped in between, its row would have
        changed without the word of it, and the next run could not tell that it had.
        """
        is_other = known and known.key and row.key and known.key != row.key
        (self._saved_over if is_other else self._batch).append((row, known))

    def write(self) -> None:
        """Write the batch down; it stays in hand until it has been written whole."""
        if not self._batch:
            return
        counts, moved = Counter(self.counts), set(self._moved)
        with interrupts_held():  # between the commit and the note of it the batch would be written twice
            with transaction(self._connection):
                self._land(self._batch, counts, moved)
            self.counts, self._moved = counts, moved
            self._batch.clear()

    def _land(self, batch: Iterable[tuple[FileRow, KnownFile | None]], counts: Counter[str], moved: set[int]) -> None:
        touched: set[str] = set()
        for row, known in batch:
            if known and known.kind == "photo" and row.reading.is_shut:
                files.save_failures(self._connection, known.id, row.reading.failures)
                counts.update(("unchanged", "unreadable"))  # what was read before holds until it can be opened again
                continue
            landed = self._take_over(row, moved) if known is None and row.key else row
            counts.update(self._fates(landed, known))
            files.save(self._connection, [landed])
            touched.update(key for key in (row.key, known and known.key) if key)
        judge(self._connection, touched, self.today)
        forget_failed(self._connection, touched)

    def not_moved(self, rows: Iterable[KnownFile]) -> list[KnownFile]:
        """Those of the lost rows that no new file has taken over."""
        return [row for row in rows if row.id not in self._moved]

    def _take_over(self, row: FileRow, moved: set[int]) -> FileRow:
        """The row with the id of a lost file that shows the same picture, where there is one."""
        for lost in self._lost.get(row.key or "", ()):
            if lost.id not in moved:
                moved.add(lost.id)
                return replace(row, id=lost.id)
        return row

    def _fates(self, row: FileRow, known: KnownFile | None) -> Iterable[str]:
        """What became of a file that was read; a photo with a failed step counts as a photo and as unreadable."""
        if row.reading.failures:
            yield "unreadable"
        if row.reading.kind == "other":
            yield "other"
        if row.reading.kind == "photo":
            if known is None or known.kind != "photo":
                yield "new" if row.id is None or known else "moved"
            else:
                same = files.known_digest(self._connection, known.id) == files.digest_of(row.reading)
                yield "unchanged" if same else "changed"

    def settle(self, absent: Iterable[KnownFile], returned: Iterable[KnownFile], now: str) -> int:
        """Once all is read and it is known who has only moved: write down who is gone, who is back, and which pictures
        were saved over. Returns how many photos have no file left that is there, and none that took its place."""
        gone, back = self.not_moved(absent), list(returned)
        keys = {row.key for row in (*gone, *back) if row.key}
        counts = Counter(self.counts)
        with interrupts_held():
            with transaction(self._connection):
                edits = self._edits()
                self._land(self._saved_over, counts, self._moved)
                files.mark_missing(self._connection, (row.id for row in gone), now)
                files.mark_returned(self._connection, (row.id for row in back))
                judge(self._connection, keys, self.today)
                succeeded = self._tell_successions(edits)
            self.counts = counts
        before = {known.key for _, known in self._saved_over if known and not known.is_missing}
        lost = {key for key in before | {row.key for row in gone} if key} - succeeded
        return sum(not files.is_present(self._connection, key) for key in lost)

    def _edits(self) -> list[tuple[str, str]]:
        """(old key, new key) of pictures that were saved over: a whole picture that was there until now, and in its
        place one that was nowhere before. Another old photo under a reused name is none."""
        return [
            (known.key, row.key)
            for row, known in self._saved_over
            if known and known.key and row.key
            if not known.is_missing and (known.was_shut or not known.has_failed)
            if not files.is_known(self._connection, row.key)
        ]

    def _tell_successions(self, edits: Iterable[tuple[str, str]]) -> set[str]:
        """Tell which key came after each that has no file any more; gives those keys.

        Only at the end of a run: two files that changed names with each other look like this halfway.
        """
        told = set()
        for old, new in edits:
            if not files.is_present(self._connection, old):
                tell_succession(self._connection, old, new)
                told.add(old)
        return told
