"""Whether a person has edited a picture, told by its file. Pure.

Common practice, from memory: what editors add to a name, and that they renew the date of modification. A messaged or
re-saved file is no edit; that it is smaller or has lost its date is for whoever chooses among copies to see.
"""

import re
from collections.abc import Sequence
from datetime import datetime

#: Seconds between the taking and the modification from which on an editor must have been at work; cameras write both
#: within moments.
LATER = 60

#: What files and folders of edited pictures are called, in several languages; whole words, in small letters.
WORDS = frozenset(
    {
        "edit", "edits", "edited", "retouched", "retouch",
        "bearbeitet", "bearbeitete", "retuschiert",
        "modifié", "modifie", "modifiée", "retouché", "retouche",
        "editado", "editada", "editados", "editadas", "retocado", "retocada",
        "modificato", "modificata", "ritoccato", "ritoccata",
        "bewerkt", "bewerkte", "redigerad", "redigerade", "redigeret", "redigert", "muokattu",
        "edytowane", "edytowany", "upraveno", "szerkesztett",
    }
)  # fmt: skip

#: A phone's counter with the letter for "edited".
_COUNTED = re.compile(r"^IMG_E\d{4}\b", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_]+")


def is_edit(paths: Sequence[str], original: str | None, modified: str | None) -> bool:
    """Whether the files of one picture are edits: all are called so (a copy of the camera's own file may lie anywhere),
    or it was modified after it was taken.

    `paths` lie below the library folder; the times are ISO 8601 by one clock, None or short where not known.
    """
    return (bool(paths) and all(map(_is_called_so, paths))) or _is_later(original, modified)


def _is_called_so(path: str) -> bool:
    parts = re.split(r"[/\\]", path)
    return bool(_COUNTED.match(parts[-1])) or not WORDS.isdisjoint(_WORD.findall(path.lower()))


def _is_later(original: str | None, modified: str | None) -> bool:
    if not original or not modified or min(len(original), len(modified)) < len("2026-03-30T09:15:20"):
        return False
    return (datetime.fromisoformat(modified) - datetime.fromisoformat(original)).total_seconds() > LATER
