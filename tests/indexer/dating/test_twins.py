"""What copies tell of each other."""

from collections.abc import Iterable

import pytest

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, ByHand, CaptureTime, CopyPair, PhotoSaid
from tests.indexer.dating.said import COMPACT, PHONE, claim, correction, photo, world

ORIGINAL = photo("original", claim("exif original", "2026-03-29T21:15:20", 120), camera=PHONE, name="kite.jpg")
SENT = photo("sent", claim("file name", "2026-03-30", arrival=True), claim("file time", "2026-05-01T10:00:00"))
SURE = 0.98


def judged(photos: Iterable[PhotoSaid], *copies: CopyPair, by_hand: ByHand | None = None) -> dict[str, CaptureTime]:
    archive = Archive(list(photos), copies, by_hand=by_hand or ByHand())
    return dict(judge_archive(archive, world()).verdicts)


def test_a_copy_without_metadata_takes_the_time_of_its_twin() -> None:
    """The reason names the twin, and the week is that of the picture and not of the message."""
    said = judged([ORIGINAL, SENT], CopyPair("original", "sent", SURE))["sent"]
    assert (said.taken, said.precision, said.offset_minutes) == ("2026-03-29T21:15:20", "second", 120)
    assert (said.source, said.twin, said.doubtful, said.placed) == ("copy", "original", False, said.taken)
    assert said.reason == "it is a copy of kite.jpg"


def test_a_weak_match_hands_on_nothing() -> None:
    """What is enough to print only one of the two is not enough to date by."""
    said = judged([ORIGINAL, SENT], CopyPair("original", "sent", 0.905))["sent"]
    assert (said.taken, said.doubtful) == ("2026-03-30", True)


def test_a_copy_of_a_copy_takes_the_time_too() -> None:
    """Where the engine found the two that were sent alike, and only one of them like the original."""
    again = photo("again", claim("file time", "2026-05-02T10:00:00"))
    found = judged([ORIGINAL, SENT, again], CopyPair("original", "sent", SURE), CopyPair("again", "sent", SURE))
    assert (found["again"].taken, found["again"].twin, found["again"].doubtful) == (
        "2026-03-29T21:15:20",
        "sent",
        False,
    )


def test_copies_of_different_weeks_leave_it_doubtful() -> None:
    """Nothing says which of them it was made of."""
    other = photo("other", claim("exif original", "2026-04-20T10:00:00", 120), camera=PHONE)
    found = judged([ORIGINAL, SENT, other], CopyPair("original", "sent", SURE), CopyPair("other", "sent", SURE))
    assert found["sent"].doubtful
    assert "different weeks" in found["sent"].reason


def test_a_twin_that_is_much_surer_decides() -> None:
    """The same view photographed again in another week is a little alike; the twin is wholly so."""
    other = photo("other", claim("exif original", "2026-04-20T10:00:00", 120), camera=PHONE)
    found = judged([ORIGINAL, SENT, other], CopyPair("original", "sent", 0.99), CopyPair("other", "sent", 0.93))
    assert (found["sent"].twin, found["sent"].doubtful) == ("original", False)


def test_two_copies_that_both_know_better_are_both_doubtful() -> None:
    """Each has a date of its own, and they are of different weeks: the reason names the other one."""
    other = photo("other", claim("exif original", "2026-04-20T10:00:00"), camera=COMPACT)
    found = judged([ORIGINAL, other], CopyPair("original", "other", SURE))
    assert found["original"].doubtful
    assert found["original"].taken == "2026-03-29T21:15:20"
    assert "its copy other.jpg is of 20 Apr 2026" in found["original"].reason
    assert "kite.jpg is of 29 Mar 2026" in found["other"].reason


def test_a_doubtful_twin_hands_on_its_doubt() -> None:
    """Its time is still the best that is known."""
    unset = photo("unset", claim("exif original", "1980-01-01T00:00:10"), camera=COMPACT)
    said = judged([unset, SENT], CopyPair("sent", "unset", SURE))["sent"]
    assert (said.taken, said.doubtful) == ("1980-01-01T00:00:10", True)
    assert "itself" in said.reason or "own time is doubtful" in said.reason


def test_what_arrived_before_it_was_taken_is_doubtful() -> None:
    """The twin's clock is ahead."""
    early = photo("early", claim("file name", "2026-03-20", arrival=True))
    said = judged([ORIGINAL, early], CopyPair("early", "original", SURE))["early"]
    assert said.doubtful
    assert "arrived before" in said.reason


def test_a_name_given_at_saving_gives_way_to_the_cameras_date() -> None:
    """A picture saved from a message weeks later, under a name as cameras give them."""
    saved = photo("saved", claim("file name", "2026-04-20T10:00:00"))
    said = judged([ORIGINAL, saved], CopyPair("original", "saved", SURE))["saved"]
    assert (said.taken, said.doubtful) == ("2026-03-29T21:15:20", False)
    named_before = photo("before", claim("file name", "2026-03-01T10:00:00"))
    found = judged([ORIGINAL, named_before], CopyPair("before", "original", SURE))
    assert found["before"].doubtful
    assert found["original"].doubtful


@pytest.mark.parametrize("taken", ["2026-02-10T10:00", "2026-02-10"])
def test_a_time_told_by_hand_is_handed_on(taken: str) -> None:
    """Whatever the copies claim of themselves: the person outranks them."""
    found = judged([ORIGINAL, SENT], CopyPair("original", "sent", SURE), by_hand=ByHand(taken={"sent": taken}))
    assert (found["sent"].taken, found["sent"].source, found["sent"].doubtful) == (taken, "by hand", False)
    assert (found["original"].taken, found["original"].source) == (taken, "copy")


def test_copies_follow_into_the_week_told_by_hand() -> None:
    """They keep their time, and count where the photo was put: by that week's fourth day."""
    told = ByHand(weeks={"original": "2026-02-02"})
    found = judged([ORIGINAL, SENT], CopyPair("original", "sent", SURE), by_hand=told)
    for key in ("original", "sent"):
        assert (found[key].placed, found[key].taken, found[key].doubtful) == (
            "2026-02-05",
            "2026-03-29T21:15:20",
            False,
        )
    both = ByHand(weeks={"original": "2026-02-02", "sent": "2026-02-09"})
    assert judged([ORIGINAL, SENT], CopyPair("original", "sent", SURE), by_hand=both)["sent"].placed == "2026-02-12"


def test_a_copy_of_what_its_other_copy_contradicts_is_as_doubtful() -> None:
    """The doubt about the twin comes from a photo that this copy does not resemble enough."""
    other = photo("other", claim("exif original", "2026-04-20T10:00:00"), camera=COMPACT)
    found = judged([ORIGINAL, SENT, other], CopyPair("original", "sent", SURE), CopyPair("original", "other", SURE))
    assert (found["sent"].twin, found["sent"].doubtful) == ("original", True)
    assert "kite.jpg, whose own time is doubtful" in found["sent"].reason


def test_a_name_of_saving_is_not_handed_on() -> None:
    """The copy that was saved two weeks later passes on the time of the picture, and not its own."""
    saved = photo("saved", claim("file name", "2026-04-14T10:00:00"), claim("file time", "2026-05-01T10:00:00"))
    again = photo("again", claim("file time", "2026-05-02T10:00:00"))
    found = judged([ORIGINAL, saved, again], CopyPair("original", "saved", SURE), CopyPair("again", "saved", SURE))
    assert (found["saved"].taken, found["again"].taken) == (ORIGINAL.said[0].claim.when,) * 2


def test_a_file_that_was_there_before_the_twin_was_taken_is_doubtful() -> None:
    """Whatever it is dated by: a name says later, and the file's own time betrays it."""
    early = photo("early", claim("file name", "2026-05-01", arrival=True), claim("file time", "2026-02-01T10:00:00"))
    assert judged([ORIGINAL, early], CopyPair("early", "original", SURE))["early"].doubtful


def test_a_copy_that_was_dated_by_hand_does_not_follow_into_the_week_told_of_another() -> None:
    """What was told of itself outranks what was told of its copy."""
    by_hand = ByHand(taken={"sent": "2026-02-03"}, weeks={"original": "2026-03-30"})
    found = judged([ORIGINAL, SENT], CopyPair("original", "sent", SURE), by_hand=by_hand)
    assert (found["original"].placed, found["sent"].placed) == ("2026-04-02", "2026-02-03")


def test_an_export_without_its_camera_follows_the_correction_of_the_clock() -> None:
    """It has the wrong clock's time, and does not contradict the photo that was set right."""
    own = claim("exif original", "2025-03-30T10:00:00")
    photos = [photo("own", own, camera=COMPACT), photo("export", own)]
    archive = Archive(photos, [CopyPair("export", "own", SURE)], corrections=[correction(365 * 86_400)])
    found = judge_archive(archive, world()).verdicts
    assert [(said.taken, said.doubtful) for said in found.values()] == [("2026-03-30T10:00:00", False)] * 2
    assert found["export"].twin == "own"
