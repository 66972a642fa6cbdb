"""Makes the index: reads photo files, decides when each was taken, and keeps what the person tells."""

from indexer.scan import Progress, Summary, index_folders, refuse_index_inside
from indexer.store.opening import open_for_reading, open_for_writing
from indexer.store.run_lock import the_only_run

__all__ = [
    "Progress",
    "Summary",
    "index_folders",
    "open_for_reading",
    "open_for_writing",
    "refuse_index_inside",
    "the_only_run",
]
