"""The tag on a shaft: a label of 60 by 30 mm, all in lines that print sharp. Pure."""

from __future__ import annotations

from intake.paper.pen import INK, MM, SOFT, Pen
from quotes.domain.tag import TagFacts
from quotes.paper.square import draw_square

SIZE = (60 * MM, 30 * MM)
_CODE = 27 * MM  # a phone reads modules from 0.5 mm on
_EDGE = 1.5 * MM


def tag_pdf(facts: TagFacts) -> bytes:
    """The whole label, ready for a label printer."""
    pen = Pen(f"Shaft tag {facts.number}", facts.shop, facts.boat, page=SIZE)
    draw_square(
        pen,
        facts.address,
        _EDGE,
        _EDGE,
        _CODE,
        alt=f"Square code: this shaft's page, {facts.address}",
    )
    x, room = _EDGE + _CODE + 1 * MM, SIZE[0] - 2 * _EDGE - _CODE - 1 * MM
    lines = (
        (facts.shop, 6.0, 1),
        (facts.boat or "boat not named", 8.0, 2),
        (facts.length, 6.8, 1),
        *((words, 6.8, 1) for words in facts.alloy.split(", ")),
        (f"heat {facts.heat}" if facts.heat else "", 6.4, 1),
        (facts.number, 6.4, 1),
    )
    y = 5.0 * MM
    for at, (text, size, most) in enumerate(lines):
        if not text:
            continue
        bold, leading = at in (1, 2), 9.2 / size
        with pen.tags.leaf("H1" if at == 1 else "P"):
            if most > 1:
                y = pen.flow(x, y, text, room, size=size, bold=bold, leading=leading, most=most)
                continue
            pen.say(x, y, text, size=size, bold=bold, room=room, colour=SOFT if at == 0 else INK)
        y += 9.2
    return pen.finished()
