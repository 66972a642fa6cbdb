"""The truth that dating is measured by: the same for a seed, fair in its marks, and its files read as meant."""

from collections import Counter, defaultdict
from datetime import date, datetime, timedelta
from functools import cache
from pathlib import Path
from random import Random

import pytest
from PIL import ExifTags, Image

from tests.benchmarks.dating import clocks, household
from tests.benchmarks.dating.clocks import Clocks, fault_of, shown
from tests.benchmarks.dating.library import FAULTS, library_of
from tests.benchmarks.dating.values import Photo
from tests.benchmarks.dating.world import FULL, SHORT, Extent, Frame, World, happen
from tests.benchmarks.dating.writing import write_library

#: The libraries that the benchmark measures.
LIBRARIES = [*((seed, FULL) for seed in range(1, 5)), (1, SHORT)]
CLOCK_FAULTS = {
    clocks.HOURS,
    clocks.YEARS,
    clocks.FACTORY,
    clocks.BATTERY,
    clocks.SUMMER,
    clocks.SATELLITES,
    clocks.ABROAD,
}

made = cache(library_of)
COPY_OF_WRONG = "message, original here by a wrong clock"


@pytest.fixture(scope="module", params=LIBRARIES, ids=lambda value: f"seed {value[0]}")
def library(request: pytest.FixtureRequest) -> list[Photo]:
    return made(*request.param)


@pytest.fixture(scope="module", params=LIBRARIES, ids=lambda value: f"seed {value[0]}")
def world(request: pytest.FixtureRequest) -> tuple[World, Clocks]:
    happened = happen(*request.param)
    return happened, clocks.clocks_of(Random("a test"), happened)


def test_same_seed_gives_the_same_library() -> None:
    """A library is made of its seed alone, and another seed makes another."""
    assert library_of(3, SHORT) == library_of(3, SHORT)
    assert library_of(3, SHORT) != library_of(4, SHORT)


def test_every_fault_is_in_every_library(library: list[Photo]) -> None:
    """Each row of the table of faults, each fault of a clock and each healthy kind has its photos."""
    faults = {photo.fault for photo in library}
    healthy = {"healthy phone", "healthy camera", "healthy phone abroad"}
    assert faults > CLOCK_FAULTS | healthy
    assert len(faults - CLOCK_FAULTS - healthy) == len(FAULTS)


def test_marks_go_with_faults(library: list[Photo]) -> None:
    """A fault has one mark; the marks add up to all; faults of clocks are marked as such."""
    marks = {(photo.fault, photo.mark) for photo in library}
    assert len(marks) == len({fault for fault, _ in marks})
    assert {fault for fault, mark in marks if mark == "clock"} == {*CLOCK_FAULTS, COPY_OF_WRONG}
    counts = Counter(photo.mark for photo in library)
    assert counts["settled"] + counts["clock"] + counts["open"] == len(library)


def test_most_photos_are_healthy(library: list[Photo]) -> None:
    """As in real life: more than half have nothing wrong, and fewer than a tenth are open."""
    assert sum(photo.fault.startswith("healthy") for photo in library) > 0.55 * len(library)
    assert sum(photo.mark == "open" for photo in library) < 0.1 * len(library)


def test_four_libraries_are_as_large_as_promised() -> None:
    """The full form holds more than 3,700 photos."""
    assert sum(len(made(seed, FULL)) for seed in range(1, 5)) >= 3_700


def test_no_two_photos_are_one(library: list[Photo]) -> None:
    """No two lie in one place, and no two show the same in the same way, which would make them one photo."""
    places = [place for photo in library for place in (photo.path, *photo.also_at)]
    assert len(set(places)) == len(places)
    assert len({photo.view for photo in library}) == len(library)


def test_week_of_the_truth_is_the_iso_week(library: list[Photo]) -> None:
    """The Monday of a photo's week is that of Python's own ISO calendar (ISO 8601)."""
    for photo in library:
        year, week, _ = photo.taken.isocalendar()
        assert photo.week == date.fromisocalendar(year, week, 1)


def test_mondays_of_many_days() -> None:
    """The same over all days of 40 years."""
    day = date(1990, 1, 1)
    while day.year < 2030:
        assert household.monday_of(day) == date.fromisocalendar(*day.isocalendar()[:2], 1)
        day += timedelta(days=1)


def test_honest_clocks_show_the_right_week(world: tuple[World, Clocks]) -> None:
    """Where no fault is named the clock is within three minutes, and never shows another week."""
    happened, its_clocks = world
    honest = [frame for frame in happened.frames if not fault_of(frame, its_clocks)]
    for frame in honest:
        own = shown(frame, its_clocks)
        assert abs(own - frame.local) <= timedelta(minutes=3)
        assert household.monday_of(own.date()) == frame.week


@pytest.mark.parametrize("fault", sorted(CLOCK_FAULTS - {clocks.BATTERY, clocks.SATELLITES}))
def test_wrong_clocks_are_shown_by_shared_scenes(world: tuple[World, Clocks], fault: str) -> None:
    """Scenes that a phone saw too, on three days and four occasions at least, tell by how much a clock is wrong."""
    happened, its_clocks = world
    shared = [frame for frame in happened.frames if frame.is_shared and fault_of(frame, its_clocks) == fault]
    by_trip: defaultdict[str, list[Frame]] = defaultdict(list)
    for frame in shared:
        by_trip[frame.zone].append(frame)
    for frames in by_trip.values():
        assert len({frame.occasion for frame in frames}) >= 4
        assert len({frame.local.date() for frame in frames}) >= 3
        assert len({shown(frame, its_clocks) - frame.local for frame in frames}) <= 2  # one constant for each


def test_second_empty_battery_lies_within_a_week(world: tuple[World, Clocks]) -> None:
    """The frames before and after it, by the camera's own numbers, are of its week and have a right clock."""
    happened, its_clocks = world
    run = [frame for frame in happened.frames if frame.device == household.HARBOUR]
    places = [place for place, frame in enumerate(run) if fault_of(frame, its_clocks) == clocks.BATTERY]
    around = [run[min(places) - 1], run[max(places) + 1]]
    assert {frame.week for frame in around} == {run[place].week for place in places}
    assert not any(fault_of(frame, its_clocks) for frame in around)


def test_lost_dates_stand_between_neighbours(library: list[Photo]) -> None:
    """Of every blank date the photos with the numbers before and after it are here with their dates: in one week where
    it is settled, in two where it is open."""
    run = sorted((photo for photo in library if "/tarn/" in photo.path), key=lambda photo: photo.path)
    for place, photo in enumerate(run):
        if "blank date" in photo.fault:
            before = next(other for other in reversed(run[:place]) if "blank" not in other.fault)
            after = next(other for other in run[place + 1 :] if "blank" not in other.fault)
            assert before.fault == after.fault == "healthy camera"
            assert (before.week == after.week) == (photo.mark == "settled")
            assert before.taken <= photo.taken <= after.taken


def test_originals_of_settled_copies_are_here(library: list[Photo]) -> None:
    """What is settled by its original has it in the library, with a time that is right; what is alone has none."""
    at_scene: defaultdict[int, list[Photo]] = defaultdict(list)
    for photo in library:
        at_scene[photo.view.scene].append(photo)
    for photo in library:
        others = [other for other in at_scene[photo.view.scene] if other is not photo]
        if "original here" in photo.fault:
            originals = [other for other in others if (other.view.eye, other.view.frame, other.view.change)
                         == (photo.view.eye, photo.view.frame, "")]  # fmt: skip
            assert [original.taken for original in originals] == [photo.taken]
            assert originals[0].mark == photo.mark
        elif photo.mark == "open" and "sidecar" not in photo.fault:
            assert others == []


def test_messages_over_the_edge_come_in_the_next_week(library: list[Photo]) -> None:
    """Their names carry the day of arrival, which is in the week after that in which they were taken."""
    for photo in library:
        if "over the week's edge" in photo.fault:
            arrived = datetime.strptime(photo.path.split("IMG-")[1][:8], "%Y%m%d").date()  # noqa: DTZ007
            assert household.monday_of(arrived) == photo.week + timedelta(days=7)


def test_utc_names_abroad_have_a_neighbour_with_its_offset(library: list[Photo]) -> None:
    """Another photo of that phone and day carries the offset."""
    stripped = [photo for photo in library if photo.fault == "UTC name abroad"]
    for photo in stripped:
        assert any(
            other.exif and other.exif.offset and "/PXL_" in other.path and other.taken.date() == photo.taken.date()
            for other in library
        )


def test_some_faults_move_photos_over_the_edge() -> None:
    """UTC names, clocks hours off and clocks abroad are there near the week's edge too, over all four libraries."""
    photos = [photo for seed in range(1, 5) for photo in made(seed, FULL)]
    for fault in (clocks.HOURS, clocks.ABROAD, clocks.SUMMER, clocks.SATELLITES):
        assert any(_exif_week(photo) not in (None, photo.week) for photo in photos if photo.fault == fault), fault
    assert any(photo.fault == "UTC name at home" and photo.path.split("PXL_")[1][:8] != f"{photo.taken:%Y%m%d}"
               for photo in photos)  # fmt: skip


def _exif_week(photo: Photo) -> date | None:
    if not photo.exif or not photo.exif.original.strip(": 0"):
        return None
    return household.monday_of(datetime.strptime(photo.exif.original, "%Y:%m:%d %H:%M:%S").date())  # noqa: DTZ007


def test_files_are_the_same_and_carry_what_is_planned(tmp_path: Path) -> None:
    """Written twice, a small library has the same bytes and file times; dates, sidecars and second places are there."""
    tiny = [photo for photo in library_of(2, SHORT) if not photo.fault.startswith("healthy")][::7]
    for name in ("one", "two"):
        write_library(tmp_path / name, tiny)
    one, two = ({str(path.relative_to(tmp_path / name)): (path.read_bytes(), path.stat().st_mtime)
                 for path in (tmp_path / name).rglob("*") if path.is_file()} for name in ("one", "two"))  # fmt: skip
    assert one == two
    assert len(one) == sum(1 + len(photo.also_at) + (photo.sidecar is not None) for photo in tiny)
    for photo in tiny:
        with Image.open(tmp_path / "one" / photo.path) as picture:
            original = picture.getexif().get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.DateTimeOriginal, "")
            assert original == (photo.exif.original if photo.exif else "")
            picture.load()


def test_extents_differ() -> None:
    """The short form is smaller than the full one."""
    short: Extent = SHORT
    assert len(made(1, short)) < 0.7 * len(made(1, FULL))
