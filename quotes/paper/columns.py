"""Short texts in two columns about as long as each other, with or without boxes to tick."""

from __future__ import annotations

from quotes.paper.page import LEFT, ROOM, Paper

_WIDE = (ROOM - 20) / 2


def two_columns(
    paper: Paper, texts: tuple[str, ...], points: float, space: float, *, box: bool = False
) -> None:
    """A list, read down the left column and then down the right one."""
    size, indent = paper.size(points), 14.0 if box else 0.0
    top = lowest = paper.y + size * 1.26
    with paper.group("L"):
        for at, column in enumerate(_halves(texts)):
            x, base = LEFT + at * (_WIDE + 20), top
            for text in column:
                if box:
                    paper.box(x, base, 0.9 * size)
                with paper.group("LI"):
                    base = paper.para("LBody", x + indent, base, text, _WIDE - indent, size=size,
                                      leading=1.26)  # fmt: skip
                base += space * paper.tight
            lowest = max(lowest, base)
    paper.y = lowest - size


def _halves(texts: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    whole, half = sum(map(len, texts)), 0
    for at, text in enumerate(texts):
        half += len(text)
        if half >= whole / 2:
            return texts[: at + 1], texts[at + 1 :]
    return texts, ()


def terms(paper: Paper) -> None:
    paper.keep(_terms)


def _terms(paper: Paper) -> None:
    paper.skip(13)
    paper.heading("Terms")
    paper.y += 2
    two_columns(paper, (*paper.facts.terms, *paper.facts.money_terms), 7.6, 2)


def cautions(paper: Paper) -> None:
    paper.keep(_cautions)


def _cautions(paper: Paper) -> None:
    paper.skip(13)
    paper.heading("With care")
    paper.y += 2
    two_columns(paper, (*paper.facts.cautions, paper.facts.limits), 7.0, 2)
