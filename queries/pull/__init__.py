"""A working folder of the week: copies whose names sort by capture time, a week sheet, and week.json."""

from queries.pull.gathering import pulled_key
from queries.pull.manifest import Manifest, PulledPhoto, parse_manifest
from queries.pull.plan import FileState, NoSource, PlannedFile, PullPlan, Source, plan_pull, size_words
from queries.pull.pulling import PullResult, WeekState, pull_week

__all__ = [
    "FileState",
    "Manifest",
    "NoSource",
    "PlannedFile",
    "PullPlan",
    "PullResult",
    "PulledPhoto",
    "Source",
    "WeekState",
    "parse_manifest",
    "plan_pull",
    "pull_week",
    "pulled_key",
    "size_words",
]
