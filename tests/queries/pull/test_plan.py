"""What a pull decides, from values alone."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from indexer.errors import PullError
from queries.made_files.values import FileState
from queries.made_files.writing import Written
from queries.originals import NoSource, Source
from queries.photos import Photo
from queries.pull.manifest import Manifest, PulledPhoto
from queries.pull.plan import PullPlan, plan_pull, plan_words
from queries.pull.records import new_record, records_before_copying
from queries.weeks import Week, WeekRule

MakePhoto = Callable[..., Photo]
FOLDER = Path("out")
SOURCE = Source("/library/photo.jpg", 1000, 10**18)
GONE = NoSource("/library/photo.jpg", "not found")
NAME = "2026-03-30_0915_3f9a2.jpg"


@pytest.fixture
def photo(make_photo: MakePhoto) -> Photo:
    return make_photo(key="3f9a2" + "0" * 59, width=1000, height=800)


@pytest.fixture
def record(photo: Photo) -> PulledPhoto:
    return new_record(photo, NAME, photo.path, Written("aa", 1000, 7), "")


def held(week: Week, *records: PulledPhoto, as_jpeg: bool = False) -> Manifest:
    return Manifest(week.name, week.first_day, as_jpeg, "open", (), records, ())


def plan_one(
    photo: Photo,
    week: Week,
    *records: PulledPhoto,
    state: FileState | None = None,
    source: Source | NoSource = SOURCE,
    as_jpeg: bool = False,
) -> PullPlan:
    return plan_pull(
        [photo],
        week,
        FOLDER,
        as_jpeg=as_jpeg,
        held=held(week, *records, as_jpeg=as_jpeg) if records else None,
        on_disk={NAME: state} if state else {},
        sources={photo.key: source},
    )


def test_an_empty_folder_gets_a_copy(photo: Photo, week: Week) -> None:
    """What is not there is copied, and its size is counted."""
    plan = plan_one(photo, week)
    assert [(file.name, file.action) for file in plan.files] == [(NAME, "copy")]
    assert (plan.total_bytes, plan.is_estimate) == (1000, False)


def test_jpegs_are_reckoned_from_their_pixels(photo: Photo, week: Week) -> None:
    """The size of a JPEG that is still to be made is an estimate, and said to be one."""
    plan = plan_one(photo, week, as_jpeg=True)
    assert (plan.total_bytes, plan.is_estimate) == (602_000, True)
    assert plan_words(plan, week) == "30 Mar - 5 Apr 2026, week 14: 1 photo, 1 to copy (up to about 602 kB)"


@pytest.mark.parametrize(
    ("state", "action", "reason"),
    [
        (None, "copy", ""),
        (FileState(1000, 7), "keep", ""),
        (FileState(1000, 8, sha256="aa"), "keep", ""),
        (FileState(1000, 8, sha256="bb"), "leave", "changed since it was pulled"),
        (FileState(1001, 7), "leave", "changed since it was pulled"),
        (FileState(1000, 7, is_plain=False), "leave", "a folder or link has this name"),
    ],
)
def test_a_recorded_file(
    photo: Photo, week: Week, record: PulledPhoto, state: FileState | None, action: str, reason: str
) -> None:
    """Ours and unchanged is kept, changed is the person's, deleted is copied again."""
    (file,) = plan_one(photo, week, record, state=state).files
    assert (file.action, file.reason) == (action, reason)


@pytest.mark.parametrize(
    ("state", "source", "action"),
    [
        (FileState(1000, 1, sha256="cc"), replace(SOURCE, fresh_sha256="cc"), "keep"),
        (FileState(1000, 1, sha256="cc"), replace(SOURCE, fresh_sha256="dd"), "leave"),
        (FileState(999, 1), SOURCE, "leave"),
        (FileState(1000, 1), GONE, "leave"),
    ],
)
def test_an_unrecorded_file(photo: Photo, week: Week, state: FileState, source: Source | NoSource, action: str) -> None:
    """A file under the wanted name is taken for ours only when it holds the very bytes we would write."""
    assert [file.action for file in plan_one(photo, week, state=state, source=source).files] == [action]


def test_a_lost_original_matters_only_where_a_copy_is_needed(photo: Photo, week: Week, record: PulledPhoto) -> None:
    """Without its original a photo is missing from the folder, unless its copy is there."""
    assert [file.action for file in plan_one(photo, week, source=GONE).files] == ["missing"]
    assert [file.action for file in plan_one(photo, week, record, source=GONE).files] == ["missing"]
    there = plan_one(photo, week, record, state=FileState(1000, 7), source=GONE)
    assert [file.action for file in there.files] == ["keep"]


def test_a_name_outlives_code_and_time(photo: Photo, week: Week, record: PulledPhoto) -> None:
    """A recorded name stays when the photo's code has grown and its time was corrected."""
    changed = replace(photo, code="3f9a20", taken="2026-04-01T10:00:00")
    plan = plan_one(changed, week, record, state=FileState(1000, 7))
    assert [(file.name, file.action) for file in plan.files] == [(NAME, "keep")]
    (refreshed,) = records_before_copying(plan, {}).values()
    assert (refreshed.file, refreshed.code, refreshed.taken) == (NAME, "3f9a20", "2026-04-01T10:00:00")


def test_a_photo_that_went_to_another_week_is_a_stray(week: Week, record: PulledPhoto, make_photo: MakePhoto) -> None:
    """Its file stays, and its record says that it is no longer of the week; without the file the record goes."""
    other = make_photo("/library/other.jpg")
    for on_disk, strays in (({NAME: FileState(1000, 7)}, [NAME]), ({}, [])):
        plan = plan_pull(
            [other],
            week,
            FOLDER,
            as_jpeg=False,
            held=held(week, record),
            on_disk=on_disk,
            sources={other.key: SOURCE},
        )
        assert [stray.file for stray in plan.strays] == strays
        assert [kept.in_week for kept in records_before_copying(plan, {}).values()] == [False] * len(strays)


def test_a_name_stays_recorded_while_its_photo_cannot_be_copied(photo: Photo, week: Week, record: PulledPhoto) -> None:
    """A deleted copy whose original is out of reach keeps its name for the day that the original is back."""
    assert records_before_copying(plan_one(photo, week, record, source=GONE), {}) == {photo.key: record}


def test_another_weeks_folder_is_refused(photo: Photo, week: Week, record: PulledPhoto) -> None:
    """The error names the folder, the week it holds, and the way out."""
    other = WeekRule().week_named(2026, 15)
    with pytest.raises(PullError, match=r"^out holds the photos of 30 Mar - 5 Apr 2026 already; choose another folder"):
        plan_pull([photo], other, FOLDER, as_jpeg=False, held=held(week, record), on_disk={}, sources={photo.key: GONE})


@pytest.mark.parametrize(
    ("before", "there", "asked"), [(True, "JPEGs", "exact copies"), (False, "exact copies", "JPEGs")]
)
def test_copies_and_jpegs_do_not_mix(
    photo: Photo, week: Week, record: PulledPhoto, before: bool, there: str, asked: str
) -> None:
    """A folder of the one kind does not become a folder of the other."""
    manifest = held(week, record, as_jpeg=before)
    with pytest.raises(PullError, match=f"out holds {there} already; pull the {asked} into a folder of their own"):
        plan_pull([photo], week, FOLDER, as_jpeg=not before, held=manifest, on_disk={}, sources={photo.key: SOURCE})


def test_the_plan_in_words(week: Week, make_photo: MakePhoto) -> None:
    """One line says how many photos there are, what will be written, and what will not."""
    photos = [make_photo(f"/library/{number}.jpg", taken=f"2026-03-30T0{number}:00:00") for number in range(4)]
    records = [new_record(photo, f"{place}.jpg", "", Written("aa", 5, 5), "") for place, photo in enumerate(photos[:2])]
    plan = plan_pull(
        photos,
        week,
        FOLDER,
        as_jpeg=False,
        held=held(week, *records),
        on_disk={"0.jpg": FileState(5, 5), "1.jpg": FileState(6, 5)},
        sources={photo.key: SOURCE for photo in photos[:3]} | {photos[3].key: GONE},
    )
    assert plan_words(plan, week) == (
        "30 Mar - 5 Apr 2026, week 14: 4 photos, 1 to copy (1.0 kB), 1 already there, "
        "1 left as they are, 1 without an original"
    )
