"""weeksheaf keep and leave"""

from pathlib import Path

import pytest

from tests.queries.cli.conftest import Person

ONE, TWO, THREE = BURST = tuple(f"compact/DSC0001{number}.jpg" for number in (1, 2, 4))
ALONE = "phone/0406.jpg"


@pytest.fixture
def person(person: Person) -> Person:
    """A person with a burst of three in week 11."""
    person.resemble("burst", *BURST)
    return person


def keepers(person: Person) -> set[str]:
    """The names of the keepers of the one set there is."""
    (found,) = person.json("alike")["sets"]
    return {Path(path).name for path in found["keepers"]}


def not_kept(person: Person) -> str:
    """A photo of the burst that the tool leaves out."""
    return next(name for name in BURST if Path(name).name not in keepers(person))


def test_a_kept_photo_stands_for_its_set(person: Person) -> None:
    """`keep` makes a photo the keeper of its set, and says what the set shows now; so do scripts."""
    name = not_kept(person)
    code = person.code(name)
    assert person.says("keep", code) == f"{code} is kept; its set of 3 now shows it\n"
    assert keepers(person) == {Path(name).name}
    (row,) = person.json("keep", person.folder / name)["photos"]
    assert (row["code"], row["keeper"], row["choice"], row["week_is_done"]) == (code, True, "keep", False)
    assert row["alike"]["keeper"] == str(person.folder / name)
    assert person.row("2026-W11")["keepers"] == 3


def test_several_may_be_kept(person: Person) -> None:
    """Each kept photo of a set is a keeper, a photo named twice is told once, and the line names the other."""
    first, second = map(person.code, (ONE, TWO))
    assert person.says("keep", first, second, first).splitlines() == [
        f"{first} is kept; its set of 3 now shows it and {second}",
        f"{second} is kept; its set of 3 now shows it and {first}",
    ]
    assert keepers(person) == {"DSC00011.jpg", "DSC00012.jpg"}
    assert person.row("2026-W11")["keepers"] == 4


def test_another_photo_takes_the_place_of_the_one_left(person: Person) -> None:
    """`leave` on a keeper gives the set another one, named with the reason; on all of them, none."""
    (name,) = (name for name in BURST if Path(name).name in keepers(person))
    code = person.code(name)
    text = person.says("leave", code)
    (now,) = keepers(person)
    assert now != Path(name).name
    assert text.startswith(f"{code} is left out; its set of 3 now shows {person.code(f'compact/{now}')} (")
    rest = [person.code(other) for other in BURST if other != name]
    assert person.says("leave", *rest).splitlines()[0] == f"{rest[0]} is left out; all of its set of 3 are left out"
    assert keepers(person) == set()
    assert person.row("2026-W11")["keepers"] == 2
    assert "one of 3 alike" not in person.says("week", "2026-W11")
    assert person.says("week", "2026-W11").count("left out by you") == 3


@pytest.mark.parametrize("command", ["keep", "leave"])
def test_forget_goes_back_to_the_tools_own_choice(person: Person, command: str) -> None:
    """--forget of either command takes back what was told, and says what stands."""
    before, code = keepers(person), person.code(not_kept(person))
    person.says("keep", code)
    assert keepers(person) != before
    text = person.says(command, code, "--forget")
    assert keepers(person) == before
    assert text.startswith(f"{code} is left out by the tool's own choice; its set of 3 now shows ")
    assert person.json("week", "2026-W11")["photos"][0]["choice"] is None


def test_a_photo_alike_to_none_can_be_left_and_kept(person: Person) -> None:
    """Outside of any set the words hold as well, and the week's page tells of them."""
    code = person.code(ALONE)
    assert person.says("leave", code) == f"{code} is left out\n"
    assert person.row("2026-W15")["keepers"] == 2
    assert "         left out by you\n" in person.says("week", "2026-W15")
    assert person.says("keep", code) == f"{code} is kept\n"
    assert "         kept by you\n" in person.says("week", "2026-W15")
    assert person.says("keep", code, "--forget") == f"{code} is kept by the tool's own choice\n"


def test_the_page_of_a_done_week_keeps_what_it_holds(person: Person) -> None:
    """A photo of a done week can be left out for later; its page is not changed, which is said."""
    person.says("mark", "2026-W15", "done")
    code = person.code(ALONE)
    assert person.says("leave", code) == (
        f"{code} is left out; the done page of 6 - 12 Apr 2026, week 15 keeps what it holds\n"
    )
    assert person.json("leave", code)["photos"][0]["week_is_done"] is True
    page = person.json("week", "2026-W15")
    assert (page["late"], page["gone"]) == ([], [])


def test_the_words_outlive_a_new_index_run_and_a_restore(person: Person, newcomer: Person, tmp_path: Path) -> None:
    """What was told of photos stays when folders are indexed again, and comes back from a backup into a new index."""
    name = not_kept(person)
    person.says("keep", person.folder / name)
    person.says("leave", person.code(ALONE))
    person.says("index")
    assert keepers(person) == {Path(name).name}
    person.says("backup", tmp_path / "words.json")
    newcomer.says("index", newcomer.folder)
    newcomer.says("restore", tmp_path / "words.json")
    choices = {row["code"]: row["choice"] for row in newcomer.json("week", "2026-W15")["photos"]}
    assert choices[person.code(ALONE)] == "leave"
    assert newcomer.json("why", newcomer.folder / name)["choice"] == "keep"


@pytest.mark.parametrize("command", ["keep", "leave"])
def test_what_is_no_photo_is_refused_and_nothing_told(person: Person, command: str) -> None:
    """One wrong name among several tells nothing of any; no name at all is wrong usage."""
    assert "no photo in the index answers to ferry" in person.error(command, person.code(ALONE), "ferry")
    assert person.json("why", person.code(ALONE))["choice"] is None
    person.misuse(command)
