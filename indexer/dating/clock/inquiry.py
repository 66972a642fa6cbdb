"""What is known by now about the clocks of an archive, while one ground after the other is asked. Pure.

The one thing in this room that changes: every finding is taken as right by those that come after it.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from indexer.dating.clock.factory import Run, reset_runs
from indexer.dating.clock.findings import Finding
from indexer.dating.clock.journeys import Journey, journey_at, journeys_of
from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import DAY, MINUTE
from indexer.dating.clock.trust import Rank
from indexer.dating.clock.voting import Vote
from indexer.dating.clock.zone import HomeZone
from indexer.dating.values import SameScene, Shot


@dataclass(slots=True)
class Case:
    """One camera: `times` are when its photos were taken as far as known; None where its clock is known to be wrong."""

    roll: Roll
    latest: int
    times: list[int | None]
    journeys: Sequence[Journey]
    findings: list[Finding] = field(default_factory=list)
    links: list[tuple[int, int, int]] = field(default_factory=list)
    rank: Rank = (0, 0)

    @property
    def open(self) -> set[int]:
        """Places that neither a correction nor a finding explains."""
        return self.roll.uncorrected.difference(*(finding.places for finding in self.findings))

    def runs(self) -> list[Run]:
        """Those after a battery change that nothing explains yet."""
        still = self.open
        return [run for run in reset_runs(self.roll, self.times, self.latest) if run.places & still]

    def add(self, findings: Iterable[Finding]) -> None:
        """Take findings as right from now on."""
        for finding in findings:
            self.findings.append(finding)
            for place in finding.places:
                self.times[place] = self.roll.own[place] + finding.shift

    def doubt(self, runs: Iterable[Run]) -> None:
        """Let the photos of these runs be no witnesses."""
        for place in self.open & {place for run in runs for place in run.places}:
            self.times[place] = None


@dataclass(frozen=True, slots=True)
class Inquiry:
    """All cameras; `zone`: home, `latest`: no photo was taken after it."""

    cases: Sequence[Case]
    zone: HomeZone
    latest: int

    def votes(self, number: int, *, from_all: bool = False) -> list[Vote]:
        """What scenes say about one camera: those it shares with better ones, or `from_all`."""
        case = self.cases[number]
        found = []
        for place, other, there in case.links:
            witness = self.cases[other]
            time = witness.times[there]
            if time is not None and time <= self.latest and (from_all or witness.rank > case.rank):
                own = case.roll.own[place]
                journey = None
                if case.roll.shots[place].offset_minutes is None and witness.journeys:
                    journey = journey_at(witness.journeys, self._home_clock(witness.roll.shots[there], time))
                found.append(Vote(place, own, time - own, witness.roll.name, time // DAY, journey))
        return found

    def _home_clock(self, shot: Shot, time: int) -> int:
        """What the clock at home showed when this photo was taken."""
        if shot.offset_minutes is None:
            return time
        utc = time - shot.offset_minutes * MINUTE
        return utc + self.zone.offset_at_utc(utc)

    def votes_by_pair(self) -> dict[tuple[int, int], list[Vote]]:
        """What the scenes of every two cameras say, as they are known by now."""
        pairs: defaultdict[tuple[int, int], list[Vote]] = defaultdict(list)
        for number, case in enumerate(self.cases):
            for place, other, there in case.links:
                mine, theirs = case.times[place], self.cases[other].times[there]
                if number < other and mine is not None and theirs is not None:
                    pairs[number, other].append(Vote(place, mine, theirs - mine, "", theirs // DAY))
        return pairs


def inquiry(rolls: Sequence[Roll], scenes: Iterable[SameScene], zone: HomeZone, latest: int) -> Inquiry:
    """The cameras before anything was asked, with the scenes they share."""
    cases = [Case(roll, latest, _times(roll), journeys_of(roll, zone)) for roll in rolls]
    where = {shot.key: (number, place) for number, roll in enumerate(rolls) for place, shot in enumerate(roll.shots)}
    for scene in scenes:
        one, other = where.get(scene.one), where.get(scene.other)
        if one and other and one[0] != other[0]:
            cases[one[0]].links.append((one[1], *other))
            cases[other[0]].links.append((other[1], *one))
    return Inquiry(cases, zone, latest)


def _times(roll: Roll) -> list[int | None]:
    return [own + (shift or 0) for own, shift in zip(roll.own, roll.shifts, strict=True)]
