"""What could be chosen besides: other metals side by side, and options with boxes to tick."""

from __future__ import annotations

from collections.abc import Callable

from intake.paper.pen import SOFT
from quotes.domain.facts import AlloyFact, OptionFact
from quotes.paper.page import LEFT, RIGHT, ROOM, Paper

_NAMES = 78.0  # points: the column of row names
_WHY, _AMOUNT = 232.0, ROOM - 62.0  # where the reasons of an option begin, and its amount's room
_MOST = 3  # columns of metals


def alloys(paper: Paper) -> None:
    """Two or three metals, one a column."""
    if paper.facts.alloys:
        paper.keep_rows(_alloys)


def _alloys(paper: Paper) -> None:
    facts = paper.facts
    paper.skip(14)
    paper.heading("Which metal")
    paper.y += 3
    with paper.group("Table"):
        _alloy_row(paper, "Metal", lambda one: one.name, head=True)
        told = [(name, value) for name, value in _ROWS if any(map(value, facts.alloys))]
        for row in (*told, ("To have it", lambda one: _to_have_it(paper, one))):
            paper.keep(lambda at, row=row: _alloy_row(at, *row))  # type: ignore[misc]
    size = paper.size(7.2)
    base = paper.y + size * 1.3
    for note in facts.alloy_notes:
        base = paper.para("P", LEFT, base, note, ROOM, size=size, leading=1.22) + 1
    paper.y = base - size * 1.22 + 3


_ROWS: tuple[tuple[str, Callable[[AlloyFact], str]], ...] = (
    ("What it is", lambda one: one.metal),
    ("Whole price", lambda one: one.total),
    ("Against this quote", lambda one: one.difference),
    ("For what", lambda one: one.words),
    ("Standing sea water", lambda one: one.crevice),
    ("Torque margin", lambda one: one.margin),
    ("Supply", lambda one: one.stock),
    ("Mind", lambda one: one.caution),
)


def _to_have_it(paper: Paper, one: AlloyFact) -> str:
    if one.chosen:
        return paper.words("is in this quote")
    return one.barred or paper.words("choose it on your page, and the price follows")


def _alloy_row(
    paper: Paper, name: str, value: Callable[[AlloyFact], str], *, head: bool = False
) -> None:
    """One row, as high as its longest cell."""
    every = paper.facts.alloys[:_MOST]
    wide, size = (ROOM - _NAMES) / len(every), paper.size(8.6 if head else 7.6)
    base = lowest = paper.y + size * 1.2
    with paper.group("TR"):
        paper.line("TH", LEFT, base, paper.words(name), size=paper.size(7.2), colour=SOFT,
                   scope="Row", room=_NAMES - 6)  # fmt: skip
        for at, one in enumerate(every):
            below = paper.para("TH" if head else "TD", LEFT + _NAMES + at * wide, base,
                               value(one) or "—", wide - 10, size=size, leading=1.2,
                               bold=head or name == "Mind", scope="Column" if head else "",
                               most=6)  # fmt: skip
            lowest = max(lowest, below)
    paper.y = lowest - size * 1.2 + size * 0.5
    paper.rule(LEFT, RIGHT, paper.y)


# --- Options ------------------------------------------------------------------------------


def options(paper: Paper) -> None:
    """What is not in the price, each with its own; ticked on paper or on the page."""
    if paper.facts.options:
        paper.keep_rows(_options)
    elif paper.facts.offers:
        paper.keep(_worth_doing)


def _options(paper: Paper) -> None:
    paper.skip(14)
    paper.heading("If you wish, besides")
    with paper.group("Table"):
        _option_head(paper)
        for one in paper.facts.options:
            paper.keep(lambda at, one=one: _option(at, one))  # type: ignore[misc]
    size = paper.size(7.4)
    said = (
        "Nothing here is in the price above unless its box is ticked already. Tick on your status "
        "page and the total follows at once; tick here and we send a new version."
    )
    base = paper.y + size * 1.4
    paper.y = paper.para("P", LEFT, base, paper.words(said), ROOM, size=size) - size * 0.9


def _option_head(paper: Paper) -> None:
    say, base = paper.words, paper.y + 12
    with paper.group("TR"):
        for text, x, align in (
            ("Part or work", LEFT, "left"), ("Why on this boat", LEFT + _WHY, "left"),
            ("Before tax", RIGHT, "right"),
        ):  # fmt: skip
            paper.line("TH", x, base, say(text), size=7.2, colour=SOFT, align=align,
                       scope="Column")  # fmt: skip
    paper.y = base + 2


def _option(paper: Paper, one: OptionFact) -> None:
    size, small = paper.size(8.2), paper.size(7.0)
    base = paper.y + size * 1.25
    if one.tickable:
        paper.box(LEFT, base, size * 0.85, ticked=one.ticked)
    with paper.group("TR"):
        below = paper.para("TD", LEFT + 14, base, one.text, _WHY - 22, size=size, leading=1.2,
                           most=2)  # fmt: skip
        reasons = paper.para("TD", LEFT + _WHY, base, _reason(paper, one), _AMOUNT - _WHY - 6,
                             size=small, colour=SOFT, leading=1.2, most=3)  # fmt: skip
        paper.line("TD", RIGHT, base, one.amount, size=size, align="right", room=60)
    paper.y = max(below - size * 1.2, reasons - small * 1.2) + size * 0.45
    paper.rule(LEFT, RIGHT, paper.y)


def _reason(paper: Paper, one: OptionFact) -> str:
    """Why it fits, how its amount is made, and whether it is chosen already."""
    chosen = paper.words("Chosen: it is in the price above.") if one.ticked else ""
    how = "" if one.how in ("", one.amount) else one.how
    return " ".join(filter(None, [chosen, one.why, f"({how})" if how else ""])) or "—"


def _worth_doing(paper: Paper) -> None:
    """Where no option has a price yet: what is worth thinking of, in one sentence."""
    size = paper.size(8.2)
    base = paper.y + 8 + size
    paper.y = paper.para("P", LEFT, base, paper.facts.offers, ROOM, size=size) - size
