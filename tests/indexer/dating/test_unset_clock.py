"""Cameras that were never told the date."""

from indexer.dating.judging import judge_archive
from indexer.dating.values import Archive, CaptureTime, PhotoSaid, SameScene
from tests.indexer.dating.said import COMPACT, PHONE, claim, photo, world


def shot(name: str, when: str, offset: int | None = None, *, phone: bool = False) -> PhotoSaid:
    return photo(name, claim("exif original", when, offset), name=f"{name}.JPG", camera=PHONE if phone else COMPACT)


def judged(*photos: PhotoSaid, scenes: tuple[SameScene, ...] = ()) -> dict[str, CaptureTime]:
    return dict(judge_archive(Archive(photos, scenes=scenes), world()).verdicts)


def test_a_photo_of_the_factory_day_is_doubtful_where_nothing_bears_it_out() -> None:
    """The first of January, and the two weeks after (common practice: clocks begin there)."""
    found = judged(shot("a", "2026-01-01T00:07:00"), shot("b", "2026-01-05T10:00:00"), shot("c", "2026-02-05T10:00:00"))
    assert [key for key, said in found.items() if said.doubtful] == ["a", "b"]
    assert "1 Jan 2026" in found["b"].reason


def test_new_year_is_borne_out_by_the_number_before() -> None:
    """The camera was running: HRBR0012 on Christmas Eve, HRBR0013 at midnight."""
    found = judged(shot("HRBR0012", "2025-12-24T17:45:15"), shot("HRBR0013", "2026-01-01T00:03:20"))
    assert not any(said.doubtful for said in found.values())


def test_a_lost_date_in_between_breaks_no_run() -> None:
    """HRBR0013 has no date but its file's: HRBR0014 still goes on where HRBR0012 left off."""
    lost = photo("HRBR0013", claim("file time", "2026-05-01T10:00:00"), name="HRBR0013.JPG", camera=COMPACT)
    found = judged(shot("HRBR0012", "2025-12-24T17:45:15"), lost, shot("HRBR0014", "2026-01-01T00:03:20"))
    assert not found["HRBR0014"].doubtful


def test_new_year_is_borne_out_by_a_zone_or_by_another_camera() -> None:
    """A phone knows its zone from the network; a scene seen by both says that the clocks agree."""
    assert not judged(shot("p", "2026-01-01T00:03:20", 0, phone=True))["p"].doubtful
    two = (shot("a", "2026-01-01T00:03:20"), shot("p", "2026-01-01T00:04:00", 0, phone=True))
    assert judged(*two)["a"].doubtful
    assert not judged(*two, scenes=(SameScene("a", "p", 3.0),))["a"].doubtful
