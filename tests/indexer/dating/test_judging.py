"""The story of judging, from all that is known to one verdict a photo."""

import random
from datetime import datetime, timedelta

import pytest

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, ByHand, CaptureTime, CopyPair, PhotoSaid, SameScene
from indexer.facts.records import Claim
from tests.indexer.dating.said import COMPACT, PHONE, claim, correction, photo, world

START = datetime(2026, 3, 2, 10)  # noqa: DTZ001 - a wall clock
WRONG = timedelta(days=10)


def text(when: datetime) -> str:
    return when.isoformat(timespec="seconds")


def two_cameras(days: int = 6) -> Archive:
    """A phone that is right and a compact camera ten days behind, which saw the same scene once a day."""
    photos, scenes = [], []
    for day in range(days):
        when = START + timedelta(days=2 * day, minutes=17 * day)
        photos.append(photo(f"p{day}", claim("exif original", text(when), 120), camera=PHONE))
        photos.append(
            photo(f"c{day}", claim("exif original", text(when - WRONG)), camera=COMPACT, name=f"HRBR{day + 1:04d}.JPG")
        )
        scenes.append(SameScene(f"c{day}", f"p{day}", 3.0))
    return Archive(photos, scenes=scenes)


def test_a_wrong_clock_is_suggested_and_never_corrected_unasked() -> None:
    """Its photos are doubtful, with the way to see why, and stay where the camera put them."""
    judged = judge_archive(two_cameras(), world())
    (suggestion,) = judged.suggestions
    assert (suggestion.camera, suggestion.shift_seconds) == (COMPACT, WRONG.total_seconds())
    doubtful = [key for key, said in judged.verdicts.items() if said.doubtful]
    assert doubtful == [f"c{day}" for day in range(6)]
    assert "clock suggest" in judged.verdicts["c0"].reason
    assert judged.verdicts["c0"].taken == text(START - WRONG)


def test_a_clock_set_right_settles_its_photos() -> None:
    """No doubt and no suggestion is left, and the times are corrected."""
    archive = two_cameras()
    told = correction(int(WRONG.total_seconds()))
    judged = judge_archive(Archive(archive.photos, scenes=archive.scenes, corrections=[told]), world())
    assert judged.suggestions == ()
    assert judged.verdicts["c0"].taken == text(START)
    assert not any(said.doubtful for said in judged.verdicts.values())


@pytest.mark.parametrize(
    ("other", "is_doubtful"),
    [
        (claim("file time", "2025-03-30T07:15:22"), False),  # the card's, by the same clock
        (claim("file time", "2024-03-30T07:15:22"), True),
        (claim("folder name", "2025-03-30"), False),  # made by a program when the card was copied
        (claim("folder name", "2026-03"), False),
        (claim("folder name", "2024"), True),
        (claim("sidecar original", "2025-03-30T09:15:20"), False),  # copied out of the photo
        (claim("sidecar original", "2026-03-30T09:15:20"), False),  # put right by hand
        (claim("sidecar original", "2026-02-20T09:15:20"), True),
        (claim("file name", "2026-03-30"), False),
        (claim("file name", "2025-03-30T09:15:20"), False),
        (claim("file name", "2025-04-02", arrival=True), True),
        (claim("gps", "2025-03-30T07:15:20", utc=True), True),
    ],
)
def test_what_the_wrong_clock_made_does_not_contradict_its_correction(other: Claim, is_doubtful: bool) -> None:
    """Nor does what agrees with it; what knows better than the clock does, and what fits neither."""
    own = photo("a", claim("exif original", "2025-03-30T09:15:20"), other, camera=COMPACT)
    said = judge_archive(Archive([own], corrections=[correction(365 * 86_400)]), world()).verdicts["a"]
    assert (said.taken, said.doubtful) == ("2026-03-30T09:15:20", is_doubtful)


def test_a_correction_that_the_evidence_contradicts_is_kept_and_said() -> None:
    """The person's word holds, and the photos whose week hangs on it stay doubtful; +0 says that they know."""
    archive = two_cameras()
    for seconds, is_doubtful in ((3600, True), (0, False)):
        told = Archive(archive.photos, scenes=archive.scenes, corrections=[correction(seconds)])
        said = judge_archive(told, world()).verdicts["c0"]
        assert said.taken == text(START - WRONG + timedelta(seconds=seconds))
        assert said.doubtful is is_doubtful
    assert (
        "you corrected"
        in judge_archive(Archive(archive.photos, scenes=archive.scenes, corrections=[correction(3600)]), world())
        .verdicts["c0"]
        .reason
    )


def test_a_time_by_hand_outranks_clocks() -> None:
    """It stays as it was told whatever correction is told of its camera."""
    own = photo("a", claim("exif original", "2026-03-30T09:15:20"), camera=COMPACT)
    told = ByHand(taken={"a": "2026-02-01T10:00"})
    said = judge_archive(Archive([own], corrections=[correction(3600)], by_hand=told), world()).verdicts["a"]
    assert (said.taken, said.precision, said.source, said.doubtful) == ("2026-02-01T10:00", "minute", "by hand", False)
    assert (said.chosen, said.offset_minutes) == (0, None)


@pytest.mark.parametrize("taken", ["1987", "1987-08"])
def test_a_month_told_by_hand_leaves_the_week_open(taken: str) -> None:
    """It is kept, and the photo stays in the list of what needs a look."""
    own = photo("a", claim("file time", "2026-03-30T09:15:20"))
    said = judge_archive(Archive([own], by_hand=ByHand(taken={"a": taken})), world()).verdicts["a"]
    assert (said.taken, said.doubtful) == (taken, True)


def test_a_week_told_by_hand_settles_a_doubtful_photo() -> None:
    """It counts in that week by its fourth day, and keeps its time."""
    own = photo("a", claim("file time", "2026-05-30T09:15:20"))
    said = judge_archive(Archive([own], by_hand=ByHand(weeks={"a": "2026-03-30"})), world()).verdicts["a"]
    assert (said.placed, said.taken, said.doubtful) == ("2026-04-02", "2026-05-30T11:15:20", False)
    assert said.reason.count("you put it into this week") == 1


def any_archive(seed: int) -> Archive:
    """Photos with any claims, in runs, with copies, scenes, words: nothing that need make sense."""
    rng = random.Random(seed)
    sources = (
        "exif original",
        "exif digitized",
        "file name",
        "file time",
        "xmp original",
        "gps",
        "folder name",
        "iptc",
    )

    def any_claim() -> object:
        when = text(START + timedelta(days=rng.randrange(-9000, 300), seconds=rng.randrange(86_400)))
        letters = rng.choice([4, 7, 10, 16, 19, 19, 19])
        is_utc = letters == 19 and rng.random() < 0.2
        return claim(rng.choice(sources), when[:letters], utc=is_utc, arrival=rng.random() < 0.2)

    photos: list[PhotoSaid] = [
        photo(
            f"k{n}",
            *(any_claim() for _ in range(rng.randrange(4))),  # type: ignore[arg-type]
            camera=rng.choice([COMPACT, PHONE]),
            name=rng.choice([f"HRBR{n:04d}.JPG", f"IMG-20260330-WA{n:04d}.jpg", "x.png"]),
        )
        for n in range(40)
    ]
    keys = [item.key for item in photos]
    pairs = [sorted(rng.sample(keys, 2)) for _ in range(30)]
    return Archive(
        photos,
        [CopyPair(one, other, rng.uniform(0.9, 1)) for one, other in pairs[:15]],
        [SameScene(one, other, 1.0) for one, other in pairs[15:]],
        [correction(rng.randrange(-(10**8), 10**8), camera=rng.choice([COMPACT, PHONE]))],
        ByHand({keys[0]: "2026-03-30"}, {keys[1]: "2026-03-30"}),
    )


def told(said: CaptureTime) -> tuple[object, ...]:
    return said.taken, said.placed, said.precision, said.source, said.doubtful, said.reason, said.twin


@pytest.mark.parametrize("seed", range(60))
def test_any_archive_is_judged_whole_and_alike_in_any_order(seed: int) -> None:
    """Every photo has a verdict with a reason, and the order in which photos come decides nothing."""
    archive = any_archive(seed)
    judged = judge_archive(archive, world())
    assert judged.verdicts.keys() == {item.key for item in archive.photos}
    assert all(said.reason and "\n" not in said.reason for said in judged.verdicts.values())
    assert all(said.doubtful or (said.placed and len(said.placed) >= 10) for said in judged.verdicts.values())
    turned = Archive(
        archive.photos[::-1], archive.copies[::-1], archive.scenes[::-1], archive.corrections, archive.by_hand
    )
    again = judge_archive(turned, world())
    assert {key: told(said) for key, said in again.verdicts.items()} == {
        key: told(said) for key, said in judged.verdicts.items()
    }
