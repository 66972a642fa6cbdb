"""The words of a week on its cards: every word there, in order, inside the margins, as large as they fit."""

import re
from itertools import pairwise
from math import radians, tan
from random import Random

import pytest
from PIL import ImageChops, ImageFont

from indexer.errors import PrintError
from queries.cards.drawing import draw_card
from queries.cards.fonts import font_file, measure
from queries.cards.making import cards_for, left_out
from queries.cards.setting import SIZES
from queries.cards.values import UM_PER_POINT, Card, CardLine, WeekWords
from queries.lengths import UM_PER_INCH as INCH

SIZES_IN = [(3, 4), (4, 3), (6, 4), (4, 6), (3, 3), (2, 2), (2.5, 3.5)]
LETTERS = "abcdefghijklmnopqrstuvwxyzåäöæøßłžćęğıñõüαβγδλбвгджя"


def um(size: tuple[float, float]) -> tuple[int, int]:
    return round(size[0] * INCH), round(size[1] * INCH)


def week(*paragraphs: tuple[str, str]) -> WeekWords:
    return WeekWords("30 Mar – 5 Apr 2026", "week 14", paragraphs, "2026-W14")


def made_text(random: Random, count: int) -> str:
    """Words of all lengths with marks, line ends and empty lines between them."""
    words = []
    for _ in range(count):
        length = 45 if random.random() < 0.01 else random.randint(1, 12)
        word = "".join(random.choice(LETTERS) for _ in range(length))
        words.append(
            random.choice(["", "", "“", "‘"]) + word + random.choice(["", "", ",", ".", "”", " —", "-" + word])
        )
    return "".join(word + random.choice([" "] * 12 + ["  ", "\t", "\n", "\n\n"]) for word in words)


def said(cards: tuple[Card, ...]) -> str:
    """The words on the cards, in the order in which they are read, without the title and without white space."""
    lines = [line for card in cards for line in card.lines if line.tone == "ink" and line.points in SIZES]
    return re.sub(r"\s", "", "".join(line.text for line in lines if not line.text.startswith("30 Mar")))


def right_end(line: CardLine) -> float:
    return line.x + measure(line.text, line.points, line.bold) + line.spread * (len(line.text) - 1)


def made_weeks(count: int, seed: int) -> list[tuple[WeekWords, list[tuple[int, int]]]]:
    random = Random(seed)
    weeks = []
    for _ in range(count):
        days = [
            (random.choice(["", "Monday", "Wednesday, 1 April"]), made_text(random, random.randint(0, 60)))
            for _ in range(random.randint(0, 5))
        ]
        sizes = [um(random.choice(SIZES_IN))] * 40 if random.random() < 0.5 else []
        weeks.append((week(*days), sizes or [um(random.choice(SIZES_IN)) for _ in range(60)]))
    return weeks


@pytest.mark.parametrize(("words", "sizes"), made_weeks(60, 14))
def test_every_word_stands_on_some_card_in_order(words: WeekWords, sizes: list[tuple[int, int]]) -> None:
    """Days and texts alike, and nothing is added: no hyphen, no dots."""
    cards = cards_for(words, sizes)
    expected = "".join(day + text for day, text in words.paragraphs if text.strip())
    assert said(cards) == re.sub(r"\s", "", expected)
    assert [(card.width, card.height) for card in cards] == sizes[: len(cards)]


@pytest.mark.parametrize(("words", "sizes"), made_weeks(40, 15))
def test_nothing_stands_in_the_margins(words: WeekWords, sizes: list[tuple[int, int]]) -> None:
    """By measure: lines end before the right margin, the lowest letters before the lower one, rules within both."""
    for card in cards_for(words, sizes):
        for line in card.lines:
            assert line.x >= card.margin
            assert right_end(line) <= card.width - card.margin + 1
            assert line.baseline - 0.95 * line.points * UM_PER_POINT >= card.margin - 0.1 * line.points * UM_PER_POINT
            assert line.baseline + 0.3 * line.points * UM_PER_POINT <= card.height - card.margin + 1
        for rule in card.rules:
            assert rule.x >= card.margin
            assert rule.x + rule.length <= card.width - card.margin + 1
            assert card.margin <= rule.y <= card.height - card.margin


@pytest.mark.parametrize(("words", "sizes"), made_weeks(8, 16))
@pytest.mark.parametrize("handwritten", [False, True])
def test_the_drawn_border_is_blank(words: WeekWords, sizes: list[tuple[int, int]], handwritten: bool) -> None:
    """By pixels: what is not white lies within the margins; a j may hang over by half a millimetre."""
    for card in cards_for(words, sizes, handwritten=handwritten)[:5]:
        image = draw_card(card, card.width * 150 // INCH, card.height * 150 // INCH)
        box = ImageChops.invert(image.convert("L")).point(lambda value: 255 if value > 8 else 0).getbbox()
        assert box is not None
        least = card.margin * 150 / INCH - 0.5 / 25.4 * 150
        assert min(box[0], box[1], image.width - box[2], image.height - box[3]) >= least


def test_few_words_are_large_and_leave_pockets_free() -> None:
    """The title card is there, a card that gets no words is not made."""
    cards = cards_for(week(("", "Ferry in fog.")), [um((3, 4))] * 4)
    assert len(cards) == 1
    assert cards[0].lines[-1].points == max(SIZES)
    assert cards[0].lines[-1].text == "Ferry in fog."


def test_no_words_make_a_title_card() -> None:
    """And a week without card pockets gets none."""
    (card,) = cards_for(week(), [um((3, 4))] * 3)
    assert [line.text for line in card.lines] == ["30 Mar – 5 Apr 2026", "week 14"]
    assert cards_for(week(), []) == ()


def test_more_words_are_set_smaller() -> None:
    """One size for all cards of the week, the largest at which they fit: one step more does not."""
    text = "The rain came at noon, so we moved the table into the boat shed. " * 7
    cards = cards_for(week(("", text)), [um((3, 4))])
    (points,) = {line.points for line in cards[0].lines if line.tone == "ink" and not line.bold}
    assert min(SIZES) < points < max(SIZES)
    with_more_room = cards_for(week(("", text)), [um((3, 4))] * 2)
    assert {line.points for line in with_more_room[1].lines if line.tone == "ink"} == {max(SIZES)}


@pytest.mark.parametrize("size", SIZES_IN)
def test_too_many_words_say_how_many_cards_they_need(size: tuple[float, float]) -> None:
    """With so many cards they fit, and with one less they do not."""
    words = week(("Monday", made_text(Random(3), 400)))
    with pytest.raises(PrintError, match=r"the words of week 14 need (\d+) more cards") as error:
        cards_for(words, [um(size)])
    needed = int(re.findall(r"--cards (\d+)", str(error.value))[0])
    assert f"need {needed - 1} more" in str(error.value)
    assert "weeksheaf fit 2026-W14" in str(error.value)
    assert said(cards_for(words, [um(size)] * needed))
    with pytest.raises(PrintError, match="need 1 more card:"):
        cards_for(words, [um(size)] * (needed - 1))


def test_words_without_a_card_pocket_say_so_too() -> None:
    """One card is needed at least."""
    with pytest.raises(PrintError, match=r"1 more card: .*--cards 1'"):
        cards_for(week(("", "Ferry in fog.")), [])


def test_a_days_heading_is_never_alone_at_the_foot() -> None:
    """A heading has a line of its text below it on the same card."""
    for seed in range(60):
        random = Random(seed)
        days = [(f"Day {number}", made_text(random, 25)) for number in range(6)]
        for card in cards_for(week(*days), [um((3, 4))] * 12):
            words = [line for line in card.lines if line.tone == "ink" and line.points in SIZES]
            assert not words or not words[-1].bold


def test_no_line_of_a_paragraph_stands_alone_on_a_card() -> None:
    """Where all fits at that: two at the foot, two at the head."""
    for seed in range(40):
        random = Random(seed)
        counts = [random.randint(20, 60) for _ in range(8)]
        text = "\n\n".join(" ".join("harbour"[: random.randint(2, 7)] for _ in range(count)) for count in counts)
        cards = cards_for(week(("", text)), [um((3, 4))] * 12)
        assert len(cards) > 2
        for number, card in enumerate(cards):
            lines = [line.baseline for line in card.lines if line.tone == "ink" and not line.bold]
            steps = [after - before for before, after in pairwise(lines)]
            assert not steps[1:] or number == 0 or steps[0] == pytest.approx(min(steps), abs=2)
            assert not steps[1:] or number == len(cards) - 1 or steps[-1] == pytest.approx(min(steps), abs=2)


@pytest.mark.parametrize("size", SIZES_IN)
def test_a_quarter_inch_stays_blank(size: tuple[float, float]) -> None:
    """At least: a pocket's seam and round corners hide an eighth."""
    assert all(card.margin >= INCH / 4 for card in cards_for(week(("", "Fog.")), [um(size)]))


def test_a_book_is_refused_at_once() -> None:
    """Fifty thousand words are not tried at every size."""
    with pytest.raises(PrintError, match="would fill 293 cards; shorten them"):
        cards_for(week(("", "rain " * 50_000)), [um((3, 4))])


def test_a_long_word_is_set_smaller_before_it_is_broken() -> None:
    """A word that fits the line in 9 points is whole."""
    word = "m" * 19
    cards = cards_for(week(("", f"see {word}")), [um((3, 4))] * 2)
    assert word in [text for card in cards for line in card.lines for text in line.text.split()]


def test_lined_cards_fill_every_pocket() -> None:
    """Lines 7 mm apart below the title, on each card to its lower margin."""
    cards = cards_for(week(("", "not shown")), [um(size) for size in SIZES_IN], handwritten=True)
    assert len(cards) == len(SIZES_IN)
    assert "not" not in [line.text[:3] for card in cards for line in card.lines]
    for card in cards:
        lines = [rule.y for rule in card.rules[1:]]
        assert {b - a for a, b in pairwise(lines)} <= {7000}
        assert card.height - card.margin - 200 < lines[-1] < card.height - card.margin
        assert len(lines) >= 2


def test_a_tiny_card_is_refused() -> None:
    """By its size, with what is needed."""
    with pytest.raises(PrintError, match=r"1x4 in is too small for words"):
        cards_for(week(), [um((1, 4))])


def test_the_small_title_breaks_at_its_dash() -> None:
    """On a card of 2 inches the days stand on two lines."""
    (card,) = cards_for(week(), [um((2, 2))])
    assert [line.text for line in card.lines[:2]] == ["30 Mar –", "5 Apr 2026"]


def test_a_days_heading_waits_for_its_first_words() -> None:
    """A note of nothing but a picture does not take the day's name away from the next one; a day without words has
    none."""
    (card,) = cards_for(week(("Monday", "🏊"), ("", "Cold."), ("Sunday", "🏊")), [um((3, 4))])
    assert [line.text for line in card.lines[2:]] == ["Monday", "Cold."]


def test_what_is_left_out_is_told() -> None:
    """Each picture once."""
    assert left_out(week(("", "swim 🏊 cold 🥶"), ("Sunday", "🏊"))) == ("🏊", "🥶")


def test_the_smallest_type_can_be_read() -> None:
    """An x in 9 points is larger than 0.2 degrees at 12 inches (Legge and Bigelow 2011, from memory)."""
    font = ImageFont.truetype(str(font_file()), 1000, layout_engine=ImageFont.Layout.BASIC)
    x_height = -font.getbbox("x", anchor="ls")[1] / 1000
    assert x_height * min(SIZES) * UM_PER_POINT > 12 * INCH * tan(radians(0.2))
