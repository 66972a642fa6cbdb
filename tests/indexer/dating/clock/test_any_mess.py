"""Whatever photos, scenes and corrections there are: suggestions keep their promises."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.clock.spans import Span, without
from indexer.dating.values import Correction, SameScene, Shot
from indexer.facts.records import Camera
from tests.indexer.dating.clock.households import COMPACT, OLDER, OTHER_PHONE, PHONE, Household, corrected, holds

CAMERAS = (COMPACT, OLDER, PHONE, OTHER_PHONE, Camera("", "", "S"))
_FIRST = datetime(1, 1, 1)  # noqa: DTZ001 - a wall clock


def own_time(random_: random.Random) -> str:
    """Any second of the calendar, or near a factory date, or of one spring."""
    years = random_.choice([(0, 3_652_058), (735_599, 735_602), (739_700, 739_800)])
    return (_FIRST + timedelta(days=random_.randint(*years), seconds=random_.randrange(86_400))).isoformat()


def mess(random_: random.Random) -> Household:
    home = Household()
    for number in range(random_.randint(0, 60)):
        shot = Shot(
            f"{number:03}",
            random_.choice(CAMERAS),
            own_time(random_),
            random_.choice([None, None, 0, 60, -300, 840]),
            random_.choice([None, own_time(random_)]),
            random_.choice([None, ("100HARBR", "HRBR", random_.randint(1, 9_999))]),
            random_.choice([None, own_time(random_)]),
        )
        home.shots.append(shot)
    keys = [shot.key for shot in home.shots] + ["unknown"]
    for _ in range(random_.randint(0, 80)):
        home.scenes.append(SameScene(random_.choice(keys), random_.choice(keys), random_.uniform(-9, 9)))
    return home


def corrections(random_: random.Random) -> list[Correction]:
    """A few that do not overlap, of any shift."""
    cuts = sorted(own_time(random_) for _ in range(4))
    spans = [(None, cuts[0]), (cuts[1], cuts[2]), (cuts[3], None)]
    return [
        Correction(f"u{k}", "", COMPACT, random_.randint(-(10**11), 10**11), since, until)
        for k, (since, until) in enumerate(spans)
        if random_.random() < 0.3
    ]


@pytest.mark.parametrize("seed", range(300))
def test_suggestions_keep_their_promises(seed: int) -> None:
    """No exception; what a span holds is what its suggestion names; none overlaps another, or what holds already."""
    random_ = random.Random(seed)
    home, told = mess(random_), corrections(random_)
    found = home.ask(*told)
    for shot in home.shots:
        try:
            corrected(shot, found)
        except OverflowError:
            continue  # the suggestion leads out of the calendar, which is the verdict's business
    for one in found:
        assert one.shift_seconds
        assert one.photos
        assert one.grounds
        for item in told:
            assert item.camera != one.camera or not _overlap((item.since, item.until), (one.since, one.until))
        assert not any(holds(one, shot.own) for shot in home.shots if shot.camera == one.camera and _held(shot, told))


def _held(shot: Shot, told: list[Correction]) -> bool:
    spans = [(item.since, item.until) for item in told if item.camera == shot.camera]
    return any((since is None or since <= shot.own) and (until is None or shot.own < until) for since, until in spans)


def _overlap(one: tuple[str | None, str | None], other: tuple[str | None, str | None]) -> bool:
    return without(_span(one), [_span(other)]) != [_span(one)]


def _span(ends: tuple[str | None, str | None]) -> Span:
    since, until = ((datetime.fromisoformat(end) - _FIRST) // timedelta(seconds=1) if end else None for end in ends)
    return since, until
