"""When it comes and where it goes; what to confirm and sign; the way to the status page."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby

import segno

from intake.paper.fonts import BOLD, width
from intake.paper.pen import HEIGHT, INK, SOFT
from quotes.paper.columns import two_columns
from quotes.paper.page import LEFT, ROOM, Paper

HALF = (ROOM - 20) / 2
_QUIET = 4  # modules of white all round (ISO/IEC 18004)
_CODE = 66.0  # points: side of the square code with its white edge


def when(paper: Paper) -> None:
    paper.keep(_when)


def _when(paper: Paper) -> None:
    """The days at the left, the tube and who receives it at the right."""
    facts, say = paper.facts, paper.words
    held = say(f"To hold this price, accept by {facts.valid_until}.")
    days = [*facts.lead, *facts.needed, held]
    if facts.draft:
        days = [say("A price is still to come. We finish this quote by hand and send it to you.")]
    paper.skip(14)
    top = paper.y
    _sentences(paper, "When", days, LEFT, HALF if facts.delivery else ROOM)
    below, paper.y = paper.y, top
    if facts.delivery:
        sent_to = [say(f"To: {facts.deliver_to}")] if facts.deliver_to else []
        _sentences(paper, "Delivery", [*facts.delivery, *sent_to], LEFT + HALF + 20, HALF)
    paper.y = max(below, paper.y)


def _sentences(paper: Paper, title: str, texts: list[str], x: float, room: float) -> None:
    paper.heading(title, x=x, right=x + room)
    size = paper.size(8.2)
    base = paper.y + 12
    for text in texts:
        base = paper.para("P", x, base, text, room, size=size, own=text.startswith("To:")) + 1
    paper.y = base - size


# --- Confirming ---------------------------------------------------------------------------


def confirm(paper: Paper) -> None:
    paper.keep(_confirm)


def _confirm(paper: Paper) -> None:
    """Boxes for what we took for granted, then the name, and the square code beside it."""
    paper.skip(14)
    paper.heading("Please confirm before you accept")
    paper.y += 3
    two_columns(paper, paper.facts.confirm, 8.2, 3.0, box=True)
    top = paper.y + 6
    if paper.facts.address:
        _way_to_the_page(paper, top)
        _signature(paper, LEFT + HALF + 20, HALF, top)
        paper.y = top + _CODE
    else:
        _signature(paper, LEFT, ROOM, top)
        paper.y = top + 66


def _signature(paper: Paper, x: float, room: float, top: float) -> None:
    texts = ("Name and date", "Signature, or the code word you agreed with us")
    for at, text in enumerate(texts):
        base = top + 24 + at * 30
        paper.rule(x, x + room, base, colour=INK, wide=0.6)
        paper.line("P", x, base + 9, paper.words(text), size=7.2, colour=SOFT, room=room)


def _way_to_the_page(paper: Paper, top: float) -> None:
    """The square code of the status page and its address in letters."""
    address, say = paper.facts.address, paper.words
    _code(paper, address, LEFT - 6, top)
    x, room = LEFT + _CODE, HALF - _CODE
    base = top + 12
    base = paper.para("P", x, base, say("Accept, ask or follow it on your status page:"), room,
                      size=7.6)  # fmt: skip
    for part in _parts(address, room):
        base = paper.para("P", x, base + 1, part, room, size=7.6, bold=True, leading=1.2, most=2,
                          own=True)  # fmt: skip
    said = say("Whoever has this address can open it: keep this paper to yourself.")
    paper.para("P", x, base + 2, said, room, size=6.8, colour=SOFT)
    if paper.pen:
        box = (LEFT, HEIGHT - top - _CODE, LEFT + HALF, HEIGHT - top)
        paper.pen.canvas.linkURL(address, box, relative=0, thickness=0)


def _parts(address: str, room: float) -> list[str]:
    """An address too long for one line goes on after its last slash: what is copied is one word."""
    if width(address, BOLD, 7.6) <= room:
        return [address]
    before, slash, key = address.rpartition("/")
    return [part for part in (before + slash, key) if part]


def _code(paper: Paper, address: str, x: float, y: float) -> None:
    if paper.pen is None:
        return
    size, runs = _dark_runs(address)
    module = _CODE / (size + 2 * _QUIET)
    low = HEIGHT - y - _CODE
    bbox = tuple(round(edge, 2) for edge in (x, low, x + _CODE, low + _CODE))
    alt = paper.words(f"Square code that opens your status page, {address}")
    with paper.pen.tags.leaf("Figure", alt=alt, bbox=bbox):
        canvas = paper.pen.canvas
        canvas.setFillColor(INK)
        path = canvas.beginPath()
        for row, first, count in runs:
            bottom = HEIGHT - y - (row + _QUIET + 1) * module
            path.rect(x + (first + _QUIET) * module, bottom, count * module, module)
        canvas.drawPath(path, stroke=0, fill=1)
        paper.pen.colour = None


@lru_cache(maxsize=16)
def _dark_runs(text: str) -> tuple[int, tuple[tuple[int, int, int], ...]]:
    """Modules on a side, and the dark runs as (row, first, how many). Error correction M."""
    rows = segno.make(text, error="m", boost_error=False, micro=False).matrix
    found = []
    for number, row in enumerate(rows):
        found += [(number, first, count) for first, count in _runs([bool(one) for one in row])]
    return len(rows), tuple(found)


def _runs(row: list[bool]) -> Iterator[tuple[int, int]]:
    """Where each run of dark modules begins, and how long it is."""
    at = 0
    for dark, run in groupby(row):
        count = len(list(run))
        if dark:
            yield at, count
        at += count
