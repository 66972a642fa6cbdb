"""weeksheaf week --shortlist and weeksheaf pull --shortlist"""

from contextlib import closing
from pathlib import Path

import pytest

from indexer import open_for_writing
from tests.queries.cli.conftest import Person

BURST = ("phone/turned 1.jpg", "phone/turned 2.jpg", "phone/turned 3.jpg")
WORDS = "phone/0403 square.jpg"


@pytest.fixture
def reader(person: Person) -> Person:
    """The household, one photo of whose week 14 is a picture of text."""
    key = person.json("why", person.folder / WORDS)["key"]
    with closing(open_for_writing(person.index)) as connection:
        connection.execute("UPDATE pixel SET subject = 'photograph', problem = NULL")
        connection.execute("UPDATE pixel SET subject = 'text' WHERE key = ?", (key,))
    return person


def names(rows: list[dict[str, str]]) -> list[str]:
    return [Path(row["path"]).name for row in rows]


def test_the_document_has_the_shortlist_beside_the_week(reader: Person) -> None:
    """Each chosen photo has path, code, key and reason, in order of capture; the photos of the week stay."""
    document = reader.json("week", "2026-W14", "--shortlist", "4")
    assert len(document["photos"]) == 12
    assert len(document["shortlist"]) == 4
    in_order = [photo["key"] for photo in document["photos"]]
    chosen = [row["key"] for row in document["shortlist"]]
    assert chosen == sorted(chosen, key=in_order.index)
    assert len({row["day"] for row in document["shortlist"]}) == 4
    assert all(row["reason"] and row["code"] == row["key"][:5] for row in document["shortlist"])
    assert sorted(row["rank"] for row in document["shortlist"]) == [0, 1, 2, 3]


def test_without_the_option_there_is_no_shortlist(reader: Person) -> None:
    """The plain week stays as it was."""
    assert not {"shortlist", "set_aside"} & set(reader.json("week", "2026-W14"))


def test_what_is_set_aside_is_listed_and_comes_in_when_kept(reader: Person) -> None:
    """A picture of text is no part of the shortlist and named with the reason, until the person keeps it."""
    document = reader.json("week", "2026-W14", "--shortlist", "20")
    code = reader.code(WORDS)
    assert [(row["path"], row["code"], row["reason"]) for row in document["set_aside"]] == [
        (str(reader.folder / WORDS), code, "picture of text")
    ]
    assert Path(WORDS).name not in names(document["shortlist"])
    lines = reader.says("week", "2026-W14", "--shortlist", "3").splitlines()
    assert lines[-2] == "Set aside; to have one come in: weeksheaf keep CODE"
    assert lines[-1] == f"  {code}  Fri 3 Apr  18:20  picture of text  0403 square.jpg"
    reader.says("keep", code)
    document = reader.json("week", "2026-W14", "--shortlist", "1")
    assert (names(document["shortlist"]), document["set_aside"]) == (["0403 square.jpg"], [])
    assert document["shortlist"][0]["reason"] == "kept by you"


def test_the_list_as_a_person_reads_it(reader: Person) -> None:
    """Day by day, with code, time, shape and reason, in 80 columns."""
    lines = reader.says("week", "2026-W15", "--shortlist", "3").splitlines()
    assert lines[0] == "6 - 12 Apr 2026, week 15 (2026-W15): open, 3 photos"
    assert lines[2].startswith("Shortlist: 3 of 3 photos, 3 landscape; 3 of 3 days")
    assert lines[3:5] == ["", "Mon 6 Apr"]
    assert lines[5] == f"  {reader.code('phone/0406.jpg')}  07:10  landscape  the only one of Monday"
    assert max(map(len, lines)) <= 80


def test_of_photos_alike_one_is_chosen(reader: Person) -> None:
    """However many are asked for, the others of a set do not come."""
    reader.make_alike("burst", *BURST)
    found = names(reader.json("week", "2026-W14", "--shortlist", "50")["shortlist"])
    assert "turned 1.jpg" in found
    assert not {"turned 2.jpg", "turned 3.jpg"} & set(found)


def test_none_and_more_than_there_are(reader: Person) -> None:
    """0 gives an empty list, more than there are gives all and says so; an empty week says that it is empty."""
    assert reader.json("week", "2026-W15", "--shortlist", "0")["shortlist"] == []
    assert "Shortlist: 0 of 3 photos" in reader.says("week", "2026-W15", "--shortlist", "0").splitlines()
    assert len(reader.json("week", "2026-W15", "--shortlist", "1000000")["shortlist"]) == 3
    text = reader.says("week", "2026-W15", "--shortlist", "1000000")
    assert "That is fewer than 1,000,000: the week has no more to choose from." in text
    assert "there are no photos to choose from" in reader.says("week", "2026-W13", "--shortlist", "5")


def test_all_that_were_kept_come_even_when_they_are_more(reader: Person, tmp_path: Path) -> None:
    """What the person kept is not cut to the number, and both commands say so."""
    reader.says("keep", *(reader.code(name) for name in BURST))
    text = reader.says("week", "2026-W14", "--shortlist", "2")
    assert "That is more than 2, because all that you kept come in." in text
    result = reader.run("pull", "2026-W14", tmp_path / "w14", "--shortlist", "2")
    assert "Shortlist of 3. That is more than 2, because all that you kept come in." in result.stderr
    assert result.stdout.startswith("3 photos added")


@pytest.mark.parametrize("number", ["-1", "1.5", "dozen", ""])
def test_what_is_no_number_of_photos_is_wrong_usage(reader: Person, tmp_path: Path, number: str) -> None:
    """Negative numbers and words are refused, naming the option; nothing is made."""
    assert "--shortlist" in reader.misuse("week", "2026-W14", "--shortlist", number)
    assert "--shortlist" in reader.misuse("pull", "2026-W14", tmp_path / "w14", "--shortlist", number)
    assert not (tmp_path / "w14").exists()


def test_the_shortlist_is_pulled(reader: Person, tmp_path: Path) -> None:
    """What the week proposes is what comes; the others are left out, and those pulled before stay."""
    chosen = {row["code"] for row in reader.json("week", "2026-W14", "--shortlist", "4")["shortlist"]}
    document = reader.json("pull", "2026-W14", tmp_path / "w14", "--shortlist", "4")
    assert {name.rpartition("_")[2].partition(".")[0] for name in document["added"]} == chosen
    assert len(document["left_out"]) == 8
    assert len(reader.json("pull", "2026-W14", tmp_path / "w14", "--all")["added"]) == 8
    again = reader.json("pull", "2026-W14", tmp_path / "w14", "--shortlist", "4")
    assert (again["added"], len(again["kept"]), len(again["left"])) == ([], 4, 8)


def test_all_and_a_shortlist_exclude_each_other(reader: Person, tmp_path: Path) -> None:
    """Both together, also with 0, are wrong usage and make no folder."""
    for number in ("0", "3"):
        message = reader.misuse("pull", "2026-W14", tmp_path / "w14", "--all", "--shortlist", number)
        assert "--all and --shortlist" in message
    assert not (tmp_path / "w14").exists()


def test_a_shortlist_of_none_cannot_be_pulled(reader: Person, tmp_path: Path) -> None:
    """The error names the way out, and no folder is made; a week without photos is said to be one."""
    assert "--shortlist 1 or more" in reader.error("pull", "2026-W14", tmp_path / "w14", "--shortlist", "0")
    assert "weeksheaf weeks" in reader.error("pull", "2026-W13", tmp_path / "w14", "--shortlist", "0")
    assert not (tmp_path / "w14").exists()


def test_the_commands_that_choose_nothing_start_without_numpy(reader: Person) -> None:
    """numpy, which is slow to start, is asked for by a shortlist alone."""
    import subprocess
    import sys

    script = "import sys; from queries.cli import main\ntry: main()\nfinally: assert 'numpy' not in sys.modules"
    words = ["--index", str(reader.index), "week", "2026-W14"]
    done = subprocess.run([sys.executable, "-c", script, *words], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
