"""Makes the index: reads photo files, decides when each was taken, and keeps what the person tells.

The public face is `index_folders` and what goes with it. Its names are looked up when first asked for: every question
to the index passes through this package, and the readers are slow to import.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from indexer.scan import Progress, Summary, check_before_opening, index_folders
    from indexer.store.opening import open_for_reading, open_for_writing
    from indexer.store.run_lock import the_only_run

__all__ = [
    "Progress",
    "Summary",
    "check_before_opening",
    "index_folders",
    "open_for_reading",
    "open_for_writing",
    "the_only_run",
]

_HOMES = {
    "Progress": "indexer.scan",
    "Summary": "indexer.scan",
    "check_before_opening": "indexer.scan",
    "index_folders": "indexer.scan",
    "open_for_reading": "indexer.store.opening",
    "open_for_writing": "indexer.store.opening",
    "the_only_run": "indexer.store.run_lock",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'indexer' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)
