"""weeksheaf prints"""

import json
from collections.abc import Callable, Generator, Sequence
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from queries.prints import writing
from queries.prints.values import DrawnPrint, PrintJob
from tests.queries.cli.conftest import Person, put

SLEEVES = ("--left", "3 wide + 6 tall, all middle", "--right", "6 wide")


@pytest.fixture
def planned(owner: Person) -> Person:
    """A person with week 14 planned: nine pockets left, six right, twelve photos."""
    owner.says("fit", "2026-W14", *SLEEVES)
    return owner


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def pieces(document: Any) -> dict[str, Any]:
    """By pocket."""
    return {piece["pocket"]: piece for one in document["prints"] for piece in one["pieces"]}


def test_the_document(planned: Person, tmp_path: Path) -> None:
    """All fields that scripts rely on; every photo of the plan is on one print, of the size of its pocket."""
    plan = planned.json("fit", "2026-W14")
    held = {
        pocket["pocket"]: (pocket["photos"][0]["code"], pocket["width_in"], pocket["height_in"])
        for page in plan["pages"]
        for pocket in page["pockets"]
        if pocket["photos"]
    }
    document = planned.json("prints", "2026-W14", tmp_path / "out", "--yes")
    assert (document["order"], document["folder"], document["weeks"]) == (1, str(tmp_path / "out"), ["2026-W14"])
    assert document["lower_bound"] == len(document["prints"])
    found = pieces(document)
    assert {
        pocket: (piece["code"], piece["width_in"], piece["height_in"])
        for pocket, piece in found.items()
        if not piece["turned"]
    } == held
    for one in document["prints"]:
        assert (one["width"], one["height"]) == (1800, 1200)
        assert Path(one["file"]).parent == tmp_path / "out"
        with Image.open(one["file"]) as picture:
            assert picture.size == (1800, 1200)
        for piece in one["pieces"]:
            assert {"week", "pocket", "code", "x_in", "y_in", "width_in", "height_in", "turned"} <= piece.keys()
            assert piece["x_in"] + piece["width_in"] <= 6
            assert piece["y_in"] + piece["height_in"] <= 4
    names = [f"o01-{number:02}.jpg" for number in range(1, len(document["prints"]) + 1)]
    assert files(tmp_path / "out") == sorted([*names, "2026-W14.png", "cutting-guide.pdf", "order.json"])
    told = json.loads((tmp_path / "out" / "order.json").read_text())
    assert [one["pieces"] for one in told["prints"]] == [one["pieces"] for one in document["prints"]]


def test_what_costs_money_is_listed_before_anything_is_written(planned: Person, tmp_path: Path) -> None:
    """Small photos look blurry: without --yes nothing is made, with it the list is still said."""
    error = planned.error("prints", "2026-W14", tmp_path / "out", stdout=True)
    assert error == "nothing was written: 13 things to look at before it is paid for, listed above; --yes goes on"
    assert not (tmp_path / "out").exists()
    assert planned.json("order")["orders"] == []
    text = planned.says("prints", "2026-W14", tmp_path / "out", "--yes")
    assert text.startswith("Worth a look before it is paid for: 13 things\n  2026-W14 ")
    assert (text.count("will look blurry: "), text.count("% of the picture")) == (12, 1)
    document = planned.json("prints", "2026-W14", tmp_path / "other", exit_code=1)
    assert {risk["kind"] for risk in document["risks"]} == {"blurry", "cropped", "planned too"}
    assert (document["order"], document["files"]) == (None, [])


def test_it_is_readable_at_80_columns(planned: Person, tmp_path: Path) -> None:
    """Rows and notes stay within the terminal, and what comes next is said."""
    planned.env["COLUMNS"] = "80"
    text = planned.says("prints", "2026-W14", tmp_path, "--yes")
    lines = [line for line in text.splitlines() if not line.startswith("Written: ")]
    assert max(map(len, lines)) <= 80
    assert "12 pieces on " in text
    assert text.endswith("When the files are with the lab: weeksheaf order sent o01\n")


def test_made_again_it_is_the_same_order(planned: Person, tmp_path: Path) -> None:
    """In the same folder, as long as it was not sent: the number stays, files that are not wanted now go."""
    first = planned.json("prints", "2026-W14", tmp_path / "out", "--yes")
    planned.says("fit", "2026-W14", "--photos", "4")
    second = planned.json("prints", "2026-W14", tmp_path / "out", "--yes")
    assert (first["order"], second["order"]) == (1, 1)
    assert len(second["prints"]) < len(first["prints"])
    assert [name for name in files(tmp_path / "out") if name.startswith("o01")] == [
        Path(one["file"]).name for one in second["prints"]
    ]
    assert [order["number"] for order in planned.json("order")["orders"]] == [1]


def test_a_sent_order_keeps_its_folder(planned: Person, tmp_path: Path) -> None:
    """What the lab has is not written over; another folder begins the next order."""
    planned.says("prints", "2026-W14", tmp_path / "out", "--yes")
    assert "  prints: o01 planned\n" in planned.says("week", "2026-W14")
    planned.says("order", "sent", "1")
    assert planned.json("week", "2026-W14")["orders"] == [{"order": "o01", "state": "sent"}]
    for word in ("sent", "arrived"):
        planned.says("order", word, "1")
        error = planned.error("prints", "2026-W14", tmp_path / "out")
        assert error.startswith(f"{tmp_path / 'out'} holds order o01, which was sent; choose another folder")


def test_an_order_made_anew_loses_no_week(planned: Person, tmp_path: Path) -> None:
    """Its folder is not taken for other weeks, whose prints would go unordered in silence; once dropped, it is."""
    planned.says("fit", "2026-W15", "--left", "12 tall", "--right", "12 tall")
    planned.says("prints", "2026-W14", tmp_path / "out", "--yes")
    before = files(tmp_path / "out")
    error = planned.error("prints", "2026-W15", tmp_path / "out", "--yes")
    assert "holds order o01 for 2026-W14 too, which was not sent; name all of its weeks, choose another folder" in error
    assert files(tmp_path / "out") == before
    assert planned.json("prints", "2026-W14", "2026-W15", tmp_path / "out", "--yes")["order"] == 1
    planned.says("order", "drop", "1")
    assert planned.json("prints", "2026-W15", tmp_path / "out", "--yes")["order"] == 2


def test_an_order_that_may_have_gone_without_a_word(planned: Person, tmp_path: Path) -> None:
    """Its pieces are listed before they are paid for twice; with nothing left to print, the folder's own order too."""
    planned.says("prints", "2026-W14", tmp_path / "1", "--yes")
    document = planned.json("prints", "2026-W14", tmp_path / "2", "--yes")
    assert sum(risk["kind"] == "planned too" for risk in document["risks"]) == 12
    way_out = "o01 is planned for the same and was not told as sent; if it went to the lab: weeksheaf order sent o01"
    assert any(note.startswith(way_out) for note in document["notes"])
    planned.says("order", "sent", "2")
    text = planned.says("prints", "2026-W14", tmp_path / "1", "--yes")
    assert way_out in " ".join(text.split())


def test_what_was_ordered_before_and_has_not_changed_is_left_out(planned: Person, tmp_path: Path) -> None:
    """Only new and changed pieces are printed, unless all are asked for; a print told to be made again too."""
    first = planned.json("prints", "2026-W14", tmp_path / "1", "--yes")
    planned.says("order", "sent", "1")
    assert planned.says("prints", "2026-W14", tmp_path / "2") == (
        "12 pieces ordered before and unchanged, left out (o01); --again prints them too\nNothing to print.\n"
    )
    assert not (tmp_path / "2").exists()
    planned.says("mark", "2026-W14", "done")
    planned.says("mark", "2026-W14", "open")
    code = pieces(first)["L1"]["code"] if "L1" in pieces(first) else next(iter(pieces(first).values()))["code"]
    planned.says("fit", "2026-W14", "--zoom", f"{code}=1.3")
    second = planned.json("prints", "2026-W14", tmp_path / "2", "--yes")
    assert [piece["code"] for piece in pieces(second).values()] == [code]
    assert {risk["kind"] for risk in second["risks"]} >= {"printed before"}
    planned.says("order", "sent", "2")
    planned.says("reprint", "o01-01")
    again = planned.json("prints", "2026-W14", tmp_path / "3", "--yes")
    wanted = {piece["code"] for piece in first["prints"][0]["pieces"]} - {code}
    assert {piece["code"] for piece in pieces(again).values()} == wanted
    everything = planned.json("prints", "2026-W14", tmp_path / "4", "--yes", "--again")
    assert len(pieces(everything)) == 12


def test_several_weeks_go_in_one_order(planned: Person, tmp_path: Path) -> None:
    """Their pieces are pooled, and named by week."""
    planned.says("fit", "2026-W15", "--left", "4 square", "--right", "4 square")
    error = planned.error("prints", "2026-W15", "2026-W14", tmp_path / "out")
    assert "is 6x6in, larger than" in error or "larger" in error
    planned.says("fit", "2026-W15", "--left", "12 tall", "--right", "12 tall")
    document = planned.json("prints", "2026-W15", "2026-W14", tmp_path / "out", "--yes")
    assert document["weeks"] == ["2026-W14", "2026-W15"]
    assert {piece["week"] for one in document["prints"] for piece in one["pieces"]} == {"2026-W14", "2026-W15"}
    assert {"2026-W14.png", "2026-W15.png"} <= set(files(tmp_path / "out"))


def test_a_week_without_a_plan(owner: Person, tmp_path: Path) -> None:
    """It says what comes first."""
    error = owner.error("prints", "2026-W14", tmp_path / "out")
    assert error == "30 Mar - 5 Apr 2026, week 14 has no plan yet; plan it first: weeksheaf fit 2026-W14"


def test_a_photo_that_is_gone(planned: Person, tmp_path: Path) -> None:
    """It is named with its pocket and the way out, and nothing is made."""
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    Path(photo["path"]).unlink()
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes")
    assert error.startswith(f"{photo['path']} ({photo['code']}), planned for 2026-W14 ")
    assert "is gone from the disk; connect its disk and run weeksheaf index, or weeksheaf fit 2026-W14" in error
    assert not (tmp_path / "out").exists()


def test_a_photo_that_was_changed(planned: Person, tmp_path: Path) -> None:
    """Edited since it was indexed: index first."""
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    path = Path(photo["path"])
    put(path, path.read_bytes() + b"edited")
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes")
    assert error.endswith("changed since it was indexed; run weeksheaf index")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("trouble", "says"),
    [
        (lambda path: put(path, path.read_bytes() + b"edited"), "changed since it was indexed; run weeksheaf index"),
        (lambda path: path.unlink(), "not found; connect its disk, or run weeksheaf index"),
    ],
)
def test_a_photo_that_changes_while_the_prints_are_made(
    planned: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trouble: Callable[[Path], object], says: str
) -> None:
    """What lies in its place by then is never printed in silence: nothing is made, and the photo is named."""
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    drawn = writing.print_jpegs

    def drawn_and_changed(jobs: Sequence[PrintJob]) -> Generator[tuple[int, DrawnPrint | str]]:
        yield from drawn(jobs)
        trouble(Path(photo["path"]))

    monkeypatch.setattr(writing, "print_jpegs", drawn_and_changed)
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes", stdout=True)
    assert error == f"{photo['path']} ({photo['code']}), while the prints were made: {says}"
    assert not (tmp_path / "out").exists()
    assert planned.json("order")["orders"] == []


def test_a_print_that_is_changed_while_the_next_are_drawn(
    planned: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Made again over the person's own change, that would be lost."""
    planned.says("prints", "2026-W14", tmp_path / "out", "--yes")
    drawn, mine = writing.print_jpegs, tmp_path / "out" / "o01-01.jpg"

    def drawn_and_changed(jobs: Sequence[PrintJob]) -> Generator[tuple[int, DrawnPrint | str]]:
        yield from drawn(jobs)
        mine.write_bytes(b"mine")

    monkeypatch.setattr(writing, "print_jpegs", drawn_and_changed)
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes", stdout=True)
    assert error == f"{mine} was changed since it was written; move it away, then print again"
    assert mine.read_bytes() == b"mine"


def test_a_photo_that_cannot_be_decoded(planned: Person, tmp_path: Path) -> None:
    """Found out while drawing: the print and the file are named, and nothing half-made stays."""
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    path = Path(photo["path"])
    put(path, path.read_bytes()[:-200])
    planned.says("index")
    planned.run("fit", "2026-W14")
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes", stdout=True)
    assert str(path) in error
    assert error.endswith("or do without: weeksheaf leave PHOTO, then weeksheaf fit 2026-W14")
    assert not (tmp_path / "out").exists()
    assert planned.json("order")["orders"] == []


def test_folders_that_cannot_be_used(planned: Person, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Inside the library, a file, and a disk without room: named, nothing is made."""
    assert "lies inside the library folder" in planned.error("prints", "2026-W14", planned.folder / "out", "--yes")
    (tmp_path / "file").write_text("mine")
    assert "file is not a folder" in planned.error("prints", "2026-W14", tmp_path / "file", "--yes")
    with monkeypatch.context() as patch:
        patch.setattr("pathlib.Path.mkdir", _refused)
        error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes", stdout=True)
    assert error == f"{tmp_path / 'out'} cannot be used (permission denied); allow it, or choose another folder"
    monkeypatch.setattr("queries.made_files.folder.free_bytes", lambda _: 1000)
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes", stdout=True)
    assert "its disk has 1.0 kB free; make room, or choose a folder on another disk" in error
    assert not (tmp_path / "out").exists()


def test_more_pixels_than_can_be_drawn(planned: Person, tmp_path: Path) -> None:
    """Two settings that are good each alone: the one that goes with the other is said, of the ruler print too."""
    planned.says("settings", "print.size", "44x44in")
    says = "print.size at print.dpi makes 13200 x 13200 pixels, more than can be drawn; set fewer to the inch:"
    for what in (("--calibrate",), ("2026-W14", "--yes")):
        error = planned.error("prints", *what, tmp_path / "out", stdout=True)
        assert error == f"{says} weeksheaf settings print.dpi 203"
    assert not (tmp_path / "out").exists()


def _refused(*_: object, **__: object) -> None:
    raise PermissionError(13, "Permission denied")


def test_a_pocket_larger_than_the_print(owner: Person, tmp_path: Path) -> None:
    """The pocket is named, and what would be right."""
    owner.says("fit", "2026-W14", "--left", "4 square", "--right", "4 square")
    error = owner.error("prints", "2026-W14", tmp_path / "out", "--yes")
    assert error.startswith("2026-W14 L1 ")
    assert "6x6" in error


def test_the_weeks_words_on_cards(planned: Person, tmp_path: Path) -> None:
    """--journal adds the cards as pieces, --home makes a PDF of them; without either they are pointed out."""
    planned.says("note", "2026-W14", "The tide took the ladder, and brought it back on Friday.")
    assert "--journal prints them" in planned.says("prints", "2026-W14", tmp_path / "1", "--yes")
    document = planned.json("prints", "2026-W14", tmp_path / "2", "--yes", "--journal")
    cards = [piece for piece in pieces(document).values() if piece["code"] is None]
    assert len(cards) == 1
    assert cards[0]["codes"] == []
    planned.says("note", "2026-W14", "We swam. \N{SWIMMER}")
    home = planned.json("prints", "2026-W14", tmp_path / "3", "--yes", "--journal", "--home")
    assert "2026-W14: left out, since no card shows it: \N{SWIMMER}" in home["notes"]
    assert len(pieces(home)) == 12
    assert (tmp_path / "3" / "cards.pdf").read_bytes().startswith(b"%PDF")


def test_words_and_no_pocket_for_them(owner: Person, tmp_path: Path) -> None:
    """It says how to plan some."""
    owner.says("fit", "2026-W14", "--left", "6 wide", "--right", "6 wide", "--cards", "0")
    owner.says("note", "2026-W14", "Rain.")
    error = owner.error("prints", "2026-W14", tmp_path / "out", "--yes", "--journal")
    assert error.endswith("has words and no pocket for a card; plan some: weeksheaf fit 2026-W14 --cards 2")


def test_trim_shrinks_by_a_hair_or_takes_more_prints(planned: Person, tmp_path: Path) -> None:
    """What the lab takes is told, and both ways out are."""
    planned.says("settings", "print.lab_trim", "1/8in")
    shrunk = planned.json("prints", "2026-W14", tmp_path / "1", "--yes")
    apart = planned.json("prints", "2026-W14", tmp_path / "2", "--yes", "--apart")
    assert len(apart["prints"]) > len(shrunk["prints"])
    assert min(one["scale_x"] for one in shrunk["prints"]) < 1
    assert {one["scale_x"] for one in apart["prints"]} == {1.0}
    text = planned.says("prints", "2026-W14", tmp_path / "1", "--yes")
    assert "--apart gives each its full size, on more prints" in text.replace("\n  ", " ")
    assert "the lab may take up to 1/8 in there" in text


def test_the_ruler_print(newcomer: Person, tmp_path: Path) -> None:
    """One print of the lab's size, before anything is indexed; made again it is replaced, another file is not."""
    for _ in range(2):
        document = newcomer.json("prints", "--calibrate", tmp_path / "ruler")
        with Image.open(document["file"]) as picture:
            assert (picture.size, picture.info["dpi"]) == ((1800, 1200), (300, 300))
    Path(document["file"]).write_bytes(b"mine")
    assert "is there already and is no ruler print" in newcomer.error("prints", "--calibrate", tmp_path / "ruler")
    Image.new("1", (20_000, 20_000)).save(document["file"], "PNG")  # more than Pillow opens
    assert "is there already and is no ruler print" in newcomer.error("prints", "--calibrate", tmp_path / "ruler")
    assert "--calibrate goes alone" in newcomer.misuse("prints", tmp_path, "--calibrate", "--again")


def test_wrong_usage(planned: Person, tmp_path: Path) -> None:
    """No week is said so."""
    assert planned.misuse("prints", tmp_path) == "name the weeks and a folder: weeksheaf prints WEEK... FOLDER"


def test_a_done_week_is_printed_as_it_is(planned: Person, tmp_path: Path) -> None:
    """A photo that goes to another week later stays on the pages that are made."""
    planned.says("mark", "2026-W14", "done")
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    planned.says("assign", photo["path"], "2026-W15")
    assert len(pieces(planned.json("prints", "2026-W14", tmp_path / "out", "--yes"))) == 12


def test_a_plan_that_its_week_has_left_behind(planned: Person, tmp_path: Path) -> None:
    """A photo that was left out since stands in the way of printing, and fit is the way out."""
    document = planned.json("fit", "2026-W14")
    photo = next(p for page in document["pages"] for pocket in page["pockets"] for p in pocket["photos"])
    planned.says("leave", photo["path"])
    error = planned.error("prints", "2026-W14", tmp_path / "out", "--yes")
    assert error.endswith("was left out; weeksheaf fit 2026-W14 plans the week anew")
    planned.says("fit", "2026-W14")
    planned.json("prints", "2026-W14", tmp_path / "out", "--yes")
