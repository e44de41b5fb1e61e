"""The quote as two pages of A4. Pure: the same facts give the same bytes.

Page one is the boat: drawing, shaft, gap, the customer's own numbers. Page two is the order:
lines, totals, what to confirm, terms, cautions. Customers' words are drawn, never read as markup.
"""

from __future__ import annotations

from collections.abc import Callable

from intake.paper.fonts import SUBSTITUTE
from intake.paper.pen import BRASS, HAIR, HEIGHT, INK, SOFT, WIDTH, Pen
from intake.paper.shapes import draw
from quotes.domain.facts import LineFact, Measured, QuoteFacts, ShaftFacts

LEFT, RIGHT, TOP = 42.5, WIDTH - 42.5, 46.0
ROOM = RIGHT - LEFT
FOOT = HEIGHT - 30.0
_GAP_WIDE = 176.0
_TIGHTEST = 0.8


class Paper(Pen):
    """A pen that says its headings in the paper's language."""

    words: Callable[[str], str] = staticmethod(str)


def quote_pdf(facts: QuoteFacts, say: Callable[[str], str] = str, language: str = "en") -> bytes:
    """The whole paper. ``say`` puts its own headings into ``language``; the facts come said."""
    subject = f"{facts.boat} {facts.reference}"
    pen = Paper(title=say(_title(facts)), author=facts.shop, subject=subject, language=language)
    pen.words = say
    y = _head(pen, facts)
    y = _who(pen, facts, y)
    y = _drawing(pen, facts, y)
    if facts.shaft:
        y = _shaft(pen, facts, facts.shaft, y)
    if facts.notes:
        y = _notes(pen, facts.notes, y)
    _readings(pen, facts.readings, y)
    _foot(pen, facts, 1)
    pen.next_page()
    y = _short_head(pen, facts)
    y = _lines(pen, facts, y)
    y = _lead(pen, facts, y)
    _small_print(pen, facts, y)
    _foot(pen, facts, 2)
    return pen.finished()


def _title(facts: QuoteFacts) -> str:
    return f"Quote {facts.number}, version {facts.version}"


# --- Page one ---------------------------------------------------------------------------


def _head(pen: Paper, facts: QuoteFacts) -> float:
    with pen.tags.leaf("P"):
        pen.say(LEFT, TOP, facts.shop, size=12, bold=True, room=ROOM * 0.55)
    with pen.tags.leaf("H1"):
        draft, number = f"Draft of quote {facts.number}", f"Quote {facts.number}"
        pen.say(
            RIGHT,
            TOP,
            pen.words(draft if facts.draft else number),
            size=15,
            bold=True,
            align="right",
        )
    y = TOP + 14
    with pen.tags.leaf("P"):
        pen.say(
            LEFT,
            y,
            pen.words("Propeller shafts, couplings and strut bearings"),
            size=8,
            colour=SOFT,
        )
    with pen.tags.leaf("P"):
        dates = f"Version {facts.version} · {facts.issued} · valid until {facts.valid_until}"
        pen.say(RIGHT, y, pen.words(dates), size=8.6, align="right")
    pen.rule(LEFT, RIGHT, y + 8, wide=1.4, colour=BRASS)
    return y + 8


def _who(pen: Paper, facts: QuoteFacts, y: float) -> float:
    """For whom, which boat, who measured: three columns, the longest sets the height."""
    customer = f"{facts.customer} ({facts.role})" if facts.role else facts.customer
    order = [pen.words(f"Your order {facts.job}")] if facts.job else []
    columns = (
        ("For", [customer or "—"]),
        ("Boat", [facts.boat or "—", *order, pen.words(f"Our reference {facts.reference}")]),
        ("Measured", [facts.measured_by]),
    )
    wide, lowest = (ROOM - 2 * 16) / 3, y
    for at, (label, said) in enumerate(columns):
        x = LEFT + at * (wide + 16)
        below = _label(pen, pen.words(label), x, y + 15)
        for text in said:
            with pen.tags.leaf("P"):
                below = pen.flow(x, below, text, wide, most=8)
        lowest = max(lowest, below)
    return lowest


def _label(pen: Paper, text: str, x: float, y: float) -> float:
    with pen.tags.leaf("P"):
        pen.say(x, y, text, size=7.4, colour=SOFT)
    return y + 11.5


def _heading(pen: Paper, text: str, y: float, x: float = LEFT, right: float = RIGHT) -> float:
    """A section's heading over a hairline; returns the first baseline below it."""
    with pen.tags.leaf("H2"):
        pen.say(x, y, pen.words(text), size=10, bold=True)
    pen.rule(x, right, y + 4, colour=INK, wide=0.6)
    return y + 16


def _drawing(pen: Paper, facts: QuoteFacts, y: float) -> float:
    if facts.drawing is None:
        return y + 8
    return y + 2 + draw(pen, facts.drawing, LEFT, y + 2, ROOM)


def _shaft(pen: Paper, facts: QuoteFacts, shaft: ShaftFacts, y: float) -> float:
    """The shaft's facts at the left; the gap in words and as a picture at the right."""
    top = y + 16
    split = LEFT + 290
    y = _heading(pen, "Your shaft", top, right=split - 18)
    with pen.tags.leaf("P"):
        pen.say(
            LEFT, y, pen.words("Length, coupling face to end of threads"), size=7.4, colour=SOFT
        )
    with pen.tags.leaf("P"):
        pen.say(LEFT, y + 16, shaft.length, size=14, bold=True)
    y += 31
    for label, value in shaft.rows:
        with pen.tags.leaf("P"):
            pen.say(LEFT, y, label, size=7.8, colour=SOFT, after=" ")
            y = pen.flow(LEFT + 84, y, value, split - 18 - LEFT - 84, size=8.2, leading=1.25)
        y += 1.6
    right = _gap(pen, facts, shaft, split, top)
    return max(y, right)


def _gap(pen: Paper, facts: QuoteFacts, shaft: ShaftFacts, x: float, top: float) -> float:
    if not shaft.gap:
        return top
    y = _heading(pen, "The gap it will leave", top, x=x)
    for text in (*shaft.gap, shaft.rounding):
        with pen.tags.leaf("P"):
            y = pen.flow(x, y, text, RIGHT - x, size=8.2, leading=1.28) + 2
    if facts.gap_drawing:
        y += draw(pen, facts.gap_drawing, x + 10, y - 6, _GAP_WIDE)
    return y


def _notes(pen: Paper, notes: tuple[str, ...], y: float) -> float:
    """What the checks noted, in as many words as fit on four lines."""
    y = _heading(pen, "What we noted", y + 16)
    with pen.tags.leaf("P"):
        return pen.flow(LEFT, y, " ".join(notes), ROOM, size=8.2, leading=1.28, most=4)


_COLUMNS = (
    ("What was measured", 0.0),
    ("As you wrote it", 156.0),
    ("Read as", 262.0),
    ("How", 366.0),
    ("", 456.0),
)


def _readings(pen: Paper, readings: tuple[Measured, ...], y: float) -> None:
    """The customer's own numbers, in rows as close as the room left asks for."""
    y = _heading(pen, "Your numbers", y + 16)
    room = FOOT - 14 - y
    step = min(12.6, max(8.2, room / (len(readings) + 1)))
    size = min(8.2, step * 0.72)
    fits = int(room // step) - 1
    shown = readings if len(readings) <= fits else readings[: fits - 1]
    with pen.tags.group("Table"):
        _cells(pen, [text and pen.words(text) for text, _x in _COLUMNS], y, 7.2, head=True)
        for reading in shown:
            y += step
            cells = [reading.label, reading.typed, reading.both, reading.how, reading.mark]
            _cells(pen, cells, y, size)
            pen.rule(LEFT, RIGHT, y + step * 0.27, wide=0.3)
    if left := len(readings) - len(shown):
        with pen.tags.leaf("P"):
            pen.say(
                LEFT,
                y + step,
                pen.words(f"and {left} more, on your status page"),
                size=size,
                colour=SOFT,
            )


def _cells(pen: Paper, cells: list[str], y: float, size: float, head: bool = False) -> None:
    ends = [x for _text, x in _COLUMNS[1:]] + [ROOM + 6]
    with pen.tags.group("TR"):
        for text, (_head_text, x), end in zip(cells, _COLUMNS, ends, strict=True):
            tag, scope = ("TH", "Column") if head else ("TD", "")
            colour = SOFT if head or text == pen.words("measured") else INK
            with pen.tags.leaf(tag, scope=scope):
                room = end - x - 6
                pen.say(LEFT + x, y, text or " ", size=size, colour=colour, room=room)


# --- Page two ---------------------------------------------------------------------------


def _short_head(pen: Paper, facts: QuoteFacts) -> float:
    with pen.tags.artifact():
        pen.say(LEFT, TOP - 6, facts.shop, size=8.6, bold=True, room=ROOM * 0.4)
        boat = f"{pen.words(_title(facts))} · {facts.boat}"
        pen.say(RIGHT, TOP - 6, boat, size=8.6, align="right", room=ROOM * 0.55)
    pen.rule(LEFT, RIGHT, TOP, wide=1.4, colour=BRASS)
    return TOP


_PRICES = (ROOM - 150, ROOM - 84, ROOM)  # right edges: quantity, unit price, amount


def _lines(pen: Paper, facts: QuoteFacts, y: float) -> float:
    y = _heading(pen, "What it costs", y + 24)
    unit = pen.words(f"Amount, {facts.currency}" if facts.currency else "Amount")
    with pen.tags.group("Table"):
        _price_head(pen, unit, y)
        for line in facts.lines:
            y = _price_line(pen, line, y)
        y += 3
        for label, amount in facts.sums:
            y += 12.4
            _sum(pen, label, amount, y)
        pen.rule(LEFT + 230, RIGHT, y + 5, colour=INK, wide=0.8)
        y += 19
        _sum(
            pen,
            pen.words("Total" if not facts.draft else "Total so far"),
            facts.total,
            y,
            bold=True,
        )
    return y + 6


def _price_head(pen: Paper, unit: str, y: float) -> None:
    with pen.tags.group("TR"):
        with pen.tags.leaf("TH", scope="Column"):
            pen.say(LEFT, y, pen.words("Part or work"), size=7.2, colour=SOFT)
        for text, x in zip(
            (*map(pen.words, ("Quantity", "Unit price")), unit), _PRICES, strict=True
        ):
            with pen.tags.leaf("TH", scope="Column"):
                pen.say(LEFT + x, y, text, size=7.2, colour=SOFT, align="right")


def _price_line(pen: Paper, line: LineFact, y: float) -> float:
    """One line: its words and how it was made in small, then the three numbers."""
    y += 13.2
    room = _PRICES[0] - 56
    with pen.tags.group("TR"):
        with pen.tags.leaf("TD"):
            last = pen.flow(LEFT, y, line.text, room, size=8.4, leading=1.2, most=2)
            how = last if line.how not in ("", line.unit_price) else last - 8.4 * 1.2
            if how == last:
                pen.say(LEFT, how - 0.8, line.how, size=7, colour=SOFT, room=room)
        numbers = (line.quantity, line.unit_price, line.amount)
        for text, x in zip(numbers, _PRICES, strict=True):
            with pen.tags.leaf("TD"):
                bold = line.unit_price == line.amount == text == pen.words("to come")
                pen.say(LEFT + x, y, text, size=8.4, align="right", bold=bold, room=64)
    pen.rule(LEFT, RIGHT, how + 3, wide=0.3)
    return how


def _sum(pen: Paper, label: str, amount: str, y: float, bold: bool = False) -> None:
    size = 10.5 if bold else 8.4
    with pen.tags.group("TR"):
        with pen.tags.leaf("TH", scope="Row"):
            pen.say(LEFT + _PRICES[1], y, label, size=size, bold=bold, align="right")
        with pen.tags.leaf("TD"):
            pen.say(RIGHT, y, amount, size=size, bold=bold, align="right")


def _lead(pen: Paper, facts: QuoteFacts, y: float) -> float:
    y = _heading(pen, "When", y + 20)
    said = [*facts.lead, pen.words(f"To hold this price, accept by {facts.valid_until}.")]
    if facts.draft:
        text = "A price is still to come. We finish this quote by hand and send it to you."
        said = [pen.words(text)]
    with pen.tags.leaf("P"):
        y = pen.flow(LEFT, y, " ".join(said), ROOM, size=8.4)
    with pen.tags.leaf("P"):
        return pen.flow(LEFT, y + 1, facts.offers, ROOM, size=8.4)


def _small_print(pen: Paper, facts: QuoteFacts, y: float) -> None:
    """Confirmations, terms and cautions, set as large as the room left allows."""
    tight = 1.0
    while tight > _TIGHTEST and y + _small_print_height(pen, facts, tight) > FOOT - 14:
        tight -= 0.04
    y = _confirm(pen, facts, y + 8 * tight, tight)
    y = _terms(pen, facts, y, tight)
    _cautions(pen, facts, y, tight)


_COLUMN = (ROOM - 20) / 2


def _small_print_height(pen: Paper, facts: QuoteFacts, tight: float) -> float:
    confirm = _rows_high(pen, facts.confirm, 8.2 * tight, _COLUMN - 14, 3.5 * tight)
    terms = _rows_high(pen, facts.terms, 7.6 * tight, _COLUMN, 2 * tight)
    cautions = _rows_high(pen, (*facts.cautions, facts.limits), 7 * tight, _COLUMN, 2 * tight)
    return 8 * tight + 3 * 26 + 34 + confirm + terms + cautions


def _rows_high(pen: Paper, texts: tuple[str, ...], size: float, room: float, space: float) -> float:
    """How high texts stand in two columns: the higher of the two."""
    return max(
        sum(len(pen.wrap(text, room, size=size)) * size * 1.26 + space for text in column)
        for column in (_halves(texts))
    )


def _halves(texts: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Two columns about as long as each other by their letters."""
    whole, half = sum(map(len, texts)), 0
    for at, text in enumerate(texts):
        half += len(text)
        if half >= whole / 2:
            return texts[: at + 1], texts[at + 1 :]
    return texts, ()


def _columns(
    pen: Paper, texts: tuple[str, ...], y: float, size: float, space: float, box: bool = False
) -> float:
    indent, lowest = (14.0 if box else 0.0), y
    with pen.tags.group("L"):
        for at, column in enumerate(_halves(texts)):
            x, below = LEFT + at * (_COLUMN + 20), y
            for text in column:
                if box:
                    pen.box(x, below, 0.9 * size)
                with pen.tags.group("LI"), pen.tags.leaf("LBody"):
                    below = pen.flow(
                        x + indent, below, text, _COLUMN - indent, size=size, leading=1.26
                    )
                below += space
            lowest = max(lowest, below)
    return lowest


def _confirm(pen: Paper, facts: QuoteFacts, y: float, tight: float) -> float:
    y = _heading(pen, "Please confirm before you accept", y + 10 * tight)
    y = _columns(pen, facts.confirm, y, 8.2 * tight, 3.5 * tight, box=True)
    y += 13 * tight
    with pen.tags.leaf("P"):
        pen.say(LEFT, y, pen.words("Name, date and signature"), size=7.4, colour=SOFT)
    pen.rule(LEFT + 100, RIGHT, y + 1, colour=INK)
    return y + 12 * tight


def _terms(pen: Paper, facts: QuoteFacts, y: float, tight: float) -> float:
    y = _heading(pen, "Terms", y + 12 * tight)
    return _columns(pen, facts.terms, y, 7.6 * tight, 2 * tight)


def _cautions(pen: Paper, facts: QuoteFacts, y: float, tight: float) -> None:
    y = _heading(pen, "With care", y + 12 * tight)
    texts = (*facts.cautions, facts.limits)
    _columns(pen, texts, y, 7 * tight, 2 * tight)


def _foot(pen: Paper, facts: QuoteFacts, page: int) -> None:
    pen.rule(LEFT, RIGHT, FOOT - 4, colour=HAIR)
    said = f"{_title(facts)} · page {page} of 2"
    with pen.tags.artifact():
        pen.say(LEFT, FOOT + 6, pen.words(said), size=7, colour=SOFT)
        short = "No strength, whip or alignment certified; qualified yards and local rules decide."
        pen.say(
            RIGHT, FOOT + 6, pen.words(short), size=7, colour=SOFT, align="right", room=ROOM * 0.6
        )
    if pen.substituted:
        with pen.tags.leaf("P"):
            text = f"A sign that our type does not have is shown as {SUBSTITUTE}."
            pen.say(LEFT, FOOT + 16, pen.words(text), size=7, colour=SOFT)
