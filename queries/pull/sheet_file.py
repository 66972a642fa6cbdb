"""The week sheet's file: drawn when it is missing or no longer says the same, and left when it is the person's."""

import hashlib
from pathlib import Path
from typing import Literal

from queries.made_files.folder import look_at
from queries.made_files.values import FileState, is_as_recorded
from queries.made_files.writing import Written, write_verified
from queries.pull.applying import Account
from queries.pull.manifest import PulledSheet
from queries.pull.sheet import FILE_NAME, digest_of, draw_sheet
from queries.pull.sheet_entries import SheetContent
from queries.weeks import Week

#: compare: an unrecorded file has the name, and only a drawing can tell whether it is ours.
SheetAction = Literal["draw", "redraw", "keep", "compare", "leave"]


def sheet_action(record: PulledSheet | None, state: FileState | None, digest: str) -> SheetAction:
    """What to do about the sheet, from what was recorded, what is there, and what it should be drawn from. Pure."""
    if state is None:
        return "draw"
    if not state.is_plain:
        return "leave"
    if record is None:
        return "compare"
    if not is_as_recorded(record, state):
        return "leave"
    return "keep" if record.drawn_from == digest else "redraw"


def put_sheet(content: SheetContent, week: Week, folder: Path, account: Account) -> None:
    """Bring the week sheet up to date and account for it. Raises OSError when the folder cannot be written."""
    path, digest = folder / FILE_NAME, digest_of(content, week)
    recorded = {sheet.file: sheet for sheet in account.sheets}
    record, state = recorded.get(FILE_NAME), look_at(folder, [FILE_NAME], recorded).get(FILE_NAME)
    action = sheet_action(record, state, digest)
    if action == "leave":
        account.left.append((FILE_NAME, "changed since it was drawn; move it away to have a new one"))
        return
    if action != "keep":
        drawn = draw_sheet(content, week)
        if action == "compare":
            written = _adopted(path, drawn)
            if written is None:
                account.left.append((FILE_NAME, "another file has this name; move it away to have the week sheet"))
                return
        else:
            written = write_verified([drawn], folder, FILE_NAME, "sheet", over=action == "redraw")
            account.bytes_written += written.size
        account.sheets = (PulledSheet(FILE_NAME, written.sha256, written.size, written.mtime_ns, digest),)
    account.sheet_paths.append(path)


def _adopted(path: Path, drawn: bytes) -> Written | None:
    """The file as if we had just written it, when it holds what we drew."""
    info = path.stat()
    if info.st_size != len(drawn) or path.read_bytes() != drawn:
        return None
    return Written(hashlib.sha256(drawn).hexdigest(), info.st_size, info.st_mtime_ns)
