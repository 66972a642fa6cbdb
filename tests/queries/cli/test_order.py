"""weeksheaf order"""

import pytest

from tests.queries.cli.conftest import Person, posix_only
from tests.queries.cli.test_output import ESCAPES, assert_harmless
from tests.queries.cli.told_orders import W14, W15, tell_order_of

WEEK_14, WEEK_15 = "30 Mar - 5 Apr 2026, week 14", "6 - 12 Apr 2026, week 15"


def today_of(person: Person) -> str:
    """The day of the order's word, as the list shows it."""
    return " ".join(person.says("order").splitlines()[1].split()[1:4])


def test_no_order_yet(person: Person) -> None:
    """It is said what plans one."""
    assert person.says("order") == "No order yet; weeksheaf prints WEEK FOLDER plans one.\n"
    assert person.json("order") == {"orders": []}
    assert "weeksheaf prints WEEK FOLDER" in person.error("order", "sent", "1")


def test_the_orders(person: Person) -> None:
    """Each with its state, prints, pieces, weeks and folder."""
    id_ = tell_order_of(person)
    day = today_of(person)
    assert person.says("order").splitlines() == [
        f"order  planned{' ' * (len(day) - 7)}  state    prints  pieces",
        f"o01    {day}  planned       2       3",
        f"    {WEEK_14} (2026-W14)",
        f"    {WEEK_15} (2026-W15)",
        "    in /table/prints",
    ]
    (row,) = person.json("order")["orders"]
    assert {name: row[name] for name in row if not name.endswith("_at")} == {
        "order": "o01", "number": 1, "id": id_, "state": "planned", "folder": "/table/prints", "prints": 2, "pieces": 3,
        "lower_bound": 2,
        "weeks": [
            {"name": "2026-W14", "first_day": "2026-03-30", "last_day": "2026-04-05"},
            {"name": "2026-W15", "first_day": "2026-04-06", "last_day": "2026-04-12"},
        ],
    }  # fmt: skip
    assert (row["sent_at"], row["arrived_at"]) == (None, None)


def test_an_order_sent(person: Person) -> None:
    """Its weeks are named, and how to have them wait for it without losing what else they wait for."""
    tell_order_of(person, pockets=((W14, "L1"), (W15, "L1")))
    person.says("mark", "2026-W15", "waiting", "--for", "slate-blue cards")
    day = today_of(person)
    assert person.says("order", "sent", "1").splitlines() == [
        f"Order o01 sent {day}; 1 print, 2 pieces",
        f"{WEEK_14} is open: weeksheaf mark 2026-W14 waiting --for prints",
        f'{WEEK_15} is waiting: weeksheaf mark 2026-W15 waiting --for supplies:"slate-blue cards" --for prints',
    ]
    person.says("mark", "2026-W14", "waiting", "--for", "prints")
    person.says("mark", "2026-W15", "done")
    assert person.says("order", "sent", "o1").splitlines() == [
        f"Order o01 was told already: sent {day}; 1 print, 2 pieces",
        f"{WEEK_14} waits for prints",
        f"{WEEK_15} is done",
    ]
    assert person.json("order", "sent", "o01")["told"] is False
    assert person.json("order")["orders"][0]["state"] == "sent"


def test_an_order_arrived(person: Person) -> None:
    """The weeks that waited for it are named with what comes next, those alone."""
    tell_order_of(person, "sent", pockets=((W14, "L1"), (W15, "L1")))
    person.says("mark", "2026-W14", "waiting", "--for", "prints")
    day = today_of(person)
    assert person.says("order", "arrived", "o01").splitlines() == [
        f"Order o01 arrived {day}; 1 print, 2 pieces",
        f"{WEEK_14} waited for prints: weeksheaf mark 2026-W14 started",
    ]
    document = person.json("order", "arrived", "1")
    assert (document["told"], document["state"]) == (False, "arrived")
    fields = ("name", "state", "waiting_for", "under_way", "next")
    assert [tuple(week[field] for field in fields) for week in document["weeks"]] == [
        ("2026-W14", "waiting", ["prints"], [], "weeksheaf mark 2026-W14 started"),
        ("2026-W15", "open", [], [], None),
    ]


def test_a_week_with_more_prints_under_way(person: Person) -> None:
    """It goes on waiting until the last of them is here; then what else it waits for stays."""
    tell_order_of(person, "sent")
    tell_order_of(person, "sent", pockets=((W14, "R1"),), number=2)
    person.says("mark", "2026-W14", "waiting", "--for", "prints", "--for", "photos:Aunt")
    assert person.says("order", "arrived", "1").splitlines()[1:] == [f"{WEEK_14} waits for more prints: o02 under way"]
    week = person.json("order", "arrived", "1")["weeks"][0]
    assert (week["under_way"], week["next"]) == (["o02"], None)
    assert person.says("order", "arrived", "2").splitlines()[1:] == [
        f'{WEEK_14} waited for prints: weeksheaf mark 2026-W14 waiting --for photos:"Aunt"'
    ]


@posix_only
def test_the_command_that_is_shown_can_be_typed(person: Person) -> None:
    """Whatever a wait holds, a shell takes the line as it was meant."""
    import shlex

    tell_order_of(person, pockets=((W14, "L1"),))
    waits = ['supplies:it\'s "$HOME" `x`', "words", "photos:Aunt & Uncle"]
    person.says("mark", "2026-W14", "waiting", *(word for wait in waits for word in ("--for", wait)))
    line = person.says("order", "sent", "1").splitlines()[1].partition(": ")[2]
    assert shlex.split(line)[5::2] == [*waits, "prints"]


def test_an_order_arrived_without_a_word_of_sending(person: Person) -> None:
    """It was sent in the same moment."""
    tell_order_of(person)
    document = person.json("order", "arrived", "1")
    assert document["sent_at"] == document["arrived_at"]


def test_an_order_dropped(person: Person) -> None:
    """It stays in the list, is told of once, and cannot be sent any more."""
    tell_order_of(person)
    said = person.says("order", "drop", "1").splitlines()
    assert said == [
        "Order o01 dropped; 2 prints, 3 pieces",
        "Its number is not used again, its files stay in /table/prints",
    ]
    assert "was told already: dropped" in person.says("order", "drop", "1")
    assert "was dropped and cannot be sent" in person.error("order", "sent", "1")
    assert person.json("order")["orders"][0]["state"] == "dropped"


def test_an_order_that_went_cannot_be_dropped(person: Person) -> None:
    """Its pieces are printed; single ones can be printed again."""
    tell_order_of(person, "sent")
    assert "weeksheaf reprint" in person.error("order", "drop", "1")


def test_two_orders_of_one_number(person: Person, newcomer: Person) -> None:
    """After another computer's backup both are there; each is named by the first letters of its id."""
    mine, theirs = tell_order_of(person), ""
    newcomer.says("settings", "week.min_days", "4")
    theirs = tell_order_of(newcomer, pockets=((W15, "R2"),), folder="/other/prints")
    file = person.index.with_name("theirs.json")
    newcomer.says("backup", file)
    person.says("restore", file)
    line = person.error("order", "sent", "1")
    assert "is 2 orders" in line
    assert f"{mine[:6]}: planned" in line
    assert f"{theirs[:6]}: planned" in line
    assert "2026-W14, 2026-W15" in line
    listed = person.says("order")
    assert f"one of several with this number: name it {mine[:8]}" in listed
    assert person.json("order", "sent", theirs[:8])["id"] == theirs
    assert [row["state"] for row in person.json("order")["orders"] if row["id"] == mine] == ["planned"]
    assert person.says("reprint", f"{theirs[:8]}-01").startswith("To be printed again, of o01-01: 2026-W15/R2")


def test_an_order_of_a_newer_version(person: Person) -> None:
    """It is listed and said to be unreadable; what becomes of it can be told."""
    from contextlib import closing

    from indexer import open_for_writing
    from indexer.store.orders import tell_order

    with closing(open_for_writing(person.index)) as connection:
        tell_order(connection, "0d5e4a1c-2f0b-4b54-8a55-3f9d6a0c7e11", 3, "planned", '{"form":99}')
    assert "told by a newer version of weeksheaf" in person.says("order")
    assert person.json("order", "sent", "3")["state"] == "sent"
    assert "none that can be read" in person.error("reprint", "o03-01")


def test_what_a_folder_is_called_cannot_command_the_terminal(person: Person) -> None:
    """Folders and waits are shown with their escapes."""
    tell_order_of(person, folder=f"/prints {ESCAPES}\udcff", pockets=((W14, "L1"),))
    person.says("mark", "2026-W14", "waiting", "--for", f"supplies:{ESCAPES}", "--for", "prints")
    for words in ([], ["sent", "1"], ["arrived", "1"]):
        assert_harmless(person.says("order", *words))
        assert person.run("order", *words, "--json").stdout.isascii()
    tell_order_of(person, folder=f"/prints {ESCAPES}", number=2)
    assert_harmless(person.says("order", "drop", "2"))
    assert_harmless(person.error("order", "sent", ESCAPES))
    assert_harmless(person.error("reprint", ESCAPES))


def test_orders_come_back_from_a_backup(person: Person, newcomer: Person) -> None:
    """With all that was told of them, once."""
    tell_order_of(person, "sent", "arrived")
    tell_order_of(person, "dropped", number=2)
    person.says("reprint", "o01-02")
    file = person.index.with_name("words.json")
    person.says("backup", file)
    newcomer.says("restore", file)
    assert newcomer.json("restore", file)["added"] == 0
    assert newcomer.json("order") == person.json("order")


@pytest.mark.parametrize("words", [["sent"], ["sent", "1", "2"], ["lost", "1"], ["--json", "sent", "1"]])
def test_wrong_usage(person: Person, words: list[str]) -> None:
    """One order at a time, by a word that there is, and --json at the end."""
    tell_order_of(person)
    person.misuse("order", *words)


def test_a_slip_of_the_number_is_taken_back(person: Person) -> None:
    """`--forget` on what was told: the order is what it was before."""
    tell_order_of(person)
    person.says("order", "sent", "1")
    assert person.says("order", "sent", "1", "--forget") == "Order o01 is planned again\n"
    assert person.json("order")["orders"][0]["state"] == "planned"
    assert person.says("order", "drop", "1", "--forget").startswith("Order o01 was never told to be dropped; it is ")
    assert person.json("order", "arrived", "1", "--forget")["told"] is False
