"""Every week of the sample library gets a plan that a person would accept."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from queries.cli import main

LIBRARY = Path(__file__).parents[2] / "sample_library"
#: The most that may be cut off a picture: a 16:9 one cut to 3x4.
MOST_LOST = 0.6


@pytest.fixture(scope="module")
def index(tmp_path_factory: pytest.TempPathFactory) -> Path:
    index = tmp_path_factory.mktemp("sample") / "index.db"
    said(index, "index", str(LIBRARY))
    return index


def said(index: Path, *words: str) -> str:
    result = CliRunner().invoke(
        main, ["--index", str(index), *words], catch_exceptions=False, env={"COLUMNS": "80"}, prog_name="weeksheaf"
    )
    assert result.exit_code == 0, result.output
    return result.stdout


def asked(index: Path, *words: str) -> Any:
    return json.loads(said(index, *words, "--json"))


def test_every_week_gets_a_plan(index: Path) -> None:
    """One after the other: every proposed photo once, none elsewhere twice, neighbours on one sleeve, hardly a picture
    the other way round than its pocket; read at 80 columns."""
    weeks = [row for row in asked(index, "weeks")["weeks"] if row["photos"]]
    seen: dict[str, str] = {}
    turned = placed = 0
    right_before, last = None, ""
    assert len(weeks) == 17
    for week in weeks:
        document = asked(index, "fit", week["name"])
        pockets = [pocket for page in document["pages"] for pocket in page["pockets"]]
        photos = [photo for pocket in pockets for photo in pocket["photos"]]
        rows = asked(index, "week", week["name"], "--shortlist", str(len(pockets)))["shortlist"]
        assert document["optimal"], week
        assert {photo["key"] for photo in photos} == {row["key"] for row in rows}
        assert len(photos) == len({photo["key"] for photo in photos}) == document["photos"]
        assert not [photo for photo in photos if photo["key"] in seen]
        seen |= {photo["key"]: week["name"] for photo in photos}
        assert max(photo["lost"] for photo in photos) < MOST_LOST
        shapes = {row["key"]: row["shape"] for row in rows}
        turned += sum(_is_turned(shapes[photo["key"]], photo) for photo in photos)
        placed += len(photos)
        left, right = (page["sleeve"] for page in document["pages"])
        if last == week["first_day"]:
            assert left == right_before
        right_before, last = right, _day_after(week["last_day"])
        text = said(index, "fit", week["name"]).splitlines()
        assert max(map(len, text)) <= 80
        assert not [code for code in (photo["code"] for photo in photos) if code not in "\n".join(text)]
    assert turned <= placed * 0.1


def _is_turned(shape: str, photo: Any) -> bool:
    wide = photo["width_in"] > photo["height_in"]
    return (shape == "portrait" and wide) or (shape == "landscape" and photo["width_in"] < photo["height_in"])


def _day_after(day: str) -> str:
    from datetime import date, timedelta

    return (date.fromisoformat(day) + timedelta(days=1)).isoformat()
