"""Pull a week: gather what is there, plan, say the plan, copy, draw the sheet, write week.json."""

import contextlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Protocol

from indexer.errors import PullError
from queries.made_files.folder import check_space, check_target, look_at, named_troubles
from queries.made_files.writing import clear_leftovers
from queries.originals import find_source
from queries.photos import Photo
from queries.pull import gathering
from queries.pull.applying import Account, copy_files, write_manifest
from queries.pull.manifest import FILE_NAME, Manifest, Unusable
from queries.pull.names import names_of
from queries.pull.plan import PullPlan, plan_pull, plan_words
from queries.pull.records import in_file_order, records_before_copying
from queries.pull.selection import Selection
from queries.pull.sheet_entries import content_of
from queries.pull.sheet_file import put_sheet
from queries.weeks import Week, span_words, week_words

#: Why a file that was pulled earlier is not in the plan.
_OUT_NOW = "pulled earlier; its photo is left out now"
_ELSEWHERE_NOW = "its photo is not in this week now (moved to another, edited, or gone)"


class WeekState(Protocol):
    """What was told of the week last: `state` is one of the five words, `waiting_for` is empty unless it waits."""

    @property
    def state(self) -> str: ...
    @property
    def waiting_for(self) -> Sequence[str]: ...


@dataclass(frozen=True, slots=True)
class PullResult:
    """What a pull did. `added` and `kept` are file names; the pairs are a name or an original's path, and why.

    `left` are files in the folder that were not touched where they stood in the way or are no longer of the week,
    `not_found` the originals that are gone or changed, `failed` those that could not be read or turned into a JPEG,
    `notes` what was guessed about files that were written. `sheets` are the week sheets that are ours and up to date.
    `left_out` are the codes of the week's photos that were not to be pulled.
    """

    folder: Path
    added: tuple[str, ...]
    kept: tuple[str, ...]
    left: tuple[tuple[str, str], ...]
    not_found: tuple[tuple[str, str], ...]
    failed: tuple[tuple[str, str], ...]
    notes: tuple[tuple[str, str], ...]
    sheets: tuple[Path, ...]
    bytes_written: int
    left_out: tuple[str, ...] = ()


def pull_week(
    selection: Selection,
    week: Week,
    state: WeekState,
    folder: Path,
    library_folders: Sequence[Path],
    *,
    as_jpeg: bool,
    say: Callable[[str], None],
    day_of: Callable[[Photo], date | None],
) -> PullResult:
    """Make or complete the week's working folder; `say` is told the plan with its sizes before anything is written.

    What was finished when an error or an interrupt comes is kept and recorded. Raises PullError when the
    folder holds another pull, FolderError when it is a file, lies in a library, cannot be written or has no room.
    """
    folder, photos = folder.absolute(), selection.taken
    with named_troubles(folder):
        check_target(folder, library_folders)
        found = gathering.read_held(folder)
        held = _usable(found, week, folder)
        if not photos and held is None:
            raise _nothing_to_pull(selection, week)
        plan = _gather_and_plan(selection, week, folder, held, as_jpeg=as_jpeg)
    if photos and len(plan.having("missing")) == len(plan.files) and held is None:
        raise PullError(
            f"none of the {len(photos)} photos of {span_words(week)} can be reached; connect their disk, or run"
            " weeksheaf index"
        )
    say(plan_words(plan, week, len(selection.left_out)))

    left_out = {item.photo.key: item.photo for item in selection.left_out}
    account = Account(records_before_copying(plan, left_out), held.sheets if held else ())

    def record() -> None:
        if isinstance(found, Unusable):
            account.left.append((FILE_NAME, f"{found.reason}; files are judged by their content alone"))
            return
        records, waits = in_file_order(account.records.values()), tuple(state.waiting_for)
        manifest = Manifest(week.name, week.first_day, as_jpeg, state.state, waits, records, account.sheets)
        write_manifest(manifest, folder)

    with named_troubles(folder, lambda: _bytes_left(plan, account)):
        check_space(folder, plan.total_bytes)
        folder.mkdir(parents=True, exist_ok=True)
        clear_leftovers(folder)
        with _at_any_end(record):
            copy_files(plan.having("copy"), folder, account, as_jpeg=as_jpeg)
            ours = {*account.added, *(file.name for file in plan.having("keep"))}
            content = content_of(plan, selection.left_out, ours, folder, day_of)
            put_sheet(content, week, folder, account)
    return _result(plan, folder, account, left_out)


@contextlib.contextmanager
def _at_any_end(record: Callable[[], None]) -> Iterator[None]:
    """Record what was done, however it ends; then what ended it goes on."""
    try:
        yield
    except BaseException:
        with contextlib.suppress(OSError):  # what stopped the run is what the person must hear of
            record()
        raise
    record()


def _usable(found: Manifest | Unusable | None, week: Week, folder: Path) -> Manifest | None:
    """The manifest, if it can be relied on. Raises PullError when even so it is seen to be another week's."""
    if not isinstance(found, Unusable):
        return found
    if found.first_day not in (None, week.first_day):
        raise PullError(f"{folder / FILE_NAME} is another week's; choose another folder for {span_words(week)}")
    return None


def _gather_and_plan(
    selection: Selection, week: Week, folder: Path, held: Manifest | None, *, as_jpeg: bool
) -> PullPlan:
    photos, beside = selection.taken, [item.photo for item in selection.left_out]
    records = {record.file: record for record in held.photos} if held else {}
    names = names_of(photos, {record.key: name for name, record in records.items()}, as_jpeg=as_jpeg, beside=beside)
    on_disk = look_at(folder, {*names.values(), *records}, records)
    sources = {photo.key: find_source(photo) for photo in photos}
    for photo in photos:
        name = names[photo.key]
        if name in on_disk and name not in records:
            on_disk[name], sources[photo.key] = gathering.hashed_to_compare(
                folder / name, on_disk[name], photo, sources[photo.key], as_jpeg=as_jpeg
            )
    return plan_pull(photos, week, folder, as_jpeg=as_jpeg, held=held, on_disk=on_disk, sources=sources, beside=beside)


def _bytes_left(plan: PullPlan, account: Account) -> int:
    done = set(account.added)
    return sum(file.size for file in plan.having("copy") if file.name not in done)


def _nothing_to_pull(selection: Selection, week: Week) -> PullError:
    if selection.left_out:
        count = len(selection.left_out)
        return PullError(
            f"{week_words(week)} has {count} photos, all of them left out; weeksheaf pull --all takes them"
        )
    return PullError(f"{week_words(week)} has no photos to pull; `weeksheaf weeks` lists the weeks that have")


def _result(plan: PullPlan, folder: Path, account: Account, left_out: Mapping[str, Photo]) -> PullResult:
    left = [(file.name, file.reason) for file in plan.having("leave")]
    left += [(stray.file, _OUT_NOW if stray.key in left_out else _ELSEWHERE_NOW) for stray in plan.strays]
    return PullResult(
        folder=folder,
        added=tuple(account.added),
        kept=tuple(file.name for file in plan.having("keep")),
        left=(*left, *account.left),
        not_found=tuple((file.source.path, file.reason) for file in plan.having("missing")),
        failed=tuple(account.failed),
        notes=tuple(account.notes),
        sheets=tuple(account.sheet_paths),
        bytes_written=account.bytes_written,
        left_out=tuple(photo.code for photo in left_out.values()),
    )
