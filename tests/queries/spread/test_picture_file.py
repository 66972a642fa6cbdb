"""The file of a drawn spread: by its ending, whole or not at all, over nothing of another making."""

from pathlib import Path

import pytest
from PIL import Image

from indexer.errors import PlanError
from queries.spread.picture_file import save_spread

DRAWN = Image.new("RGB", (40, 20), "teal")


@pytest.mark.parametrize(("name", "kind"), [("a.png", "PNG"), ("b.jpg", "JPEG"), ("c.JPEG", "JPEG")])
def test_the_ending_says_which_kind(tmp_path: Path, name: str, kind: str) -> None:
    """PNG or JPEG, with the resolution in it, twice over the same name, and nothing left beside it."""
    for _ in range(2):
        save_spread(DRAWN, tmp_path / name, 72)
    with Image.open(tmp_path / name) as saved:
        assert (saved.format, saved.size) == (kind, (40, 20))
        assert saved.info["dpi"] == pytest.approx((72, 72), abs=0.1)
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_another_ending_is_refused(tmp_path: Path) -> None:
    """The way out is named."""
    with pytest.raises(PlanError, match=r"spread\.png"):
        save_spread(DRAWN, tmp_path / "spread.webp", 72)


@pytest.mark.parametrize("name", ["photo.png", "photo.jpg", "words.png"])
def test_no_other_file_is_written_over(tmp_path: Path, name: str) -> None:
    """A photo or anything else that has the name stays as it is."""
    file = tmp_path / name
    if name.startswith("photo"):
        Image.new("RGB", (4, 4)).save(file)
    else:
        file.write_text("mine")
    before = file.read_bytes()
    with pytest.raises(PlanError, match="choose another name"):
        save_spread(DRAWN, file, 72)
    assert file.read_bytes() == before


def test_a_link_is_not_followed(tmp_path: Path) -> None:
    """Not even to a file that is not there yet."""
    (tmp_path / "link.png").symlink_to(tmp_path / "elsewhere.png")
    with pytest.raises(PlanError):
        save_spread(DRAWN, tmp_path / "link.png", 72)


def test_a_place_that_is_not_there(tmp_path: Path) -> None:
    """One line that names the file."""
    with pytest.raises(PlanError, match=r"none.spread\.png cannot be written"):
        save_spread(DRAWN, tmp_path / "none" / "spread.png", 72)
