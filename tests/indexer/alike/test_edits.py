"""Whether a picture's files tell of an edit."""

import pytest

from indexer.alike.edits import is_edit

TAKEN = "2026-03-30T09:15:20"


@pytest.mark.parametrize(
    "path",
    [
        "edited/IMG_1.jpg", "IMG_1_edit.jpg", "IMG_1-bearbeitet.jpg", "Album/IMG_1 (Edited).JPG", "img_1~modifié.jpg",
        "DCIM\\Edits\\1.jpg", "100TIDE/IMG_E0042.JPG",
    ],
)  # fmt: skip
def test_a_name_or_folder_tells(path: str) -> None:
    """In several languages, and as phones count their edits."""
    assert is_edit([path], None, None)


@pytest.mark.parametrize("path", ["accredited/1.jpg", "editor's cat.jpg", "credit.jpg", "IMG_E00421.jpg"])
def test_only_whole_words_tell(path: str) -> None:
    """Not a word that merely holds one of them."""
    assert not is_edit([path], None, None)


def test_a_copy_of_an_original_among_edits_is_no_edit() -> None:
    """All files of one picture have to say so: the picture itself is the same in each."""
    assert not is_edit(["edited/1.jpg", "DCIM/1.jpg"], None, None)
    assert not is_edit([], None, None)


@pytest.mark.parametrize(
    ("modified", "expected"),
    [
        ("2026-03-30T09:15:20", False),
        ("2026-03-30T09:16:20", False),
        ("2026-03-30T09:16:21", True),
        ("2027-01-01T00:00:00", True),
        ("2026-03-30T09:15:00", False),  # before it was taken: another clock
        ("2026-03-31", False),
        (None, False),
    ],
)
def test_a_later_modification_tells(modified: str | None, expected: bool) -> None:
    """By more than a minute: cameras write both times within moments."""
    assert is_edit(["1.jpg"], TAKEN, modified) is expected


def test_without_a_time_of_taking_a_modification_tells_nothing() -> None:
    """Any file that was written once carries one."""
    assert not is_edit(["1.jpg"], None, "2026-03-31T10:00:00")
    assert not is_edit(["1.jpg"], "2026-03-30", "2026-03-31T10:00:00")
