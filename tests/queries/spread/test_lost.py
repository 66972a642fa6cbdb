"""Photos of a plan that cannot stay on it"""

from pathlib import Path

import pytest

from queries.cropping.values import Window
from queries.photos import Photo
from queries.spread.lost import GONE, lost_photos
from tests.queries.spread.made_plans import KITE, PIER, kept, photo, wide

#: What a 6x4 pocket shows of a 4:3 photo.
CUT = Window(0, 1 / 18, 1, 17 / 18)
PLAN = kept(wide("L1", KITE), wide("R1", PIER), windows={KITE: CUT, PIER: CUT})


def there(tmp_path: Path, key: str, **more: object) -> Photo:
    path = tmp_path / f"{key}.jpg"
    path.write_bytes(b"")
    return photo(key, path=str(path), paths=(str(path),), **more)


def lost(tmp_path: Path, week_keys: set[str] | None = None, named: tuple[str, ...] = (), **more: object) -> str | None:
    """Why the kite, with such marks, cannot stay; the pier can."""
    photos = {KITE: there(tmp_path, KITE, **more), PIER: there(tmp_path, PIER)}
    found = lost_photos(PLAN, photos, {KITE, PIER} if week_keys is None else week_keys, named)
    assert PIER not in found
    return found.get(KITE)


def test_photos_that_are_there_stay(tmp_path: Path) -> None:
    """Nothing is lost where nothing changed."""
    assert lost(tmp_path) is None


@pytest.mark.parametrize(
    ("more", "reason"),
    [
        ({"choice": "leave", "keeper": False}, "was left out"),
        ({"keeper": False}, "no longer stands for the photos alike to it"),
        ({"width": 1200, "height": 1600}, "was edited and has another shape"),
    ],
)
def test_why_a_photo_cannot_stay(tmp_path: Path, more: dict[str, object], reason: str) -> None:
    """Each reason in a few words."""
    assert lost(tmp_path, **more) == reason


def test_a_photo_that_moved_to_another_week_goes_unless_it_was_asked_for(tmp_path: Path) -> None:
    """No photo stays in the wrong week unsaid; who names one means it."""
    assert lost(tmp_path, {PIER}) == "is no photo of this week any longer"
    assert lost(tmp_path, {PIER}, named=(KITE,)) is None
    assert lost(tmp_path, named=(KITE,), choice="leave") == "was left out"


def test_a_photo_without_a_file_is_gone(tmp_path: Path) -> None:
    """Whatever the index says; another of its places will do."""
    found = lost_photos(PLAN, {KITE: photo(KITE), PIER: there(tmp_path, PIER)}, {KITE, PIER}, ())
    assert found == {KITE: GONE}
    elsewhere = tmp_path / f"{PIER}.jpg"
    moved = photo(KITE, paths=("/no/where.jpg", str(elsewhere)))
    assert lost_photos(PLAN, {KITE: moved, PIER: there(tmp_path, PIER)}, {KITE, PIER}, ()) == {}
    assert lost_photos(PLAN, {PIER: there(tmp_path, PIER)}, {KITE, PIER}, ()) == {KITE: GONE}
