"""What it costs, line by line, with how each amount was made; and the sums below."""

from __future__ import annotations

from intake.paper.pen import INK, SOFT
from quotes.domain.facts import LineFact
from quotes.paper.page import LEFT, RIGHT, ROOM, Paper

_EDGES = (ROOM - 150, ROOM - 84, ROOM)  # right edges: quantity, unit price, amount
_TEXT = _EDGES[0] - 56


def prices(paper: Paper) -> None:
    """The table stays on one page where a page holds it."""
    if paper.facts.lines:
        paper.keep_rows(_table)


def _table(paper: Paper) -> None:
    paper.skip(14)
    paper.heading("What it costs")
    with paper.group("Table"):
        _head(paper)
        for line in paper.facts.lines:
            paper.keep(lambda at, line=line: _line(at, line))  # type: ignore[misc]
        paper.keep(_sums)


def _head(paper: Paper) -> None:
    facts, say = paper.facts, paper.words
    unit = say(f"Amount, {facts.currency}" if facts.currency else "Amount")
    base = paper.y + 12
    with paper.group("TR"):
        paper.line("TH", LEFT, base, say("Part or work"), size=7.2, colour=SOFT, scope="Column")
        for text, x in zip((say("Quantity"), say("Unit price"), unit), _EDGES, strict=True):
            paper.line("TH", LEFT + x, base, text, size=7.2, colour=SOFT, align="right",
                       scope="Column")  # fmt: skip
    paper.y = base + 2


def _line(paper: Paper, line: LineFact) -> None:
    """One line: its words and how it was made in small, then the three numbers."""
    size = paper.size(8.4)
    base = paper.y + size * 1.25
    with paper.group("TR"):
        with paper.group("TD"):
            paper.y = _words(paper, line, base, size)
        for text, x in zip((line.quantity, line.unit_price, line.amount), _EDGES, strict=True):
            bold = line.unit_price == line.amount == text == paper.words("to come")
            paper.line("TD", LEFT + x, base, text, size=size, align="right", bold=bold, room=62)
    paper.rule(LEFT, RIGHT, paper.y)


def _words(paper: Paper, line: LineFact, base: float, size: float) -> float:
    """The line's words and, in small below, how its amount was made; returns the lower edge."""
    below = paper.para("P", LEFT, base, line.text, _TEXT, size=size, leading=1.2, most=2)
    last = below - size * 1.2
    if line.how in ("", line.unit_price):
        return last + size * 0.42
    small = paper.size(7.0)
    how = paper.para("P", LEFT, last + small * 1.25, line.how, _TEXT, size=small, colour=SOFT,
                     leading=1.2, most=2)  # fmt: skip
    return how - small * 1.2 + small * 0.45


def _sums(paper: Paper) -> None:
    facts, size = paper.facts, paper.size(8.4)
    paper.y += 3
    for label, amount in facts.sums:
        paper.y += size * 1.46
        _sum(paper, label, amount, size)
    paper.rule(LEFT + 230, RIGHT, paper.y + 4.5, colour=INK, wide=0.8)
    paper.y += 18
    _sum(paper, paper.words("Total so far" if facts.draft else "Total"), facts.total, 10.5,
         bold=True)  # fmt: skip
    paper.y += 4


def _sum(paper: Paper, label: str, amount: str, size: float, *, bold: bool = False) -> None:
    with paper.group("TR"):
        paper.line("TH", LEFT + _EDGES[1], paper.y, label, size=size, bold=bold, align="right",
                   scope="Row", room=_EDGES[1])  # fmt: skip
        paper.line("TD", RIGHT, paper.y, amount, size=size, bold=bold, align="right", room=80)
