"""The satellites' time against a camera's own. Pure.

The time is that of the last fix, so it may be old (from memory): own time less the satellites' is the true offset or
more. So a clock is off by what the *freshest* fixes agree on. Where own time less the satellites' is the offset of some
zone, to five minutes, the clock may have been set for a journey (and the zone written not, or the other way round):
such a fix says that the minutes are right, no more. A camera that stays on home time while it travels agrees with the
satellites in its home zone: nothing is suggested, since only a second device's pictures can tell.
"""

from collections.abc import Collection, Iterator

from indexer.dating.clock.findings import Finding
from indexer.dating.clock.parts import Part, parts
from indexer.dating.clock.rolls import Roll
from indexer.dating.clock.seconds import DAY, HOUR, MINUTE, seconds_of
from indexer.dating.clock.shifts import round_shift
from indexer.dating.clock.voting import NEAR_ZERO, WINDOW, Stretch, Vote, is_step, occasions_of, stretches
from indexer.dating.clock.wording import counted, duration
from indexer.dating.clock.zone import HomeZone

_OCCASIONS, _DAYS = 3, 2
#: An hour off in summer may be a journey to the next zone, unless it holds on so many days after right ones.
_DAYLIGHT_DAYS = 5
#: The stretch must have this share of the fixes; the others are old ones.
_SHARE = 0.25
#: Within the zones, old fixes may agree by chance to some minutes; those of a wrong clock agree to so many seconds.
_SPREAD = 30
#: A clock that is ahead by hours looks like old fixes most of all: more of them must agree, and most.
_OLDEST, _OLD_OCCASIONS, _OLD_DAYS, _OLD_SHARE = 6 * HOUR, 5, 3, 0.5
#: Minutes east of Greenwich that are in use: whole hours and a few others (IANA time zone database: memory).
_ZONES = (*range(-12 * 60, 15 * 60, 60), -570, -210, 210, 270, 330, 345, 390, 525, 570, 630, 765)
_ZONES_END = 14 * HOUR
#: Receivers count 1,024 weeks and begin again; a date that far off is the receiver's mistake (IS-GPS-200: memory).
_ROLLOVER = 1_024 * 7 * DAY


def satellite_votes(roll: Roll, zone: HomeZone, latest: int) -> list[Vote]:
    """One vote for each photo with a fix for which no correction holds. `latest`: no fix is later, seconds."""
    return [vote for place in sorted(roll.uncorrected) if (vote := _vote(roll, place, zone, latest))]


def satellite_findings(roll: Roll, votes: Collection[Vote], zone: HomeZone) -> Iterator[Finding]:
    """The stretches over which the freshest fixes agree that the clock is off."""
    places = sorted(roll.uncorrected)
    for part in parts(roll, places, stretches(votes, zone.daylight), zone) if votes else ():
        if part.stretch.shift and _is_sure(part):
            shifts = sorted(vote.shift for vote in part.stretch.speaking)
            shift = part.hour if part.is_daylight else round_shift(shifts[len(shifts) // 2 :])
            yield Finding(
                frozenset(part.places), shift, "daylight saving" if part.is_daylight else "gps", _grounds(part, shift),
                part.marks,
            )  # fmt: skip


def _vote(roll: Roll, place: int, zone: HomeZone, latest: int) -> Vote | None:
    shot, own = roll.shots[place], roll.own[place]
    if shot.gps is None:
        return None
    utc = seconds_of(shot.gps)
    offset = zone.offset_at_utc(utc) if shot.offset_minutes is None else shot.offset_minutes * MINUTE
    shift = utc + offset - own
    rollovers = round(shift / _ROLLOVER)
    if utc > latest or (rollovers and abs(shift - rollovers * _ROLLOVER) < 2 * DAY):
        return None
    is_home_hour = shot.offset_minutes is None and abs(abs(shift) - HOUR) <= NEAR_ZERO
    if _may_be_zone(own - utc) and not is_home_hour:
        shift = 0
    return Vote(place, own, shift, "the satellites", utc // DAY)


def _may_be_zone(offset: int) -> bool:
    return any(abs(offset - minutes * MINUTE) <= NEAR_ZERO for minutes in _ZONES)


def _is_sure(part: Part) -> bool:
    stretch = part.stretch
    occasions = occasions_of(stretch.votes)
    fresher = sum(any(vote.shift > stretch.shift + WINDOW for vote in occasion) for occasion in occasions)
    if stretch.occasions < max(_OCCASIONS, 2 * stretch.other, _SHARE * len(occasions), 10 * fresher):
        return False
    if is_step(abs(stretch.shift), HOUR):
        return part.is_daylight and part.right_beside >= _OCCASIONS and stretch.days >= _DAYLIGHT_DAYS
    return stretch.days >= _DAYS and not _may_be_old(stretch, len(occasions))


def _may_be_old(stretch: Stretch, everything: int) -> bool:
    """Whether these may be old fixes that agree by chance."""
    if abs(stretch.shift) > _ZONES_END:
        return False
    shifts = sorted(vote.shift for vote in stretch.speaking)
    if shifts[len(shifts) * 3 // 4] - shifts[len(shifts) // 4] > _SPREAD:
        return True
    is_few = stretch.occasions < max(_OLD_OCCASIONS, _OLD_SHARE * everything) or stretch.days < _OLD_DAYS
    return -_OLDEST < stretch.shift < 0 and is_few


def _grounds(part: Part, shift: int) -> str:
    stretch = part.stretch
    photos = counted(len({vote.place for vote in stretch.speaking}), "photo carries", "photos carry")
    grounds = (
        f"{photos} the satellites' time, on {counted(stretch.days, 'day')}, and this camera's clock is"
        f" {duration(shift)} {'behind' if shift > 0 else 'ahead of'} it"
    )
    return f"{grounds}: it did not follow daylight saving" if part.is_daylight else grounds
