"""The packing list: one page to tick off and lay into tube or parcel. Pure, the same bytes."""

from __future__ import annotations

from intake.paper.pen import INK
from quotes.domain.packing import PackingFacts
from quotes.paper.shop_page import (
    EDGE,
    PAGES,
    ShopPen,
    foot,
    head,
    rows,
    section,
    ticked,
    to_write,
)


def packing_pdf(facts: PackingFacts, page: str = "a4") -> bytes:
    """The whole paper. ``page`` is a4 or letter; a long list is set closer, never on a second."""
    for size in (10.0, 9.4, 8.8, 8.2, 7.6):
        pen, bottom = _laid_out(facts, page, size)
        if bottom <= pen.high - 46:
            break
    foot(pen, f"Quote {facts.number} v{facts.version} · {facts.reference} · page 1 of 1")
    return pen.finished()


def _laid_out(facts: PackingFacts, page: str, size: float) -> tuple[ShopPen, float]:
    title = f"Packing list, quote {facts.number}, version {facts.version}"
    pen = ShopPen(title, facts.shop, f"{facts.boat} {facts.reference}", page=PAGES[page])
    number = f"Quote {facts.number}, version {facts.version} · {facts.reference}"
    order = f"Your order {facts.job} · {number}" if facts.job else number
    y = head(pen, facts.shop, "Packing list", (facts.boat or "boat not named", order))
    y = rows(pen, _to(facts), y, size=size)
    y = section(pen, "Tube" if facts.tube else "Parcel", y + 8)
    y = rows(pen, _tube(facts), y, size=size)
    y = _things(pen, facts, section(pen, "What is in it", y + 8), size)
    y = section(pen, "Before it is closed (common practice)", y + 8)
    y = ticked(pen, facts.handling, y, size=size)
    y = section(pen, "Mind", y + 8)
    y = ticked(pen, facts.cautions, y, size=size, boxes=False)
    closed = "Tube closed by" if facts.tube else "Parcel closed by"
    return pen, to_write(pen, ("Packed by, name and date", "Weighed, lb", closed), y + 22)


def _to(facts: PackingFacts) -> tuple[tuple[str, str], ...]:
    where = facts.ship_to or "not told: the desk writes it here"
    return (
        ("Goes to", facts.customer or "a customer without a name"),
        ("Place", where),
        ("Address", "_" * 44),
    )


def _tube(facts: PackingFacts) -> tuple[tuple[str, str], ...]:
    """Of a parcel of parts nothing but its weight."""
    shaft = (
        ("Tube length", facts.tube),
        ("Shaft", f"{facts.length}, coupling face to end of threads"),
    )
    rest = (("Weight", facts.weight), ("Lifting", facts.lifting))
    return (*shaft, *rest) if facts.tube else rest


def _things(pen: ShopPen, facts: PackingFacts, y: float, size: float) -> float:
    """A table: box, how many, what."""
    with pen.tags.group("Table"):
        for thing in facts.things:
            pen.box(EDGE, y, 0.82 * size)
            with pen.tags.group("TR"):
                with pen.tags.leaf("TD"):
                    pen.say(EDGE + 16, y, thing.quantity, size=size, bold=True)
                with pen.tags.leaf("TD"):
                    y = pen.flow(EDGE + 44, y, thing.text, pen.room - 44, size=size, leading=1.25)
            pen.rule(EDGE, pen.right, y - 0.85 * size, wide=0.3, colour=INK)
            y += 0.3 * size
    return y + 4
