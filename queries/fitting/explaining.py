"""Why each pocket holds what it does, in a few words, and what the person should know of the whole plan. Pure."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from queries.fitting import weights
from queries.fitting.kept import cut_at_the_sides, is_turned
from queries.fitting.resolution import is_blurry, whole_dpi
from queries.fitting.slots import pins_at
from queries.fitting.values import Asked, Filled, Picture, Placed
from queries.fitting.worth import Case, stood_in


def explained(case: Case, filled: Sequence[Filled]) -> tuple[Filled, ...]:
    """The same openings, each with its reason."""
    pictures = {picture.key: picture for picture in case.pictures}
    first = min((pictures[p.key] for f in filled for p in f.photos), key=lambda picture: picture.order, default=None)
    stood = stood_in(case.before)
    reasons = []
    for each in filled:
        if not each.photos:
            reasons.append(_why_no_photo(each, case))
            continue
        stays = all(stood.photos.get(placed.key) == each.opening.name for placed in each.photos)
        parts = [
            _why_pinned(each, case.asked),
            "stays where it was" if stays else "",
            "first of the story" if first and each.photos[0].key == first.key else "",
            each.collage.name if each.collage else "",
            *_looks(each.photos, pictures),
        ]
        reasons.append(", ".join(part for part in parts if part))
    return tuple(replace(each, why=why) for each, why in zip(filled, reasons, strict=True))


def notes_on(case: Case, filled: Sequence[Filled], gap: float) -> tuple[str, ...]:
    """What the person should know of the whole, each a sentence."""
    placed = [photo for each in filled for photo in each.photos]
    held = {holds: sum(each.holds == holds for each in filled) for holds in ("card", "empty")}
    unasked = sum(each.holds == "empty" and each.opening.name not in case.asked.empty for each in filled)
    blurry = sum(is_blurry(photo.dpi) for photo in placed)
    left = len(case.pictures) - len(placed)
    found = []
    if case.asked.photo_count is not None and case.asked.photo_count > len(case.pictures):
        found.append(f"{_count(case.asked.photo_count, 'photo')} asked for, and there are {len(case.pictures)}.")
    if held["card"] and left == 0 and case.asked.card_count is None and held["card"] > len(case.asked.cards):
        holding = sum(bool(each.photos) for each in filled)
        photos, pockets = _count(len(placed), "photo"), _count(len(filled), "pocket")
        pockets = f"{photos} for {pockets}" if holding == len(placed) else f"{photos} in {holding} of {pockets}"
        found.append(f"A thin week: {pockets}, so that {held['card']} hold{'s' * (held['card'] == 1)} cards.")
    if unasked:
        found.append(f"{_count(unasked, 'pocket')} stay{'s' * (unasked == 1)} empty: {_too_few(case.asked, left)}.")
    if left:
        found.append(f"{_count(left, 'photo')} of {len(case.pictures)} found no place.")
    if blurry:
        found.append(f"{_count(blurry, 'photo')} will look blurry (under {weights.BLURRY_DPI:g} dpi).")
    if gap > weights.PROVEN_GAP:
        found.append(f"Not proven the best in the time: another plan may be better by {100 * gap:.2g} % at most.")
    return tuple(found)


def _why_no_photo(each: Filled, case: Case) -> str:
    if each.holds == "empty":
        return "left empty as asked" if each.opening.name in case.asked.empty else "no photo or card left for it"
    if each.opening.name in case.asked.cards:
        return "a card as asked"
    if case.asked.card_count is not None:
        return f"one of {_count(case.asked.card_count, 'card')} asked for"
    return "no photo left for it"


def _too_few(asked: Asked, left: int) -> str:
    """Why pockets stay empty unasked: more of both was not asked for, or there are no more photos."""
    cards = _count(asked.card_count or 0, "card")
    if not left:
        return f"there are no more photos, and {cards} asked for"
    photos = "" if asked.photo_count is None else f"{_count(asked.photo_count, 'photo')} and "
    return f"{photos}{cards} asked for"


def _why_pinned(each: Filled, asked: Asked) -> str:
    pinned = set(pins_at(each.opening.name, asked.pins)) & {placed.key for placed in each.photos}
    if not pinned:
        return ""
    return "pinned by you" if len(pinned) == len(each.photos) else f"{len(pinned)} of {len(each.photos)} pinned by you"


def _looks(photos: Sequence[Placed], pictures: Mapping[str, Picture]) -> list[str]:
    """How the photos look in their cells: what is cut off, and whether they print well."""
    worst = min(photos, key=lambda placed: placed.kept)
    blurriest = min(photo.dpi for photo in photos)
    looks = [_loss(worst, pictures[worst.key], len(photos) > 1)]
    if is_blurry(blurriest):
        looks.append(f"will look blurry: {whole_dpi(blurriest)} dpi")
    return looks


def _loss(placed: Placed, picture: Picture, one_of_many: bool) -> str:
    lost = 1 - placed.kept
    if lost < weights.NO_LOSS:
        return "all fit as they are" if one_of_many else "fits as it is"
    where = "at the sides" if cut_at_the_sides(picture, placed.cell) else "top and bottom"
    if picture.zoom > 1:
        where = "all round"
    turned = ", the other way round than its pocket" if is_turned(picture, placed.cell) and not one_of_many else ""
    loses = "one loses" if one_of_many else "loses"
    return f"{loses} {max(1, round(100 * lost))} % {where}{turned}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
