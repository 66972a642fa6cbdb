"""What one ground found on one roll, before it becomes suggestions. Pure."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import text_of
from indexer.dating.clock.spans import Span, lies_in, spans_of, without
from indexer.dating.values import Ground, Suggestion


@dataclass(frozen=True, slots=True)
class Finding:
    """A shift for the photos at `places`; `marks`: own times at which the clock changed; `is_tight`: the span ends with
    the photos, since the clock was set again."""

    places: frozenset[int]
    shift: int
    ground: Ground
    grounds: str
    marks: tuple[int, ...] = ()
    is_tight: bool = False


def suggestions_from(roll: Roll, findings: Iterable[Finding]) -> Iterator[Suggestion]:
    """One suggestion for each span of own time that a finding needs, none where a correction holds."""
    findings = list(findings)
    told = {end for span in roll.corrected for end in span if end is not None}
    marks = sorted(told.union(*(finding.marks for finding in findings)))
    for finding in findings:
        chosen = set(finding.places)
        for span in spans_of(chosen, roll.own, marks, finding.marks, tight=finding.is_tight):
            for piece in without(span, roll.corrected):
                keys = tuple(roll.shots[i].key for i in sorted(chosen) if lies_in(roll.own[i], piece))
                if keys:
                    yield Suggestion(roll.camera, finding.shift, *_texts(piece), finding.ground, finding.grounds, keys)


def _texts(span: Span) -> tuple[str | None, str | None]:
    since, until = span
    return None if since is None else text_of(since), None if until is None else text_of(until)
