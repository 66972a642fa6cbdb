"""The spread of a week: its plan as it is kept, or a new one. The story."""

import sqlite3
from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from indexer.errors import PlanError
from queries.fitting import plan_over_sleeves, plan_spread
from queries.fitting.asking import room_for
from queries.fitting.values import Asked, Picture, Plan, openings_of
from queries.photos import Photo, photos_with_keys
from queries.spread import notes
from queries.spread.asking import asked_for, on_pages, with_pins_of
from queries.spread.elsewhere import used_elsewhere
from queries.spread.faces import Pair, Shelf, face_kept, pages_of, pairs_for, shared_faces, with_pockets
from queries.spread.faces_of_week import bound_words
from queries.spread.gathering import Proposed, file_of, named_photos, pictures_of, proposed
from queries.spread.known import Known
from queries.spread.lost import GONE, lost_photos
from queries.spread.values import SIDES, Elsewhere, KeptPlan, Page, Wishes
from queries.spread.windows import Look, windows_of
from queries.weeks import Week


@dataclass(frozen=True, slots=True)
class Spread:
    """A week's spread to be shown. `photos` are by key, those on other weeks' pages included; `notes` are lines for the
    person; `is_new` says that it is to be kept."""

    kept: KeptPlan
    photos: Mapping[str, Photo]
    elsewhere: Sequence[Elsewhere]
    notes: tuple[str, ...]
    is_new: bool


def spread_of_week(connection: sqlite3.Connection, known: Known, wishes: Wishes, shelf: Shelf, look: Look) -> Spread:
    """The plan that the week has, where nothing is asked and all its photos are still to be had; else a new one, with
    what was fixed before. A done week's plan is only shown. Raises PlanError."""
    own = known.own
    if known.week in known.plans.unreadable:
        raise PlanError(notes.unreadable_error(known.week))
    if own is None:
        made, says = _planned(connection, known, wishes, {}, shelf)
        first = [notes.done_unplanned_words(known.week)] if known.is_done else []
        return _finished(connection, known, made, [*first, *says], look, wishes.crops)
    if known.is_done:
        return _as_it_is(connection, known, own, wishes, notes.frozen_error, notes.frozen_words(known.week))
    photos = _by_key(connection, own.keys)
    lost = lost_photos(own, photos, known.keys, (*wishes.named, *wishes.pins.values()))
    if lost and set(lost.values()) == {GONE} and len(lost) == len(own.keys):
        return _as_it_is(connection, known, own, wishes, notes.unreachable_error, notes.unreachable_words())
    is_back = _are_back(connection, own)
    if not lost and not is_back and wishes.is_nothing:
        waiting = notes.waiting_words(known.week, _waiting(connection, known, own), _unasked_cards(own))
        return _shown(connection, known, own, waiting)
    if not lost and not is_back and wishes.only_crops and wishes.crops.keys() <= photos.keys():
        made = replace(own, crops=wishes.crops_after(own.crops))
        return _finished(connection, known, made, [], look, wishes.crops)
    made, says = _planned(connection, known, wishes, lost, shelf)
    return _finished(connection, known, made, [*notes.lost_words(lost, photos), *says], look, wishes.crops)


def _planned(
    connection: sqlite3.Connection, known: Known, wishes: Wishes, lost: Mapping[str, str], shelf: Shelf
) -> tuple[KeptPlan, list[str]]:
    """A new plan, without windows, and what is to be said of it."""
    own = known.own or _NO_PLAN
    pairs = pairs_for(wishes, known.own, shared_faces(known.bound, known.plans.by_week), shelf)
    stays = _sides_that_stay(known.own, pairs)
    letters = [side[0].upper() for side in stays]
    fixed = on_pages(own.asked, letters)
    away = _away(connection, own)
    asked = asked_for(fixed, wishes, lost.keys() | away)
    pairs = with_pockets(pairs, asked)
    named = wishes.named or tuple(key for key in own.named if key not in lost)
    choice = _choice(connection, known, named, _wanted(pairs, asked))
    pinned = named_photos(connection, asked.pins.values())
    before = [] if wishes.named else photos_with_keys(connection, set(own.keys) - lost.keys())
    zooms = {**own.zooms, **wishes.zooms}
    pictures = pictures_of((*pinned.photos, *_still_first(before, choice.photos)), known.keys, zooms)
    if not pictures:
        raise PlanError(notes.no_photos_error(known.week, known.photos, choice.gone))
    before_here = _on_sides(own.plan, stays) if stays else None
    plan, pair = _all_if_named(pictures, pairs, asked, before_here, named)
    to_keep = with_pins_of(away, asked, asked_for(fixed, wishes, lost.keys() - away))
    kept = KeptPlan(pages_of(pair, known.bound), plan, to_keep, named, wishes.crops_after(own.crops), zooms)
    told = _by_key(connection, {*wishes.crops, *wishes.zooms})
    says = (
        notes.dropped_words(known.own, letters),
        notes.gone_words(choice.gone),
        notes.twin_words(choice.twins),
        notes.unplaced_words(told, kept, told),
    )
    return kept, [line for lines in says for line in lines]


def _away(connection: sqlite3.Connection, own: KeptPlan) -> set[str]:
    """The pinned photos whose files cannot be had now: their pins are kept for when they are back."""
    pinned = set(own.asked.pins.values())
    there = {key for key, photo in _by_key(connection, pinned).items() if file_of(photo)}
    return pinned - there


def _are_back(connection: sqlite3.Connection, own: KeptPlan) -> bool:
    """Whether a pinned photo that was away when the plan was made can be had again."""
    return bool(set(own.asked.pins.values()) - set(own.keys) - _away(connection, own))


def _waiting(connection: sqlite3.Connection, known: Known, own: KeptPlan) -> list[Photo]:
    """The photos that would be proposed now and are not on the plan, where it holds cards for want of photos: they came
    in since."""
    is_bounded = own.named or own.asked.photo_count is not None or own.asked.card_count is not None
    if is_bounded or not _unasked_cards(own):
        return []
    found = proposed(connection, known.photos, len(own.plan.filled), known.starts_at)
    return [photo for photo in found.photos if photo.key not in own.keys]


def _unasked_cards(own: KeptPlan) -> list[str]:
    """The pockets that hold cards which were not fixed there."""
    cards = (filled.opening.name for filled in own.plan.filled if filled.holds == "card")
    return [pocket for pocket in cards if pocket not in own.asked.cards]


def _choice(connection: sqlite3.Connection, known: Known, named: Sequence[str], wanted: int) -> Proposed:
    if named:
        return named_photos(connection, named)
    return proposed(connection, known.photos, wanted, known.starts_at)


def _all_if_named(
    pictures: Sequence[Picture], pairs: Sequence[Pair], asked: Asked, before: Plan | None, named: Sequence[str]
) -> tuple[Plan, Pair]:
    """The best plan; of photos that were named one that holds them all, if need be in collages, or as many as fit."""
    if named and asked.photo_count is None:
        room = max(room_for(openings_of(*pair), asked) for pair in pairs)
        with suppress(PlanError):
            return _solved(pictures, pairs, replace(asked, photo_count=min(len(pictures), room)), before)
    return _solved(pictures, pairs, asked, before)


def _solved(pictures: Sequence[Picture], pairs: Sequence[Pair], asked: Asked, before: Plan | None) -> tuple[Plan, Pair]:
    if len(pairs) == 1:
        return plan_spread(pictures, openings_of(*pairs[0]), asked, before=before), pairs[0]
    return plan_over_sleeves(pictures, pairs, asked)


def _wanted(pairs: Sequence[Pair], asked: Asked) -> int:
    """How many photos there is room for: one a pocket, those of cards aside, and more in the collages asked for."""
    if asked.photo_count is not None:
        return asked.photo_count
    pockets = max(len(openings_of(*pair)) for pair in pairs)
    more = sum(count - 1 for count in asked.collages.values())
    return max(1, pockets - max(asked.card_count or 0, len(asked.cards)) - len(asked.empty) + more)


def _still_first(before: Sequence[Photo], proposed_now: Sequence[Photo]) -> tuple[Photo, ...]:
    """Those that were planned with, then the others, each in the order of the shortlist."""
    place = {photo.key: number for number, photo in enumerate(proposed_now)}
    stay = sorted(before, key=lambda photo: place.get(photo.key, len(place)))
    return (*stay, *proposed_now)


def _sides_that_stay(own: KeptPlan | None, pairs: Sequence[Pair]) -> tuple[str, ...]:
    """The sides whose pockets are where they were."""
    if own is None or len(pairs) > 1:
        return ()
    return tuple(
        side for side, face in zip(SIDES, pairs[0], strict=True) if face.pockets == face_kept(own, side).pockets
    )


def _on_sides(plan: Plan, sides: Collection[str]) -> Plan:
    return replace(plan, filled=tuple(filled for filled in plan.filled if filled.opening.side in sides))


def _as_it_is(
    connection: sqlite3.Connection, known: Known, own: KeptPlan, wishes: Wishes, error: Callable[[Week], str], says: str
) -> Spread:
    """A plan that cannot change now. Raises PlanError where a change is asked for."""
    if not wishes.is_nothing:
        raise PlanError(error(known.week))
    return _shown(connection, known, own, [says])


def _finished(
    connection: sqlite3.Connection,
    known: Known,
    made: KeptPlan,
    says: Sequence[str],
    look: Look,
    crops: Mapping[str, str | float],
) -> Spread:
    """A new plan with its windows; `crops` are those told just now."""
    windows = windows_of(made, known.own, _by_key(connection, made.keys), look)
    idle = notes.idle_crop_words(crops, windows, _by_key(connection, crops))
    return _shown(connection, known, replace(made, windows=windows), [*says, *idle], is_new=not known.is_done)


def _shown(
    connection: sqlite3.Connection, known: Known, kept: KeptPlan, says: Sequence[str] = (), *, is_new: bool = False
) -> Spread:
    elsewhere = used_elsewhere(connection, kept.keys, known.week, known.plans.by_week, known.words)
    photos = _by_key(connection, (*kept.keys, *(found.other for found in elsewhere)))
    beside = (*bound_words(known.bound, kept.pages), *notes.strangers_words(kept, photos, known.keys))
    skipped = [notes.skipped_words(known.week)] if known.is_skipped else []
    return Spread(kept, photos, elsewhere, (*skipped, *says, *beside, *kept.plan.words), is_new)


def _by_key(connection: sqlite3.Connection, keys: Collection[str]) -> dict[str, Photo]:
    return {photo.key: photo for photo in photos_with_keys(connection, keys)}


#: What a week without a plan plans from.
_NO_PLAN = KeptPlan(
    (Page("left", "", "back", 0, 0), Page("right", "", "front", 0, 0)), Plan((), False, 0, 0, 0, ()), Asked()
)
