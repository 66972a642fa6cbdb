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


def test_a_camera_in_use_the_year_before_has_left_its_factory_day_behind() -> None:
    """Its photos of December lie in another folder; those of another camera in the same folder say nothing."""
    december = photo(
        "x", claim("exif original", "2025-12-24T17:45:15"), camera=COMPACT, name="HRBR0012.JPG", folder="9"
    )
    assert not judged(december, shot("HRBR0013", "2026-01-01T00:03:20"))["HRBR0013"].doubtful
    phone = shot("HRBR0012", "2025-12-24T17:45:15", phone=True)
    assert judged(phone, shot("HRBR0013", "2026-01-01T00:03:20"))["HRBR0013"].doubtful
    unnamed = photo("n", claim("exif original", "2026-01-01T00:03:20"), name="KITE0001.JPG")
    other = photo("o", claim("exif original", "2025-12-24T17:45:15"), name="QUAY0001.JPG")
    assert judged(unnamed, other)["n"].doubtful


def test_new_year_is_borne_out_by_the_network_or_by_another_camera() -> None:
    """A phone has its time and zone from there; a scene seen by both says that the clocks agree."""
    new_year = claim("exif original", "2026-01-01T00:03:20", 0)
    located = photo("q", new_year, claim("gps", "2026-01-01T00:03:18", utc=True), camera=PHONE)
    assert not judged(shot("p", "2026-01-01T00:04:00", 0, phone=True), located)["p"].doubtful
    two = (shot("a", "2026-01-01T00:03:20"), located)
    assert judged(*two)["a"].doubtful
    assert not judged(*two, scenes=(SameScene("a", "q", 3.0),))["a"].doubtful


def test_the_zone_that_a_camera_left_the_factory_with_bears_nothing_out() -> None:
    """Cameras without a network write one too (common practice)."""
    assert judged(shot("a", "2026-01-01T00:03:20", 0))["a"].doubtful


def test_a_file_that_names_no_camera_is_no_other_cameras_view() -> None:
    """It may be an export of the same photo's neighbour, by the same clock."""
    export = photo("e", claim("exif original", "2026-01-01T00:04:00"), name="e.jpg")
    assert judged(shot("a", "2026-01-01T00:03:20"), export, scenes=(SameScene("a", "e", 3.0),))["a"].doubtful
