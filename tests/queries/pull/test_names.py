"""The names of pulled files, and the order of photos."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from queries.photos import Photo
from queries.pull.names import capture_order, names_of, suffix_of

MakePhoto = Callable[..., Photo]

LENGTHS = {"second": 19, "minute": 16, "day": 10, "month": 7, "year": 4, "unknown": 0}


@st.composite
def moments(draw: st.DrawFn) -> dict[str, str | None]:
    """A capture time of any precision, from few enough minutes that many are shared."""
    precision = draw(st.sampled_from(sorted(LENGTHS)))
    full = (
        f"2026-{draw(st.sampled_from(['03-30', '03-31', '04-01']))}"
        f"T{draw(st.sampled_from(['00', '09', '23']))}:{draw(st.sampled_from(['00', '15', '59']))}"
        f":{draw(st.sampled_from(['00', '07', '59']))}"
    )
    fraction = draw(st.text("0123456789", max_size=3)) if precision == "second" else ""
    taken = full[: LENGTHS[precision]] or None
    return {"taken": taken, "precision": precision, "fraction": fraction}


WEEKS = st.lists(st.tuples(moments(), st.integers(16**4, 16**5 - 1)), unique_by=lambda pair: pair[1], max_size=12)


def build(make_photo: MakePhoto, week: list[tuple[dict[str, str | None], int]]) -> list[Photo]:
    return [make_photo(key=f"{code:05x}" + "0" * 59, **moment) for moment, code in week]


@given(week=WEEKS, as_jpeg=st.booleans())
def test_names_sort_by_capture_time(
    make_photo: MakePhoto, week: list[tuple[dict[str, str | None], int]], as_jpeg: bool
) -> None:
    """Sorting the names puts the photos in the order in which they were taken."""
    photos = build(make_photo, week)
    names = names_of(photos, {}, as_jpeg=as_jpeg)
    assert sorted(names.values()) == [names[photo.key] for photo in sorted(photos, key=capture_order)]


@given(week=WEEKS, split=st.integers(0, 12))
def test_names_stay(make_photo: MakePhoto, week: list[tuple[dict[str, str | None], int]], split: int) -> None:
    """Photos that come later change no name, and no two names differ only in case."""
    photos = build(make_photo, week)
    first = names_of(photos[:split], {}, as_jpeg=False)
    later = names_of(photos, first, as_jpeg=False)
    assert first.items() <= later.items()
    assert len({name.casefold() for name in later.values()}) == len(photos)


@pytest.mark.parametrize(
    ("facts", "name"),
    [
        ({}, "2026-03-30_0915_3f9a2.jpg"),
        ({"taken": "2026-03-30T09:15", "precision": "minute"}, "2026-03-30_0915_3f9a2.jpg"),
        ({"taken": "2026-03-30", "precision": "day"}, "2026-03-30_notime_3f9a2.jpg"),
        ({"taken": "2026-03-30", "precision": "between"}, "2026-03-30_notime_3f9a2.jpg"),
        ({"taken": "2026-03", "precision": "month"}, "2026-03_noday_3f9a2.jpg"),
        ({"taken": "2026", "precision": "year"}, "2026_noday_3f9a2.jpg"),
        ({"taken": None, "precision": "unknown"}, "undated_3f9a2.jpg"),
        ({"format": "HEIF"}, "2026-03-30_0915_3f9a2.heic"),
    ],
)
def test_a_name_tells_what_is_known_of_the_time(make_photo: MakePhoto, facts: dict[str, str], name: str) -> None:
    """A name carries day, time and code as far as the time is known."""
    photo = make_photo(key="3f9a2" + "0" * 59, **facts)
    assert names_of([photo], {}, as_jpeg=False) == {photo.key: name}


def test_company_in_a_minute_and_in_a_second(make_photo: MakePhoto) -> None:
    """Photos of one minute carry the seconds, those of one second also the milliseconds they have."""
    photos = [
        make_photo(key="aaaaa", taken="2026-03-30T09:15:07", fraction="5"),
        make_photo(key="bbbbb", taken="2026-03-30T09:15:07", fraction="1239"),
        make_photo(key="ccccc", taken="2026-03-30T09:15:07"),
        make_photo(key="ddddd", taken="2026-03-30T09:15:41", fraction="9"),
        make_photo(key="eeeee", taken="2026-03-30T09:15", precision="minute"),
        make_photo(key="fffff", taken="2026-03-30T09:16:07", fraction="5"),
    ]
    assert list(names_of(photos, {}, as_jpeg=False).values()) == [
        "2026-03-30_0915-07-123_bbbbb.jpg",
        "2026-03-30_0915-07-500_aaaaa.jpg",
        "2026-03-30_0915-07_ccccc.jpg",
        "2026-03-30_0915-41_ddddd.jpg",
        "2026-03-30_0915_eeeee.jpg",
        "2026-03-30_0916_fffff.jpg",
    ]


def test_a_taken_name_gets_more_of_the_key(make_photo: MakePhoto) -> None:
    """A name that is recorded for another photo is not given again, in whatever case."""
    photo = make_photo(key="3f9a2b7c")
    recorded = {"another": "2026-03-30_0915_3F9A2.jpg"}
    assert names_of([photo], recorded | {}, as_jpeg=False) == {photo.key: "2026-03-30_0915_3f9a2b.jpg"}


def test_photos_of_one_code_get_names_of_their_own(make_photo: MakePhoto) -> None:
    """Codes that fail to tell two photos apart are lengthened in their names."""
    photos = [make_photo(key=key, code="3f9a2") for key in ("3f9a2b", "3f9a2c")]
    assert list(names_of(photos, {}, as_jpeg=False).values()) == [
        "2026-03-30_0915-20_3f9a2.jpg",
        "2026-03-30_0915-20_3f9a2c.jpg",
    ]


@pytest.mark.parametrize(
    ("facts", "suffix"),
    [
        ({"format": "WebP"}, ".webp"),
        ({"format": "TIFF"}, ".tif"),
        ({"format": "AVIF"}, ".avif"),
        ({"format": "PNG", "path": "/library/really.JPG"}, ".png"),
        ({"format": "raw", "path": "/library/DSCF0001.RAF"}, ".raf"),
        ({"format": "raw", "path": "/library/odd.ra\nw"}, ".raw"),
    ],
)
def test_the_suffix_tells_the_real_format(make_photo: MakePhoto, facts: dict[str, str], suffix: str) -> None:
    """The suffix goes by the content; only raw files keep their own, in lower case."""
    assert suffix_of(make_photo(**facts)) == suffix


def test_names_keep_in_order_with_photos_that_are_pulled_later(make_photo: MakePhoto) -> None:
    """Where a minute is shared with a photo that is left out, the name tells the second, as it would with both."""
    first = make_photo("/library/a.jpg", taken="2026-03-30T09:15:20")
    second = make_photo("/library/b.jpg", taken="2026-03-30T09:15:40")
    both = names_of([first, second], {}, as_jpeg=False)
    alone = names_of([first], {}, as_jpeg=False, beside=[second])
    assert alone == {first.key: both[first.key]}
    assert list(names_of([first, second], alone, as_jpeg=False).values()) == sorted(both.values())
