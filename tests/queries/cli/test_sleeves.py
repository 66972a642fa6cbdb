"""weeksheaf sleeves"""

from pathlib import Path

import pytest

from tests.queries.cli.conftest import Person

STEPPING = "3 wide + 6 tall, stepping"
HALF = '[sleeve."harbour half"]\ndrawing = """\nAAAAAA\nAAAAAA\nBBBCCC\nBBBCCC\n"""\n'
METRIC = '[sleeve.metric]\ncell = "51mm x 76mm"\ndrawing = """\nAAB\nAAC\n"""\n'


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(HALF + METRIC)
    return path


def at_home(person: Person) -> list[str]:
    return [sleeve["name"] for sleeve in person.json("sleeves")["sleeves"] if sleeve["at_home"]]


def test_sleeves_are_listed_before_there_is_an_index(newcomer: Person) -> None:
    """Those at home first, then the plainest; the rest is counted, and no index is made."""
    lines = newcomer.says("sleeves").splitlines()
    assert lines[0] == "At home:"
    assert [line.split("  ")[1] for line in lines[1:3]] == ["4 wide + 4 tall, pair-four-pair", STEPPING]
    assert "  6 wide" in "\n".join(lines)
    assert "231 more are made by rule: weeksheaf sleeves --all" in lines
    assert max(map(len, lines)) <= 80
    assert not newcomer.index.exists()


def test_all_are_listed_when_asked(newcomer: Person) -> None:
    """And always in JSON."""
    said = newcomer.says("sleeves", "--all")
    document = newcomer.json("sleeves")
    assert len(document["sleeves"]) == 258
    assert all(f"  {sleeve['name']}" in said for sleeve in document["sleeves"])
    assert "more are made by rule" not in said
    assert max(map(len, said.splitlines())) <= 80


def test_a_sleeve_in_json(newcomer: Person) -> None:
    """The fields that scripts rely on."""
    (stepping,) = (item for item in newcomer.json("sleeves")["sleeves"] if item["name"] == STEPPING)
    assert stepping == {
        "name": STEPPING,
        "made": "by rule",
        "at_home": True,
        "width_in": 12,
        "height_in": 12,
        "pockets": 9,
        "sizes": [{"count": 3, "width_in": 6, "height_in": 4}, {"count": 6, "width_in": 3, "height_in": 4}],
    }


def test_drawings_are_added(newcomer: Person, file: Path) -> None:
    """They are at home; the sizes are said in the unit of the drawing, the page where it is not 12 x 12 inches."""
    assert newcomer.says("sleeves", "add", file) == (
        "Added: harbour half: 1 of 6x2in, 2 of 3x2in on 6x4in; at home\n"
        "Added: metric: 1 of 102x152mm, 2 of 51x76mm on 153x152mm; at home\n"
    )
    assert at_home(newcomer)[:2] == ["harbour half", "metric"]


def test_a_drawing_added_again(person: Person, file: Path) -> None:
    """The same one tells nothing new; another one replaces it; whoever adds it has it at home."""
    person.says("sleeves", "add", file)
    assert person.says("sleeves", "add", file).count("Unchanged: ") == 2
    person.says("sleeves", "own", "--not", "metric")
    file.write_text(METRIC.replace("AAC", "AAB"))
    assert (
        person.says("sleeves", "add", file)
        == "Drawn anew: metric: 1 of 102x152mm, 1 of 51x152mm on 153x152mm; at home\n"
    )
    document = person.json("sleeves", "add", file)
    assert [(item["name"], item["at_home"], item["pockets"]) for item in document["sleeves"]] == [("metric", True, 2)]
    assert at_home(person)[:2] == ["harbour half", "metric"]


def test_a_refused_drawing_says_file_sleeve_row_and_column(person: Person, file: Path) -> None:
    """And nothing of the file is added."""
    file.write_text(HALF + METRIC.replace("AAC", "ABC"))
    assert person.error("sleeves", "add", file) == (
        f'{file}: sleeve "metric", row 2, column 1: A is not one rectangle, it began in row 1, column 1;'
        " use another letter here"
    )
    assert "harbour half" not in at_home(person)


def test_the_name_of_one_made_by_rule_is_refused(person: Person, file: Path) -> None:
    """Two sleeves of one name would be a trap."""
    file.write_text(HALF.replace("harbour half", "6 Wide"))
    assert person.error("sleeves", "add", file) == (
        'a sleeve made by rule is named "6 Wide"; give your drawing another name'
    )


def test_a_sleeve_is_drawn_to_scale(person: Person, file: Path) -> None:
    """The front shows on the right page, the back, its mirror image, on the left one."""
    person.says("sleeves", "add", file)
    assert person.says("sleeves", "show", "metric").splitlines()[:3] == [
        "metric: 1 of 102x152mm, 2 of 51x76mm on 153x152mm; drawn, at home",
        "The front, which shows on the right page:",
        "",
    ]
    back = person.says("sleeves", "show", "METRIC", "--back").splitlines()
    assert back[1] == "The back, which shows on the left page:"
    assert back[3] == "+-----------+-----------------------+"
    assert back[7:9] == ["|    L1     |                       |", "|  51x76mm  |                       |"]
    assert max(map(len, person.says("sleeves", "show", STEPPING).splitlines())) <= 80


def test_a_face_in_json(person: Person, file: Path) -> None:
    """Its drawing is that of the front, its pockets are those of the face."""
    person.says("sleeves", "add", file)
    face = person.json("sleeves", "show", "harbour half", "--back")
    assert face["drawing"] == "AAAAAA\nAAAAAA\nBBBCCC\nBBBCCC"
    assert (face["cell"], face["face"], face["made"], face["at_home"]) == ("1x1in", "back", "drawn", True)
    assert face["pockets"][1] == {"pocket": "L2", "x_in": 0, "y_in": 2, "width_in": 3, "height_in": 2}
    front = person.json("sleeves", "show", STEPPING)
    assert [pocket["pocket"] for pocket in front["pockets"]] == [f"R{number}" for number in range(1, 10)]
    assert front["drawing"].startswith("AAAAAABBBCCC\n")


def test_sleeves_are_ticked(newcomer: Person) -> None:
    """Several at once, before there is an index too; what is so already is not told again."""
    assert newcomer.json("sleeves", "own", "6 wide", "12 tall") == {"at_home": at_home(newcomer)}
    assert {"6 wide", "12 tall", STEPPING} <= set(at_home(newcomer))
    assert newcomer.says("sleeves", "own", "--not", "6 wide", STEPPING).splitlines() == [
        "At home now:",
        "  12 tall                          12 of 3x4in",
        "  4 wide + 4 tall, pair-four-pair  4 of 6x4in, 4 of 3x4in",
    ]
    before = newcomer.json("backup", newcomer.index.with_name("words.json"))
    newcomer.says("sleeves", "own", "--not", "6 wide")
    assert newcomer.json("backup", newcomer.index.with_name("more.json"))["words"] == before["words"]


def test_no_sleeve_at_home_is_said(person: Person) -> None:
    """With the way out."""
    assert person.says("sleeves", "own", "--not", *at_home(person)) == (
        'No sleeve is at home now; one that you have: weeksheaf sleeves own "NAME"\n'
    )
    assert person.says("sleeves").splitlines()[0] == "Made by rule, the plainest:"


def test_one_wrong_name_among_good_ones_tells_nothing(person: Person) -> None:
    """The nearest names are shown."""
    before = at_home(person)
    error = person.error("sleeves", "own", "6 wide", "13 tall")
    assert error.startswith('there is no sleeve "13 tall"; the nearest: "')
    assert '"12 tall"' in error
    assert at_home(person) == before


def test_a_drawn_sleeve_is_forgotten(person: Person, file: Path) -> None:
    """One made by rule is not: it is told not to be at home."""
    person.says("sleeves", "add", file)
    assert person.says("sleeves", "forget", "metric", "Harbour Half") == 'Forgotten: "metric", "harbour half"\n'
    assert "metric" not in person.says("sleeves", "--all")
    assert "own --not" in person.error("sleeves", "forget", "6 wide")
    assert "there is no sleeve" in person.error("sleeves", "forget", "metric")


def test_what_was_told_of_sleeves_outlives_the_index(person: Person, file: Path, tmp_path: Path) -> None:
    """A backup brings drawings and ticks back."""
    person.says("sleeves", "add", file)
    person.says("sleeves", "own", "6 wide")
    person.says("sleeves", "own", "--not", STEPPING)
    before = person.json("sleeves")
    person.says("backup", tmp_path / "words.json")
    other = Person(tmp_path / "other" / "index.db", person.household)
    other.says("settings", "week.min_days", "4")
    other.says("restore", tmp_path / "words.json")
    assert other.json("sleeves") == before


def test_options_stand_at_the_end(person: Person) -> None:
    """So that one JSON document comes of one command."""
    assert "at the end" in person.misuse("sleeves", "--json", "show", "6 wide")
