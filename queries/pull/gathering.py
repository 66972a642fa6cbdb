"""What the plan must know of the working folder: what it is said to hold, and what lies in the way."""

import hashlib
import os
from dataclasses import replace
from pathlib import Path

from indexer.errors import PullError
from queries.made_files.folder import sha256_or_none
from queries.made_files.values import FileState
from queries.made_files.writing import reason_of
from queries.originals import NoSource, Source
from queries.photos import Photo
from queries.pull.decoding import conversions
from queries.pull.manifest import FILE_NAME, Manifest, Unusable, parse_manifest


def read_held(folder: Path) -> Manifest | Unusable | None:
    """What week.json says of the folder; None when there is none. Raises PullError when it cannot be read."""
    path = folder / FILE_NAME
    if not os.path.lexists(path):
        return None
    if path.is_symlink() or not path.is_file():
        return Unusable("it is no plain file")
    try:
        return parse_manifest(path.read_bytes())
    except OSError as problem:
        raise PullError(
            f"{path} cannot be read ({reason_of(problem)}); allow reading it, or choose another folder"
        ) from problem


def pulled_key(path: Path) -> str | None:
    """The key of the photo that a file in a working folder was made from, by the week.json beside it."""
    try:
        held = read_held(path.parent)
    except PullError:
        return None
    records = held.photos if isinstance(held, Manifest) else ()
    return next((record.key for record in records if record.file == path.name), None)


def hashed_to_compare(
    path: Path, state: FileState, photo: Photo, source: Source | NoSource, *, as_jpeg: bool
) -> tuple[FileState, Source | NoSource]:
    """Both sides with the SHA-256 of their content, for an unrecorded file under a wanted name; dear, so only there.

    Unchanged come back what cannot be compared, and exact copies whose size already settles it.
    """
    if isinstance(source, NoSource) or not state.is_plain or (not as_jpeg and state.size != source.size):
        return state, source
    fresh, own = _fresh_hashes(photo, source, as_jpeg=as_jpeg)
    if not fresh:
        return state, source
    return replace(state, sha256=sha256_or_none(path)), replace(source, fresh_sha256=fresh, own_sha256=own)


def _fresh_hashes(photo: Photo, source: Source, *, as_jpeg: bool) -> tuple[str, str]:
    """The SHA-256 that a pulled file would have, and that of its original; two empty texts where it cannot be made."""
    if not as_jpeg:
        own = sha256_or_none(Path(source.path)) or ""
        return own, own
    (_, content), *_ = conversions([(photo, source)])
    if isinstance(content, str):
        return "", ""
    return hashlib.sha256(b"".join(content.blocks)).hexdigest(), content.source_sha256
