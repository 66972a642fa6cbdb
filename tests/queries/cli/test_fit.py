"""weeksheaf fit"""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from tests.queries.cli.conftest import PHONE, Person, put

#: Two pages of four squares: quickly planned.
SQUARES = ("--left", "4 square", "--right", "4 square")


def pockets(document: Any) -> dict[str, Any]:
    """By name."""
    return {pocket["pocket"]: pocket for page in document["pages"] for pocket in page["pockets"]}


def places(document: Any) -> dict[str, str]:
    """By pocket: the codes of its photos, or what else it holds."""
    return {
        name: " ".join(photo["code"] for photo in pocket["photos"]) or pocket["holds"]
        for name, pocket in pockets(document).items()
    }


def codes(document: Any) -> set[str]:
    return {photo["code"] for pocket in pockets(document).values() for photo in pocket["photos"]}


def test_the_document(person: Person) -> None:
    """All fields that scripts rely on; a crop has the shape of its cell, and says what is lost."""
    document = person.json("fit", "2026-W14", "--left", "3 wide + 6 tall, all middle", "--right", "6 wide")
    assert document["week"] == {"name": "2026-W14", "first_day": "2026-03-30", "last_day": "2026-04-05"}
    assert [(page["side"], page["sleeve"], page["face"]) for page in document["pages"]] == [
        ("left", "3 wide + 6 tall, all middle", "back"),
        ("right", "6 wide", "front"),
    ]
    assert list(pockets(document)) == [*(f"L{number}" for number in range(1, 10)), *(f"R{n}" for n in range(1, 7))]
    assert (document["optimal"], document["photos"], document["cards"]) == (True, 12, 3)
    assert document["gap"] <= 1e-6
    assert 0 <= document["balance"] <= 1
    for pocket in pockets(document).values():
        assert pocket["holds"] in ("photo", "collage", "card", "empty")
        assert pocket["width_in"] * pocket["height_in"] in (12.0, 24.0)
        for photo in pocket["photos"]:
            left, top, right, bottom = photo["crop"]
            assert 0 <= left < right <= 1
            assert 0 <= top < bottom <= 1
            assert photo["lost"] == pytest.approx(1 - (right - left) * (bottom - top))
            with Image.open(photo["path"]) as picture:
                width, height = picture.size
            if picture.getexif().get(0x0112, 1) > 4:
                width, height = height, width
            shape = (right - left) * width / ((bottom - top) * height)
            assert shape == pytest.approx(photo["width_in"] / photo["height_in"], rel=1e-6)
            assert photo["dpi"] < 200


def test_the_page_is_readable_at_80_columns(person: Person) -> None:
    """Both pages drawn, a row for each pocket, and what is to be known, within the terminal."""
    person.env["COLUMNS"] = "80"
    text = person.says("fit", "2026-W14")
    assert max(map(len, text.splitlines())) <= 80
    assert text.startswith("30 Mar - 5 Apr 2026, week 14 (2026-W14): 12 photos, ")
    assert text.splitlines()[1].startswith('left page: the back of "')
    rows = [line.split()[0] for line in text.splitlines() if re.match(r"[LR]\d+ ", line)]
    assert rows == list(pockets(person.json("fit", "2026-W14")))
    assert "will look blurry" in text


@pytest.mark.parametrize("columns", ["60", "200"])
def test_it_fits_other_terminals(person: Person, columns: str) -> None:
    """Narrow and wide."""
    person.env["COLUMNS"] = columns
    text = person.says("fit", "2026-W15", *SQUARES)
    assert max(map(len, text.splitlines())) <= int(columns)


def test_run_again_the_plan_is_kept(person: Person) -> None:
    """It is shown and not told anew."""
    first = person.json("fit", "2026-W15", *SQUARES)
    log = person.index.read_bytes()
    assert person.json("fit", "2026-W15") == first
    assert person.index.read_bytes() == log


def test_pins_are_kept_and_the_others_stay(person: Person) -> None:
    """What was fixed before stays fixed when something else is fixed later."""
    kite, gull = person.code("phone/0406.jpg"), person.code("phone/0412.jpg")
    person.json("fit", "2026-W15", "--left", "6 wide", "--right", "6 wide")
    pinned = person.json("fit", "2026-W15", "--pin", f"r3={kite}")
    assert places(pinned)["R3"] == kite
    with_card = person.json("fit", "2026-W15", "--card", "L1", "--card", "L2")
    assert (places(with_card)["R3"], places(with_card)["L1"], places(with_card)["L2"]) == (kite, "card", "card")
    both = person.json("fit", "2026-W15", "--collage", "L3=2", "--pin", f"L3.2={gull}")
    assert [places(both)[name] for name in ("R3", "L1", "L2")] == [kite, "card", "card"]
    assert pockets(both)["L3"]["collage"]["name"]
    assert places(both)["L3"].split()[1] == gull
    freed = person.json("fit", "2026-W15", "--pin", f"L1={kite}", "--free", "L2", "--free", "L3")
    assert places(freed)["L1"] == kite
    assert codes(freed) == codes(pinned)


def test_photos_that_are_named_are_planned(person: Person) -> None:
    """Those and no others, even of another week, which is said."""
    named = [person.code(name) for name in ("phone/0406.jpg", "phone/0318.jpg")]
    document = person.json("fit", "2026-W15", *named, *SQUARES)
    assert codes(document) == set(named)
    assert f"{named[1]} is no photo of this week." in document["notes"]
    assert codes(person.json("fit", "2026-W15", "--card", "R1")) == set(named)


def test_more_photos_than_pockets_make_collages(person: Person) -> None:
    """Photos that were named all find a place while there is any."""
    every = [photo["code"] for photo in person.json("week", "2026-W14")["photos"]]
    document = person.json("fit", "2026-W14", *every, *SQUARES)
    assert codes(document) == set(every)
    assert len(every) > 8


def test_more_photos_than_collages_hold(person: Person) -> None:
    """Of photos that were named as many are placed as there is room for in collages."""
    every = [photo["code"] for photo in person.json("week", "2026-W14")["photos"]]
    document = person.json("fit", "2026-W14", *every, "--left", "1 square", "--right", "1 square")
    assert len(every) > 8 == document["photos"]


def test_counts_of_cards_and_photos(person: Person) -> None:
    """--cards and --photos, of which the later one holds."""
    document = person.json("fit", "2026-W14", *SQUARES, "--cards", "3")
    assert (document["cards"], document["photos"]) == (3, 5)
    document = person.json("fit", "2026-W14", "--photos", "4")
    assert (document["cards"], document["photos"]) == (4, 4)


def test_neighbours_share_a_sleeve(person: Person) -> None:
    """The page that a neighbour's plan settles is its other face, and the plan says so."""
    person.says("fit", "2026-W14", "--left", "6 wide", "--right", "2 wide + 8 tall, four-pair-four")
    document = person.json("fit", "2026-W15", "--right", "4 square")
    left = document["pages"][0]
    assert (left["sleeve"], left["face"]) == ("2 wide + 8 tall, four-pair-four", "back")
    assert any("other face of the right page of the week before (30 Mar - 5 Apr" in note for note in document["notes"])
    person.says("mark", "2026-W13", "skipped")
    document = person.json("fit", "2026-W12", "--left", "4 square")
    assert (document["pages"][1]["sleeve"], document["pages"][1]["face"]) == ("6 wide", "front")


def test_a_skipped_week_is_said_to_have_no_pages(person: Person) -> None:
    """With the way back."""
    person.says("mark", "2026-W15", "skipped")
    assert "weeksheaf mark 2026-W15 open gives it pages" in person.json("fit", "2026-W15")["notes"][0]


def test_another_sleeve_than_the_neighbour_s_is_said(person: Person) -> None:
    """Whoever names one means it; the plan says that the weeks share none."""
    person.says("fit", "2026-W14", *SQUARES)
    document = person.json("fit", "2026-W15", "--left", "6 wide", "--right", "4 square")
    assert document["pages"][0]["sleeve"] == "6 wide"
    assert any("share none" in note for note in document["notes"])


def test_a_photo_that_stands_on_another_page_is_said(person: Person) -> None:
    """Itself or one alike to it."""
    person.make_alike("copy", "phone/0406.jpg", "phone/0318.jpg", keepers=2)
    kite, pier = person.code("phone/0406.jpg"), person.code("phone/0318.jpg")
    person.says("fit", "2026-W12", *SQUARES)
    document = person.json("fit", "2026-W15", *SQUARES)
    assert [(item["code"], item["kind"], item["other"], item["week"]) for item in document["elsewhere"]] == [
        (kite, "copy", pier, "2026-W12")
    ]
    assert f"{kite} stands in 16 - 22 Mar 2026, week 12 already, as its copy {pier}." in person.says("fit", "2026-W15")


def test_a_done_week_keeps_its_plan(person: Person) -> None:
    """It is shown, and changes only when the week is open again, from where it was."""
    plan = places(person.json("fit", "2026-W15", *SQUARES))
    person.says("mark", "2026-W15", "done")
    kite = person.code("phone/0406.jpg")
    person.says("leave", kite)
    done = person.json("fit", "2026-W15")
    assert places(done) == plan
    assert "weeksheaf mark 2026-W15 open lets it change" in done["notes"][0]
    for words in (["--card", "L1"], ["--forget"]):
        assert "weeksheaf mark 2026-W15 open" in person.error("fit", "2026-W15", *words)
    person.says("keep", kite)
    person.says("mark", "2026-W15", "open")
    assert places(person.json("fit", "2026-W15")) == plan
    person.says("leave", kite)
    assert codes(person.json("fit", "2026-W15")) == set(plan.values()) - {kite, "card"}


def test_a_done_week_without_a_plan_gets_none_to_keep(person: Person) -> None:
    """A plan is shown, and said not to be kept."""
    person.says("mark", "2026-W15", "done")
    document = person.json("fit", "2026-W15", *SQUARES)
    assert "not kept" in document["notes"][0]
    assert person.json("fit", "2026-W15", "--forget")["forgotten"] is False


def test_a_photo_left_out_since_is_replaced(person: Person) -> None:
    """That is said once; then the new plan stands."""
    kite = person.code("phone/0406.jpg")
    person.says("fit", "2026-W15", *SQUARES, "--pin", f"L2={kite}")
    person.says("leave", kite)
    document = person.json("fit", "2026-W15")
    assert f"{kite} was left out; its place was planned anew." in document["notes"]
    assert kite not in codes(document)
    again = person.json("fit", "2026-W15")
    assert (places(again), any(kite in note for note in again["notes"])) == (places(document), False)


def test_photos_that_came_in_since_are_said_where_there_is_room(person: Person) -> None:
    """The plan stays until it is asked for anew, as the note says."""
    before = codes(person.json("fit", "2026-W14"))
    code = sorted(before)[0]
    person.says("fit", "2026-W14", "--forget")
    person.says("leave", code)
    person.says("fit", "2026-W14")
    person.says("leave", code, "--forget")
    document = person.json("fit", "2026-W14")
    assert code not in codes(document)
    (note,) = [note for note in document["notes"] if f"there is room: {code}" in note]
    assert code in codes(person.json(*note.partition(": weeksheaf ")[2].split()))


def test_a_photo_gone_from_the_disk(owner: Person) -> None:
    """It is replaced and said, indexed anew or not; while all are out of reach, the plan stays."""
    owner.says("fit", "2026-W15", *SQUARES)
    kite = owner.code("phone/0406.jpg")
    (owner.folder / "phone" / "0406.jpg").unlink()
    assert f"{kite} is gone from the disk; its place was planned anew." in owner.json("fit", "2026-W15")["notes"]
    assert "is gone from the disk" in owner.error("fit", "2026-W15", "--pin", f"L1={kite}")
    plan = owner.json("fit", "2026-W15")
    owner.folder.rename(owner.folder.with_name("unplugged"))
    shown = owner.json("fit", "2026-W15")
    assert places(shown) == places(plan)
    assert shown["notes"][0].startswith("None of the plan's photos is on the disk")
    assert "connect it" in owner.error("fit", "2026-W15", "--card", "L1")
    assert "no photo of 30 Mar - 5 Apr 2026, week 14, is on the disk" in owner.error("fit", "2026-W14")


def test_a_pin_waits_for_a_photo_that_is_away(owner: Person) -> None:
    """Nothing told is lost: another photo stands there meanwhile, and the pinned one when it is back."""
    owner.says("fit", "2026-W15", *SQUARES)
    kite, file = owner.code("phone/0406.jpg"), owner.folder / "phone" / "0406.jpg"
    assert places(owner.json("fit", "2026-W15", "--pin", f"R4={kite}"))["R4"] == kite
    file.rename(file.with_name("away"))
    for _ in range(2):
        assert kite not in codes(owner.json("fit", "2026-W15"))
    assert kite not in codes(owner.json("fit", "2026-W15", "--card", "L1"))
    file.with_name("away").rename(file)
    document = owner.json("fit", "2026-W15")
    assert (places(document)["R4"], places(document)["L1"]) == (kite, "card")
    file.rename(file.with_name("away"))
    owner.says("fit", "2026-W15", "--card", "R4")
    file.with_name("away").rename(file)
    assert places(owner.json("fit", "2026-W15"))["R4"] == "card"


def test_a_plan_is_forgotten(person: Person) -> None:
    """With all that was fixed in it."""
    kite = person.code("phone/0406.jpg")
    person.says("fit", "2026-W15", *SQUARES, "--pin", f"R4={kite}", "--crop", f"{kite}=top")
    assert "forgotten" in person.says("fit", "2026-W15", "--forget")
    document = person.json("fit", "2026-W15", "--left", "6 wide", "--right", "6 wide")
    assert [page["sleeve"] for page in document["pages"]] == ["6 wide"] * 2
    assert "there was none" in person.says("fit", "2026-W12", "--forget")
    assert "goes alone" in person.misuse("fit", "2026-W15", "--forget", "--card", "L1")


def test_crops_and_zooms_overrule(person: Person) -> None:
    """A crop alone moves no photo; a zoom shows less."""
    kite = person.code("phone/0406.jpg")
    first = person.json("fit", "2026-W15", "--left", "6 wide", "--right", "6 wide", "--pin", f"L1={kite}")
    top = person.json("fit", "2026-W15", "--crop", f"{kite}=top")
    bottom = person.json("fit", "2026-W15", "--crop", f"{kite}=1")
    assert places(top) == places(bottom) == places(first)
    assert [pockets(document)["L1"]["photos"][0]["crop"][1] for document in (top, bottom)] == [
        0,
        pytest.approx(1 / 9, abs=0.01),
    ]
    assert person.json("fit", "2026-W15", "--crop", f"{kite}=auto") == first
    idle = person.json("fit", "2026-W15", "--crop", f"{kite}=left")
    assert f"{kite} loses nothing at the sides: its crop left moves nothing here." in idle["notes"]
    person.says("fit", "2026-W15", "--crop", f"{kite}=bottom")
    near = person.json("fit", "2026-W15", "--zoom", f"{kite}=1.5")
    (shown,) = pockets(near)["L1"]["photos"]
    assert 1 - shown["lost"] == pytest.approx(8 / 9 / 2.25, abs=0.02)
    assert shown["crop"][3] == pytest.approx(1)


def test_a_crop_of_a_photo_that_is_not_on_the_plan_is_kept(person: Person) -> None:
    """It is said, and holds when the photo comes in."""
    pier = person.code("phone/0318.jpg")
    document = person.json("fit", "2026-W15", "--left", "6 wide", "--right", "6 wide", "--crop", f"{pier}=top")
    assert f"{pier} is not on this plan; its crop is kept for when it is." in document["notes"]
    document = person.json("fit", "2026-W15", "--pin", f"R1={pier}")
    assert pockets(document)["R1"]["photos"][0]["crop"][1] == 0


def test_a_photo_that_was_left_out_is_not_named(person: Person) -> None:
    """The line says how it comes back."""
    kite = person.code("phone/0406.jpg")
    person.says("leave", kite)
    assert f"weeksheaf keep {kite}" in person.error("fit", "2026-W15", kite)
    assert f"weeksheaf keep {kite}" in person.error("fit", "2026-W15", "--pin", f"L1={kite}")


def test_the_style_of_collages_and_the_mat(person: Person) -> None:
    """Gap, border, corners, background, a free strip; paper around single photos."""
    style = ["--gap", "2mm", "--border", "1/4in", "--corners", "1/16in", "--background", "#f4efe6"]
    document = person.json(
        "fit", "2026-W15", *SQUARES, "--collage", "L1=2", *style, "--strip", "top=1in", "--mat", "1/8in"
    )
    collage = pockets(document)["L1"]["collage"]
    assert (collage["gap_in"], collage["border_in"], collage["corner_in"]) == (pytest.approx(2 / 25.4), 0.25, 0.0625)
    assert (collage["background"], collage["strip"]["height_in"]) == ("#f4efe6", 1.0)
    single = next(pocket for pocket in pockets(document).values() if pocket["holds"] == "photo")
    assert (single["photos"][0]["width_in"], single["width_in"]) == (5.75, 6)


def test_the_spread_is_drawn(person: Person, tmp_path: Path) -> None:
    """A PNG or a JPEG, never in a library folder, never over another file, and no other ending."""
    for name in ("spread.png", "spread.jpg"):
        document = person.json("fit", "2026-W15", *SQUARES, "--picture", tmp_path / name)
        assert document["picture"] == str(tmp_path / name)
        with Image.open(tmp_path / name) as picture:
            assert picture.width > 1.5 * picture.height
    assert "nothing is ever written" in person.error("fit", "2026-W15", "--picture", person.folder / "spread.png")
    assert ".png" in person.error("fit", "2026-W15", "--picture", tmp_path / "spread.gif")


def test_a_plan_survives_a_backup(person: Person, newcomer: Person, tmp_path: Path) -> None:
    """It is a word: restored into a new index it is there."""
    plan = person.json("fit", "2026-W15", *SQUARES, "--card", "R1")
    person.says("backup", tmp_path / "words.json")
    newcomer.says("restore", tmp_path / "words.json")
    newcomer.says("index", person.folder)
    assert newcomer.json("fit", "2026-W15") == plan


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--pin", "L1={kite}", "--pin", "L1={gull}"], "L1 is pinned twice, as {kite} and as {gull}"),
        (["--pin", "L1={kite}", "--pin", "R1={kite}"], "{kite} is pinned twice, to L1 and to R1"),
        (["--pin", "L1={kite}", "--card", "L1"], "L1"),
        (["--pin", "L9={kite}"], "L9"),
        (["--card", "L144"], "there is no pocket L144"),
        (["--card", "R5"], "R5"),
        (["--card", "R1", "--free", "R1"], "R1 is to hold a card and to be free"),
        (["--card", "R1", "--cards", "0"], "cards are fixed in R1, more than the 0 asked for in all"),
        (["--cards", "9"], "9 cards"),
        (["--collage", "L1=2", "--collage", "L1=3"], "L1 is given a collage twice"),
        (["--collage", "L1=2", "--card", "L1"], "L1"),
        (["--crop", "{kite}=top", "--crop", "{kite}=0.2"], "cropped twice"),
        (["--left", "4 squares"], '"4 square"'),
        (["--right", "hexagon"], "there is no sleeve"),
        (["--pin", "L1=fffff"], "fffff"),
    ],
)
def test_contradictions_and_unknown_names(person: Person, words: list[str], says: str) -> None:
    """One line each, that names the thing."""
    kite, gull = person.code("phone/0406.jpg"), person.code("phone/0412.jpg")
    known = {"kite": kite, "gull": gull}
    error = person.error("fit", "2026-W15", *SQUARES[2:], *SQUARES[:2], *(word.format(**known) for word in words))
    assert says.format(**known) in error
    assert person.json("fit", "2026-W15", "--forget")["forgotten"] is False


@pytest.mark.parametrize(
    "words",
    [
        ["--pin", "L1"], ["--pin", "X1={kite}"], ["--pin", "L0={kite}"], ["--card", "left"], ["--collage", "L1=5"],
        ["--collage", "L1"], ["--crop", "{kite}"], ["--crop", "{kite}=middle"], ["--crop", "{kite}=1.2"],
        ["--crop", "{kite}=nan"], ["--zoom", "{kite}=0.5"], ["--zoom", "{kite}=nan"], ["--zoom", "{kite}"],
        ["--mat", "wide"], ["--mat", "5in"], ["--strip", "1in"], ["--strip", "middle=1in"], ["--photos", "0"],
        ["--cards", "-1"], ["--background", "sky"],
    ],
)  # fmt: skip
def test_wrong_usage(person: Person, words: list[str]) -> None:
    """What cannot be read says how it is written."""
    kite = person.code("phone/0406.jpg")
    assert person.misuse("fit", "2026-W15", *(word.format(kite=kite) for word in words))


def test_a_week_without_photos(person: Person) -> None:
    """One line, with the way out."""
    assert "there are no photos in 23 - 29 Mar 2026, week 13" in person.error("fit", "2026-W13")


def test_a_kept_plan_of_another_making(person: Person) -> None:
    """It is not written over: the person says whether to drop it."""
    from contextlib import closing
    from datetime import date

    from indexer import open_for_writing
    from indexer.store.plans import tell_plan

    with closing(open_for_writing(person.index)) as connection:
        tell_plan(connection, date(2026, 4, 6), json.dumps({"form": 2}))
    assert "--forget" in person.error("fit", "2026-W15", "--card", "L1")
    assert person.json("fit", "2026-W15", "--forget")["forgotten"] is True


def test_small_pictures_and_panoramas(newcomer: Person, tmp_path: Path, picture: Callable[..., bytes]) -> None:
    """They are planned, and said to be what they are."""
    sizes = {"tiny": (90, 60), "wide": (3000, 500), "plain": (1800, 1200)}
    for number, (name, size) in enumerate(sizes.items()):
        put(tmp_path / "odd" / f"{name}.jpg", picture(name, f"2026:04:06 10:0{number}:00", PHONE, size=size))
    newcomer.says("index", tmp_path / "odd")
    document = newcomer.json("fit", "2026-W15", "--left", "6 wide", "--right", "6 wide")
    by_name = {
        Path(photo["path"]).stem: (pocket["why"], photo)
        for pocket in pockets(document).values()
        for photo in pocket["photos"]
    }
    assert set(by_name) == set(sizes)
    assert "will look blurry: 15 dpi" in by_name["tiny"][0]
    assert (by_name["plain"][1]["lost"], round(by_name["plain"][1]["dpi"])) == (0, 300)
    assert by_name["wide"][0]
