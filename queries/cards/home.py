"""Cards as a PDF for the printer at home: actual size, each named, with marks to cut by."""

from collections.abc import Iterator, Sequence
from io import BytesIO

from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfgen.canvas import Canvas

from queries.cards.drawing import COLOURS
from queries.cards.fonts import pdf_font
from queries.cards.sheets import MARK_FROM, MARK_TO, Placed, sheets_of
from queries.cards.values import UM_PER_POINT, Card, CardLine, NamedCard, Tone
from queries.lengths import UM_PER_MM

_LABEL_POINTS = 7.0
_HAIR = 0.25  # points
_GREY = (0.4, 0.4, 0.4)


def cards_pdf(cards: Sequence[NamedCard], paper: tuple[int, int]) -> bytes:
    """The cards on pages of that width and height in micrometres, in their order. Text stays text, the font goes along.

    The same cards give the same bytes. Raises PrintError for a card larger than the paper within its margins.
    """
    buffer = BytesIO()
    for bold in (False, True):
        registerFont(pdf_font(bold))
    size = _points(paper[0]), _points(paper[1])
    canvas = Canvas(buffer, size, invariant=1, pageCompression=1, initialFontName=pdf_font().fontName)
    canvas.setTitle("Cards")
    canvas.setViewerPreference("PrintScaling", "None")  # so that viewers offer actual size (ISO 32000-1, table 150)
    for page in sheets_of([(card.card.width, card.card.height) for card in cards], paper):
        for place in page:
            _draw_placed(canvas, cards[place.number], place, paper[1])
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _draw_placed(canvas: Canvas, named: NamedCard, place: Placed, paper_height: int) -> None:
    """A card with its marks and its name below; a turned one by 90 degrees clockwise."""
    canvas.saveState()
    canvas.translate(_points(place.x), _points(paper_height - place.y))  # the box's left upper corner, y upwards
    _draw_marks(canvas, place)
    canvas.setFillColorRGB(*_GREY)
    canvas.setFont(pdf_font().fontName, _LABEL_POINTS)
    label = named.name
    while len(label) > 1 and pdf_font().stringWidth(label, _LABEL_POINTS) > _points(place.width):
        label = label[:-1]
    canvas.drawString(_points(UM_PER_MM), -_points(place.height) - _LABEL_POINTS - 1, label)
    if place.is_turned:
        canvas.translate(_points(place.width), 0)
        canvas.rotate(-90)
    _draw_card(canvas, named.card)
    canvas.restoreState()


def _draw_card(canvas: Canvas, card: Card) -> None:
    for rule in card.rules:
        _tone(canvas, rule.tone)
        top, height = _points(rule.y), _points(rule.thickness)
        canvas.rect(_points(rule.x), -top - height, _points(rule.length), height, stroke=0, fill=1)
    for line in card.lines:
        _draw_line(canvas, line)


def _draw_line(canvas: Canvas, line: CardLine) -> None:
    _tone(canvas, line.tone)
    text = canvas.beginText(_points(line.x), -_points(line.baseline))
    text.setFont(pdf_font(line.bold).fontName, line.points)
    text.setCharSpace(_points(line.spread))
    text.textOut(line.text)
    canvas.drawText(text)


def _draw_marks(canvas: Canvas, place: Placed) -> None:
    """Two hairlines outside each corner, on the lines to cut along."""
    canvas.setLineWidth(_HAIR)
    canvas.setStrokeColorRGB(*_GREY)
    for x, y, to_x, to_y in _marks(place.width, place.height):
        canvas.line(_points(x), -_points(y), _points(to_x), -_points(to_y))


def _marks(width: int, height: int) -> Iterator[tuple[int, int, int, int]]:
    for edge in (0, width):
        yield edge, -MARK_TO, edge, -MARK_FROM
        yield edge, height + MARK_FROM, edge, height + MARK_TO
    for edge in (0, height):
        yield -MARK_TO, edge, -MARK_FROM, edge
        yield width + MARK_FROM, edge, width + MARK_TO, edge


def _tone(canvas: Canvas, tone: Tone) -> None:
    canvas.setFillColorRGB(*(part / 255 for part in COLOURS[tone]))


def _points(length: int) -> float:
    return length / UM_PER_POINT
