"""A working folder of the week: copies whose names sort by capture time, a week sheet, and week.json."""

from queries.pull.gathering import pulled_key
from queries.pull.pulling import PullResult, pull_week

__all__ = ["PullResult", "pull_week", "pulled_key"]
