"""Photos of a plan that already stand, or ones alike to them stand, on the pages of another week."""

import json
import sqlite3
from collections import defaultdict
from collections.abc import Collection, Mapping

from queries.spread.values import Elsewhere, KeptPlan
from queries.week_log import Word
from queries.weeks import Week, week_words

_SAYS = {"same": "", "copy": ", as its copy {other}", "burst": ", as {other}, which is alike"}


def used_elsewhere(
    connection: sqlite3.Connection,
    keys: Collection[str],
    week: Week,
    plans: Mapping[Week, KeptPlan],
    words: Mapping[Week, Word],
) -> list[Elsewhere]:
    """What of these photos stands on another week's plan, or on done pages that have none, in the order of `keys`."""
    pages = {other: frozenset(plan.keys) for other, plan in plans.items()}
    done = {other for other, word in words.items() if word.state == "done"}
    for other in done - pages.keys():
        held = connection.execute("SELECT photo_key FROM week_holding WHERE log_uuid = ?", (words[other].uuid,))
        pages[other] = frozenset(str(key) for (key,) in held)
    pages.pop(week, None)
    return found_on(keys, _alike_keys(connection, keys), pages, done)


def found_on(
    keys: Collection[str],
    alike: Mapping[str, Mapping[str, str]],
    pages: Mapping[Week, Collection[str]],
    done: Collection[Week],
) -> list[Elsewhere]:
    """The same from values: `alike` gives for a key the kind of likeness by the other's key. A photo is told of once a
    week: as itself, else as a copy, else as one of a burst."""
    found = []
    for key in keys:
        kinds = {"same": {key}, "copy": set[str](), "burst": set[str]()}
        for other, kind in alike.get(key, {}).items():
            kinds[kind].add(other)
        for week in sorted(pages):
            there = ((kind, others & set(pages[week])) for kind, others in kinds.items())
            first = next(((kind, min(others)) for kind, others in there if others), None)
            if first:
                found.append(Elsewhere(key, first[1], first[0], week, week in done))
    return found


def elsewhere_words(found: Elsewhere, codes: Mapping[str, str]) -> str:
    """ "a1b2c stands in 30 Mar - 5 Apr 2026, week 14 (done) already, as its copy 9f8e7"."""
    done = " (done)" if found.is_done else ""
    says = _SAYS[found.kind].format(other=codes.get(found.other, found.other[:5]))
    return f"{codes[found.key]} stands in {week_words(found.week)}{done} already{says}."


def _alike_keys(connection: sqlite3.Connection, keys: Collection[str]) -> dict[str, dict[str, str]]:
    """By key: the kind of each photo that it shares a set with; a copy that is also in a burst is a copy."""
    found: dict[str, dict[str, str]] = defaultdict(dict)
    for key, other, kind in connection.execute(_ALIKE, (json.dumps(list(keys)),)):
        found[key].setdefault(other, kind)
    return found


_ALIKE = """
SELECT asked.value, other.photo_key, own.kind
FROM json_each(?) AS asked
JOIN alike_set AS own ON own.photo_key = asked.value
JOIN alike_set AS other ON other.set_id = own.set_id AND other.photo_key <> asked.value
ORDER BY asked.value, own.kind = 'burst'
"""
