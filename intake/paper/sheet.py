"""The measuring sheet: one page to take under the boat. Pure: the same facts, the same bytes."""

from __future__ import annotations

from intake.paper.field import HIGH, WIDE, Field
from intake.paper.lettered import lettered
from intake.paper.pen import BRASS, INK, MM, SOFT
from intake.paper.qr import draw_code
from intake.paper.shapes import draw
from intake.paper.sheet_facts import Choice, Measure, SheetFacts, Tick

_CODE = 22.5  # mm the square code is wide
_NAME, _BOX, _UNIT, _WAYS, _CANNOT = 7.0, 62.0, 94.5, 104.0, 183.5  # mm: columns of the table
_LINE, _LOW = 3.35, 9.7  # mm from line to line of ticks; a row's least height
_SMALL = 6.4  # points


_FOOT = HIGH - 3.6  # mm: where the last line may stand


def sheet_pdf(facts: SheetFacts, *, size: str, language: str = "en") -> bytes:
    """The whole sheet; ``size`` is a4 or letter. Long languages get their questions set smaller."""
    for lines in (3, 2, 1):
        field = Field(
            facts.title, author=facts.shop, subject=facts.lead, size=size, say=str,
            language=language,
        )  # fmt: skip
        if _fill(field, facts, lines) <= _FOOT:
            break
    return field.pen.finished()


def _fill(field: Field, facts: SheetFacts, lines: int) -> float:
    y = _head(field, facts)
    y = _who(field, facts, y)
    y = _drawing(field, facts, y)
    y = _table(field, facts, y, lines)
    y = _choices(field, facts.choices, y)
    field.words(0, HIGH - 0.6, facts.foot, WIDE, size=_SMALL, colour=SOFT, most=1)
    return y


# --- Head: what this is, the cautions, the code -----------------------------------------


def _head(field: Field, facts: SheetFacts) -> float:
    room = WIDE - _CODE - 34
    y = field.words(0, 5, facts.title, room, tag="H1", size=14, bold=True, most=1) + 0.4
    y = field.words(0, y, facts.lead, room, size=7.4, most=2) + 0.6
    for line in facts.cautions:
        y = field.words(0, y, line, room, size=7.0, bold=True, most=2) + 0.5
    words = facts.code.words
    left = WIDE - _CODE
    draw_code(field, facts.code.link, left, 0.0, _CODE, alt=words[0])
    below = 3.0
    for number, line in enumerate((*words, facts.code.link)):
        below = field.words(left - 33, below, line, 32, size=_SMALL, bold=number == 0, most=5) + 0.4
    return max(y, _CODE + 1.5)


def _who(field: Field, facts: SheetFacts, y: float) -> float:
    """Names to write on a line, three a row, then what is ticked about the boat."""
    wide = (WIDE - 8) / 3
    for number, (label, said) in enumerate(facts.who):
        x = number % 3 * (wide + 4)
        base = y + 4.4 + number // 3 * 6.6
        _blank(field, x, base, wide, label, said)
    y += 4.4 + (len(facts.who) - 1) // 3 * 6.6 + 1.4
    return _choices(field, facts.about, y)


def _blank(field: Field, x: float, base: float, wide: float, label: str, said: str) -> None:
    pen = field.pen
    left, bottom = (field.left + x) * MM, (field.top + base) * MM
    with pen.tags.leaf("P"):
        taken = pen.say(left, bottom, label, size=_SMALL, colour=SOFT, after=" ") / MM + 1.4
        if said:
            room = (wide - taken) * MM
            pen.say(left + taken * MM, bottom, said, size=8.6, colour=BRASS, room=room)
    with field.decoration():
        field.line(x + taken, base + 0.8, x + wide, base + 0.8)


def _drawing(field: Field, facts: SheetFacts, y: float) -> float:
    letters = {one.slug: one.letter for one in facts.measures}
    drawing = lettered(facts.stack, letters, facts.drawing_words)
    left, top = (field.left + 0.4) * MM, (field.top + y) * MM  # wide lines have half a width more
    return y + draw(field.pen, drawing, left, top, (WIDE - 0.8) * MM) / MM + 1.0


# --- The lengths ------------------------------------------------------------------------


def _table(field: Field, facts: SheetFacts, y: float, lines: int) -> float:
    y += 2.6
    with field.pen.tags.group("Table"):
        with field.pen.tags.group("TR"):
            for x, head in zip((0.0, _BOX, _WAYS, _CANNOT), facts.heads, strict=True):
                with field.pen.tags.leaf("TH", scope="Column"):
                    _say(field, x, y, head, colour=SOFT)
        y += 1.0
        for measure in facts.measures:
            y = _measure(field, measure, y, lines)
    return y + 0.8


def _measure(field: Field, one: Measure, y: float, lines: int) -> float:
    """One row: letter and question, box with its units, ways to tick, and the way out."""
    tags, top = field.pen.tags, y
    with field.decoration():
        field.line(0, y, WIDE, y, "hair")
    with tags.group("TR"):
        with tags.leaf("TH", scope="Row"):
            _say(field, 0.4, y + 4.6, one.letter, size=11, bold=True, after=" ")
            _say(field, _NAME, y + 3.8, one.name, size=7.8, bold=True, after=" ",
                 room=_BOX - _NAME - 2)  # fmt: skip
            y = _flow(field, _NAME, y + 6.6, one.ask, _BOX - _NAME - 2, most=lines)
        with tags.leaf("TD"):
            if one.hidden:
                _flow(field, _BOX + 1, top + 3.6, one.hidden, 28.5, most=3)
            elif one.value:
                _say(field, _BOX + 1.5, top + 6.8, one.value, size=11, colour=BRASS, room=28)
            for number, tick in enumerate(one.unit):
                _tick(field, _UNIT, top + 4.0 + 4.2 * number, tick)
        with tags.leaf("TD"):
            low = _ticks(field, _WAYS, top + 3.6, one.ways, _CANNOT - _WAYS - 1)
            if one.written:
                _written(field, one.written, top + 6.6)
        with tags.leaf("TD"):
            if one.cannot:
                _tick(field, _CANNOT, top + 3.6, one.cannot, WIDE - _CANNOT)
    below = max(y - 2.1, top + _LOW, low + 1.4)
    _frames(field, one, top)
    return below


def _frames(field: Field, one: Measure, top: float) -> None:
    """The box to write in. (The boxes to tick were drawn with their words.)"""
    with field.decoration():
        x1, x2, y1, y2 = _BOX, _UNIT - 1.6, top + 1.1, top + 8.8
        field.run([(x1, y1), (x2, y1), (x2, y2), (x1, y2)], "strong", closed=True)


def _written(field: Field, label: str, y: float) -> None:
    """A line to write on, where there is nothing to tick."""
    taken = _say(field, _WAYS, y, label, colour=SOFT, after=" ") + 1.5
    field.line(_WAYS + taken, y + 0.8, _CANNOT - 2, y + 0.8)


# --- What is ticked rather than measured ------------------------------------------------


def _choices(field: Field, choices: tuple[Choice, ...], y: float) -> float:
    """A line each; two short ones in a row share one."""
    left = 0.0
    for choice in choices:
        low = _choice(field, choice, left, y)
        if choice.half and not left:
            left = WIDE / 2
        else:
            left, y = 0.0, low + 1.0
    return y


def _choice(field: Field, choice: Choice, x: float, y: float) -> float:
    """Its name, then what can be ticked and written."""
    named = 27.0
    room = WIDE / 2 if choice.half else WIDE
    blank = 52.0
    with field.pen.tags.leaf("P"):
        _say(field, x, y + 3.6, choice.name, size=7.0, bold=True, after=" ", room=named - 1.5)
        ticks = room - named - blank * len(choice.blanks)
        low = _ticks(field, x + named, y + 3.6, choice.ticks, ticks)
    for number, (label, said) in enumerate(choice.blanks):
        at = WIDE - blank * (len(choice.blanks) - number)
        _blank(field, at + 2, y + 3.6, blank - 2, label, said)
    return low


# --- Words and ticks within a tag -------------------------------------------------------


def _say(field: Field, x: float, y: float, text: str, *, size: float = _SMALL,
         room: float = 0.0, **how: object) -> float:  # fmt: skip
    """One line; how wide it came out, in mm."""
    corner = ((field.left + x) * MM, (field.top + y) * MM)
    return field.pen.say(*corner, text, size=size, room=room * MM, **how) / MM  # type: ignore[arg-type]


def _flow(field: Field, x: float, y: float, text: str, room: float, *, most: int) -> float:
    corner = ((field.left + x) * MM, (field.top + y) * MM)
    below = field.pen.flow(*corner, text, room * MM, size=_SMALL, most=most, leading=1.24)
    return below / MM - field.top


def _tick(field: Field, x: float, y: float, tick: Tick, room: float = 0.0) -> float:
    """A box to tick with its words, crossed if the draft ticked it; how wide, in mm."""
    side = 2.5
    field.run([(x, y - side + 0.3), (x + side, y - side + 0.3), (x + side, y + 0.3),
               (x, y + 0.3)], "mark", closed=True)  # fmt: skip
    if tick.on:
        _say(field, x + 0.1, y + 0.1, "×", size=8.5, bold=True, colour=BRASS, after=" ")
    return side + 0.9 + _say(field, x + side + 0.9, y, tick.words, after=" ", colour=INK,
                             room=room - side - 0.9 if room else 0.0)  # fmt: skip


def _ticks(field: Field, x: float, y: float, ticks: tuple[Tick, ...], room: float) -> float:
    """Boxes in lines as they fit; the last baseline."""
    at = x
    for tick in ticks:
        wide = field.wide(tick.words, _SMALL) + 3.4
        if at > x and at + wide > x + room:
            at, y = x, y + _LINE
        at += _tick(field, at, y, tick, room) + 2.0
    return y
