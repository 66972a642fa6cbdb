"""weeksheaf alike, and what other commands say of photos alike"""

import itertools
from contextlib import closing
from pathlib import Path

import pytest

from indexer import open_for_writing
from tests.queries.cli.conftest import Person

FIRST, SECOND, THIRD = (f"compact/DSC0001{number}.jpg" for number in (2, 1, 4))
COPY, ORIGINAL = "phone/0412.jpg", "phone/0318.jpg"


@pytest.fixture
def family(person: Person) -> Person:
    """The household with a burst of three in week 11, and a copy in week 15 of a photo of week 12."""
    person.make_alike("burst", FIRST, SECOND, THIRD)
    person.make_alike("copy", ORIGINAL, COPY, reason="the camera's own file")
    return person


def path(person: Person, name: str) -> str:
    return str(person.folder / name)


def test_the_fields_of_the_contract(family: Person) -> None:
    """Each set has its kind, its keeper and the others as absolute paths, and the reason; copies come first."""
    document = family.json("alike")
    assert document["week"] is None
    assert [{name: found[name] for name in ("kind", "keeper", "others", "reason")} for found in document["sets"]] == [
        {
            "kind": "copy",
            "keeper": path(family, ORIGINAL),
            "others": [path(family, COPY)],
            "reason": "the camera's own file",
        },
        {
            "kind": "burst",
            "keeper": path(family, FIRST),
            "others": [path(family, SECOND), path(family, THIRD)],
            "reason": "sharpest of 3",
        },
    ]
    photos = document["sets"][0]["photos"]
    assert [(photo["path"], photo["keeper"], photo["taken"], photo["width"]) for photo in photos] == [
        (path(family, ORIGINAL), True, "2026-03-18T08:00:00", 96),
        (path(family, COPY), False, "2026-04-12T21:00:00", 96),
    ]


def test_the_sets_of_one_week(family: Person) -> None:
    """With a week, the sets with a photo in it; a set that reaches into another week is whole."""
    document = family.json("alike", "2026-W15")
    assert document["week"]["name"] == "2026-W15"
    assert [found["keeper"] for found in document["sets"]] == [path(family, ORIGINAL)]
    assert family.json("alike", "2026-W14")["sets"] == []
    assert family.says("alike", "2026-W14").startswith("No photos alike in 30 Mar - 5 Apr 2026, week 14.")


def test_a_set_without_a_keeper(person: Person) -> None:
    """Where all of a set are left out, there is no keeper and that is said."""
    person.make_alike("burst", FIRST, SECOND, keepers=0)
    (found,) = person.json("alike")["sets"]
    assert (found["keeper"], found["keepers"], len(found["others"])) == (None, [], 2)
    assert "2 photos, all of them left out by you" in person.says("alike")


def test_a_set_with_several_keepers(person: Person) -> None:
    """Where several were kept, the first is the keeper, and all are named as keepers."""
    person.make_alike("burst", FIRST, SECOND, THIRD, keepers=2, reason="kept by you")
    (found,) = person.json("alike")["sets"]
    assert (found["keeper"], found["keepers"]) == (path(person, FIRST), [path(person, FIRST), path(person, SECOND)])
    assert found["others"] == [path(person, SECOND), path(person, THIRD)]


def test_the_list_as_a_person_reads_it(family: Person) -> None:
    """Copies and bursts stand apart, each set with its day, its reason, and the keeper marked."""
    lines = family.says("alike").splitlines()
    first, second, _third, copy, original = map(family.code, (FIRST, SECOND, THIRD, COPY, ORIGINAL))
    assert lines[: lines.index("")] == ["1 copy: one picture, saved more than once"]
    assert [line for line in lines if line][1:8] == [
        "Wed 18 Mar 2026: 2 photos, the camera's own file",
        f"  keep  {original}  2026-03-18 08:00:00  96 x 72  Lanternfish P4  0318.jpg",
        f"        {copy}  2026-04-12 21:00:00  96 x 72  Lanternfish P4  0412.jpg",
        "1 burst: one scene, taken several times",
        "Mon 9 Mar 2026: 3 photos, sharpest of 3",
        f"  keep  {first}  2026-03-10 11:15:00  96 x 64  Tidewell TW-100  DSC00012.jpg",
        f"        {second}  2026-03-09 10:00:00  96 x 64  Tidewell TW-100  DSC00011.jpg",
    ]


def test_the_week_says_of_each_photo_what_it_is_alike_to(family: Person) -> None:
    """The page of a week counts its keepers and says of keepers and left-out photos why they are so."""
    lines = family.says("week", "2026-W11").splitlines()
    assert lines[0] == "9 - 15 Mar 2026, week 11 (2026-W11): open, 5 photos, 3 keepers"
    below = {Path(line.split("  ")[-1]).name: after.strip() for line, after in itertools.pairwise(lines)}
    code = family.code(FIRST)
    assert below["DSC00012.jpg"] == "keeper: sharpest of 3"
    assert below["DSC00011.jpg"] == f"alike to {code}, which is kept: sharpest of 3"
    assert f"copy of {family.code(ORIGINAL)}, which is kept: the camera's own file" in family.says("week", "2026-W15")
    assert "keeper: the camera's own file, of 2 copies" in family.says("week", "2026-W12")


def test_the_week_says_so_to_scripts_too(family: Person) -> None:
    """In JSON a photo names its set's kind, keeper and size."""
    document = family.json("week", "2026-W11")
    assert document["keepers"] == 3
    alike = {Path(photo["path"]).name: (photo["keeper"], photo["alike"]) for photo in document["photos"]}
    burst = {
        "kind": "burst",
        "keeper": path(family, FIRST),
        "keeper_code": family.code(FIRST),
        "photos": 3,
        "reason": "sharpest of 3",
    }
    assert alike["DSC00011.jpg"] == (False, burst)
    assert alike["DSC00012.jpg"] == (True, burst)
    assert alike["DSC00013.jpg"] == (True, None)


def test_a_copy_of_what_a_done_page_holds_is_said_and_not_late(person: Person) -> None:
    """A copy that turned up after a week was done is named as one, in words and JSON, and counted as no late photo."""
    person.says("mark", "2026-W15", "done")
    held, new = person.code("phone/0406.jpg"), person.code("phone/0412.jpg")
    person.forget_held("phone/0412.jpg")
    assert person.row("2026-W15")["late"] == 1
    person.make_alike("copy", "phone/0406.jpg", "phone/0412.jpg")
    assert person.row("2026-W15")["late"] == 0
    document = person.json("week", "2026-W15")
    assert (document["late"], document["late_copies"]) == ([], [{"code": new, "copy_of": held}])
    assert f"  {new} is a copy of {held}, which is on the page" in person.says("week", "2026-W15").splitlines()


def test_what_takes_no_part_is_listed_apart(person: Person) -> None:
    """Photos without pixels come with the reason, files of several pictures with their number; new ones are counted."""
    blind, burst = person.code("phone/0406.jpg"), person.code("phone/0412.jpg")
    with closing(open_for_writing(person.index)) as connection:
        connection.execute(
            "UPDATE pixel SET made_from = 'nothing', problem = 'cut off', pictures = NULL WHERE key LIKE ?",
            (f"{blind}%",),
        )
        connection.execute("UPDATE pixel SET pictures = 4 WHERE key LIKE ?", (f"{burst}%",))
        connection.execute("DELETE FROM pixel WHERE key LIKE ?", (f"{person.code('phone/0322.jpg')}%",))
    assert person.says("alike").splitlines() == [
        "No photos alike.",
        "1 photo not compared, because the pixels cannot be read:",
        f"  {blind}  0406.jpg: cut off",
        f"{burst}  0412.jpg holds 4 pictures, counts once",
        "1 photo not looked at yet: weeksheaf index",
    ]
    document = person.json("alike")
    assert [(row["code"], row["reason"]) for row in document["not_compared"]] == [(blind, "cut off")]
    assert [(row["code"], row["pictures"]) for row in document["several_pictures"]] == [(burst, 4)]
    assert document["not_looked_at"] == 1


def test_the_keeper_of_copies_that_a_burst_leaves_out_is_marked(person: Person) -> None:
    """It stands for its copies and not for its burst, which the list and the week's page say."""
    person.make_alike("copy", SECOND, THIRD)
    person.make_alike("burst", FIRST, SECOND)
    keep = next(line for line in person.says("alike").splitlines() if line.startswith(f"  keep  {person.code(SECOND)}"))
    assert keep.endswith("left out of its burst")
    assert f"copy of {person.code(SECOND)}, which is left out too" in person.says("week", "2026-W11")
