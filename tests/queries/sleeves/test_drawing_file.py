"""Files of drawings."""

import random
from pathlib import Path

import pytest

from indexer.errors import WordError
from queries.sleeves.drawing_file import LARGEST_FILE, drawings_in, read_drawings
from queries.sleeves.sizes import Size
from tests.queries.sleeves.made_sleeves import random_sleeve

HALF = '[sleeve."harbour half"]\ncell = "3in x 4in"\ndrawing = """\n   AA\n\n   BC\n"""\n'


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "sleeves.toml"


def refusal(file: Path) -> str:
    """The line, without the file that it begins with."""
    with pytest.raises(WordError) as caught:
        read_drawings(file)
    text = str(caught.value)
    assert text.startswith(str(file))
    assert "\n" not in text
    return text.removeprefix(str(file))


def test_a_file_holds_one_or_more_sleeves(file: Path) -> None:
    """In their order; a cell is an inch unless said, or a number of inches; rows are kept without the spaces around."""
    file.write_text(HALF + '[sleeve.insert]\ndrawing = "AA"\n[sleeve.small]\ncell = 0.5\ndrawing = "AABB\\nAABB"\n')
    half, insert, small = read_drawings(file)
    assert (half.name, half.cell, half.drawing) == ("harbour half", Size(3, 4, "in"), "AA\nBC")
    assert (half.sleeve.width, half.sleeve.height, len(half.sleeve.pockets)) == (6, 8, 3)
    assert (insert.name, insert.sleeve.width, insert.sleeve.height) == ("insert", 2, 1)
    assert (small.cell, small.sleeve.width, small.sleeve.height) == (Size(0.5, 0.5, "in"), 2, 1)


def test_a_file_of_another_system_is_read(file: Path) -> None:
    """With its line ends and its byte order mark."""
    file.write_bytes(b"\xef\xbb\xbf" + HALF.replace("\n", "\r\n").encode())
    assert read_drawings(file)[0].drawing == "AA\nBC"


def test_every_sound_drawing_is_taken(file: Path) -> None:
    """Whatever its letters and its cell."""
    dice = random.Random(8)
    made = [random_sleeve(dice) for _ in range(60)]
    tables = [f'[sleeve.n{n}]\ncell = "{cell}"\ndrawing = """\n{text}\n"""' for n, (_, cell, text) in enumerate(made)]
    file.write_text("\n".join(tables), encoding="utf-8")
    for (sleeve, _, text), drawn in zip(made, read_drawings(file), strict=True):
        assert drawn.drawing == text
        assert drawn.sleeve.pockets == sleeve.pockets


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", 'there is no sleeve in it; write [sleeve."NAME"] with cell = "1in" and drawing'),
        ("[sleeve]", "there is no sleeve in it"),
        ("sleeve = 5", "there is no sleeve in it"),
        ("sleeves = 5", "the file has 'sleeves', which means nothing here; what may stand there: sleeve"),
        ("[sleeve.a]\ncell = '1in'", 'sleeve "a" has no drawing'),
        ("[sleeve.a]\ndrawing = ['AB']", 'sleeve "a" has no drawing'),
        ("[sleeve]\na = 'AB'", 'sleeve "a" has no drawing'),
        ("[sleeve.a]\ndrawing = 'AB'\ngap = 1", "sleeve \"a\" has 'gap', which means nothing here"),
        ("[sleeve.a]\ncell = 'big'\ndrawing = 'AB'", "sleeve \"a\": cell: 'big' is no size"),
        ("[sleeve.a]\ncell = true\ndrawing = 'AB'", 'sleeve "a": cell: True is no size'),
        ("[sleeve.a]\ncell = [1, 2]\ndrawing = 'AB'", 'sleeve "a": cell: [1, 2] is no size'),
        ("[sleeve.a]\ncell = -1\ndrawing = 'AB'", "sleeve \"a\": cell: '-1' is no size"),
        ("[sleeve.a]\ncell = 0\ndrawing = 'AB'", 'sleeve "a": a cell of 0x0in is too small'),
        ("[sleeve.a]\ncell = inf\ndrawing = 'AB'", "sleeve \"a\": cell: 'inf' is no size"),
        ("[sleeve.a]\ncell = 8\ndrawing = 'AB'", 'sleeve "a": the page would be 16x8in'),
        ("[sleeve.a]\ndrawing = 'ABA'", 'sleeve "a", row 1, column 3: A is not one rectangle'),
        ("[sleeve.' ']\ndrawing = 'AB'", "'' names no sleeve"),
        ("[sleeve.\"a\\u0007\"]\ndrawing = 'AB'", "'a\\x07' names no sleeve"),
        (f"[sleeve.{'a' * 41}]\ndrawing = 'AB'", "names no sleeve"),
        ("[sleeve.\"a b\"]\ndrawing = 'AB'\n[sleeve.\"a  b\"]\ndrawing = 'AB'", 'two sleeves are named "a b"'),
    ],
)
def test_a_refused_file_says_what_is_wrong(file: Path, text: str, says: str) -> None:
    """In one line: the file, the sleeve, and what would be right."""
    file.write_text(text)
    assert refusal(file).startswith(f": {says}") or says in refusal(file)


def test_one_bad_drawing_refuses_the_whole_file(file: Path) -> None:
    """So that nothing is half told."""
    file.write_text(HALF + "[sleeve.b]\ndrawing = 'ABA'")
    assert refusal(file).startswith(': sleeve "b", row 1, column 3')


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"[sleeve", "is not TOML ("),
        (b"[sleeve.a]\ndrawing = 'A\nB'", "is not TOML ("),
        (b"x = " + b"[" * 100_000, "is not TOML ("),
        (b"\xff\xfe[", "is not a text in UTF-8"),
        (b"\xff\xd8\xff\xe0" * 500_000, "is too large for a file of drawings"),
        (b"#" * (LARGEST_FILE + 1), "is too large for a file of drawings"),
    ],
)
def test_another_kind_of_file_is_refused(file: Path, data: bytes, says: str) -> None:
    """A picture taken for it by mistake, or a slip in the TOML, with its line and column."""
    file.write_bytes(data)
    assert refusal(file).startswith(f" {says}")


def test_a_file_that_is_not_there_is_named(file: Path, tmp_path: Path) -> None:
    """And a folder in its place."""
    assert "cannot be read (No such file" in refusal(file)
    assert "cannot be read" in refusal(tmp_path)
    with pytest.raises(WordError, match="cannot be read"):
        read_drawings(Path("a\0b"))


def test_no_document_of_any_form_slips_through() -> None:
    """Whatever stands where a sleeve, a cell or a drawing should: a drawing, or a line that says why not."""
    dice = random.Random(9)
    values = [
        5,
        -1.5,
        True,
        "",
        "AB",
        "1in",
        "A\nB",
        [],
        ["AB"],
        {},
        {"drawing": "AB"},
        {"cell": 2},
        float("nan"),
        10**30,
    ]
    taken, refused = 0, set()
    for _ in range(2000):
        table = {key: dice.choice(values) for key in dice.sample(["cell", "drawing", "name"], dice.randint(0, 3))}
        document = {dice.choice(["sleeve"] * 9 + ["x"]): dice.choice([{"a": table}] * 5 + values)}
        try:
            taken += len(drawings_in(document))
        except WordError as error:
            refused.add(str(error))
    assert taken > 0
    assert len(refused) > 10
    assert not any("\n" in line for line in refused)
