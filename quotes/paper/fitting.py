"""The fitting card that lies with the shaft: one page. Pure: the same facts, the same bytes."""

from __future__ import annotations

from collections.abc import Callable

from intake.paper.pen import SOFT
from quotes.domain.fitting import FittingFacts
from quotes.paper.shop_page import PAGES, TOP, ShopPen, foot, head, rows, section, ticked, to_write
from quotes.paper.square import draw_square

_CODE = 74.0


def fitting_pdf(
    facts: FittingFacts,
    page: str = "a4",
    say: Callable[[str], str] = str,
    language: str = "en",
) -> bytes:
    """The whole card. ``say`` puts its words into ``language``."""
    for size in (9.6, 9.0, 8.4, 7.8, 7.2):
        pen, bottom = _laid_out(facts, page, size, say, language)
        if bottom <= pen.high - 46:
            break
    foot(pen, f"Quote {facts.number} v{facts.version} · {facts.reference} · page 1 of 1")
    return pen.finished()


def _laid_out(
    facts: FittingFacts, page: str, size: float, say: Callable[[str], str], language: str
) -> tuple[ShopPen, float]:
    title = say("Fitting card")
    pen = ShopPen(title, facts.shop, facts.reference, page=PAGES[page], language=language)
    pen.words = say
    under = (facts.boat or say("boat not named"), facts.shaft)
    y = head(pen, facts.shop, "Fitting card", under, room=pen.room - _CODE - 10)
    if facts.address:
        draw_square(
            pen, facts.address, pen.right - _CODE, TOP - 26, _CODE,
            alt=say("Square code of the shaft's own page"),
        )  # fmt: skip
        with pen.tags.leaf("P"):
            words = say("This shaft's own page")
            at = pen.right - _CODE - 6
            pen.say(at, TOP + _CODE - 28, words, size=6.6, align="right", colour=SOFT)
    y = section(pen, "The gap to find", y + 4)
    y = ticked(pen, facts.gap, y, size=size + 0.6, boxes=False)
    y = to_write(pen, ("Gap as found", "Measured by, day"), y + 16) + 8
    y = section(pen, "In this order", y)
    y = ticked(pen, facts.steps, y, size=size)
    y = section(pen, "Alignment and tightening", y + 6)
    y = rows(pen, facts.alignment, y, size=size)
    y = to_write(pen, ("Propeller nut", "Coupling bolts", "Yard, day"), y + 12) + 8
    y = section(pen, "Mind", y)
    return pen, ticked(pen, facts.cautions, y, size=size - 0.4, boxes=False)
