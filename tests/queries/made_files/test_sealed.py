"""JSON under a seal."""

import json

import pytest

from queries.made_files.sealed import MADE_BY, body_of, is_sealed, sealed_text

BODY = {"made_by": MADE_BY, "files": [{"file": "a\udc80.jpg", "size": 3}]}


def test_what_is_sealed_comes_back_and_a_change_is_seen() -> None:
    """Paths that are no Unicode survive; a changed, added or missing value breaks the seal."""
    body = body_of(sealed_text(BODY).encode("ascii"))
    assert isinstance(body, dict)
    assert is_sealed(body)
    assert body["files"] == BODY["files"]
    for changed in ({**body, "files": []}, {**body, "more": 1}, {**BODY}):
        assert not is_sealed(changed)


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"\xff", "it is no JSON that can be read"),
        (b"[" * 200_000, "it is no JSON that can be read"),
        (b"[]", "it was not made by weeksheaf"),
        (json.dumps({"made_by": "another"}).encode(), "it was not made by weeksheaf"),
    ],
)
def test_what_is_none_of_ours_says_why(data: bytes, reason: str) -> None:
    """A reason in words instead of an error."""
    assert body_of(data) == reason


def test_no_depth_breaks_the_seal_other_than_in_words() -> None:
    """A text that is just shallow enough to be read may be too deep to be written; that is a broken seal."""
    for depth in range(1, 1200):
        body = body_of(b'{"made_by": "weeksheaf", "a": ' + b"[" * depth + b"]" * depth + b"}")
        assert isinstance(body, str) or not is_sealed(body)
