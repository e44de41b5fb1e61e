"""Whose boat it is, the drawing, the shaft and the gap it will leave."""

from __future__ import annotations

from intake.paper.fonts import SUBSTITUTE
from intake.paper.pen import BRASS, HEIGHT, SOFT
from intake.paper.shapes import draw
from quotes.domain.facts import QuoteFacts, ShaftFacts
from quotes.paper.page import LEFT, RIGHT, ROOM, TOP, Paper
from quotes.paper.unset import not_whole

_GAP_WIDE = 176.0
_SPLIT = LEFT + 290  # the shaft stands left of it, the gap right
_CAUTION = "No strength, whip or alignment certified; qualified yards and local rules decide."


def title(facts: QuoteFacts) -> str:
    return f"Quote {facts.number}, version {facts.version}"


def head(paper: Paper) -> None:
    """The desk at the left; number, version and dates at the right."""
    facts, say = paper.facts, paper.words
    base = TOP + 6
    paper.line("P", LEFT, base, facts.shop, size=12, bold=True, room=ROOM * 0.5)
    named = f"Draft of quote {facts.number}" if facts.draft else f"Quote {facts.number}"
    paper.bookmark(say(named), TOP - 10)
    paper.line("H1", RIGHT, base, say(named), size=15, bold=True, align="right", room=ROOM * 0.48)
    what = say("Propeller shafts, couplings and strut bearings")
    paper.line("P", LEFT, base + 14, what, size=8, colour=SOFT)
    dates = f"Version {facts.version} · {facts.issued} · valid until {facts.valid_until}"
    paper.line("P", RIGHT, base + 14, say(dates), align="right")
    paper.rule(LEFT, RIGHT, base + 22, wide=1.4, colour=BRASS)
    paper.y = base + 25


def foot(paper: Paper) -> None:
    """The foot of the page that ends."""
    facts, say, base = paper.facts, paper.words, HEIGHT - 24
    paper.rule(LEFT, RIGHT, base - 10, wide=0.5)
    with paper.artifact():
        if pen := paper.pen:
            said = f"{title(facts)} · page {paper.page} of {paper.pages}"
            pen.say(LEFT, base, say(said), size=7, colour=SOFT)
            pen.say(RIGHT, base, say(_CAUTION), size=7, colour=SOFT, align="right",
                    room=ROOM * 0.6)  # fmt: skip


def running_head(paper: Paper) -> None:
    """What stands over every page after the first."""
    facts = paper.facts
    with paper.artifact():
        if pen := paper.pen:
            boat = f"{paper.words(title(facts))} · {boat_words(paper)}"
            pen.say(LEFT, TOP - 8, facts.shop, size=8.6, bold=True, room=ROOM * 0.4)
            pen.say(RIGHT, TOP - 8, boat, size=8.6, align="right", room=ROOM * 0.55)
    paper.rule(LEFT, RIGHT, TOP - 2, wide=1.4, colour=BRASS)
    paper.y = TOP + 4


def boat_words(paper: Paper) -> str:
    """The boat and its side; or that she is not named."""
    facts = paper.facts
    if facts.boat_named:
        return paper.shown(facts.boat, own=True)
    return ", ".join(filter(None, [paper.words("Boat not named"), facts.boat]))


def who(paper: Paper) -> None:
    """For whom, which boat, who measured: three columns, the longest sets the height."""
    facts, say = paper.facts, paper.words
    customer = [facts.customer or say("Name not given"), *filter(None, [facts.role])]
    order = say(f"Your order {facts.job}") if facts.job else say("No order number of yours given")
    boat = facts.boat if facts.boat_named else boat_words(paper)
    columns = (
        ("For", customer),
        ("Boat", [boat, order, say(f"Our reference {facts.reference}")]),
        ("Measured", [facts.measured_by]),
    )
    wide, lowest = (ROOM - 2 * 16) / 3, paper.y
    for at, (label, texts) in enumerate(columns):
        x = LEFT + at * (wide + 16)
        base = paper.label(x, label)
        for text in texts:
            base = paper.para("P", x, base, text, wide, size=paper.size(8.6), most=8, own=True)
        lowest = max(lowest, base - 8)
    paper.y = lowest
    _not_set(paper)


def _not_set(paper: Paper) -> None:
    """Which text our letters could not set, and where its true spelling stands."""
    names = not_whole(paper.facts)
    if not names:
        return
    say = paper.words
    listed = ", ".join(map(say, names))
    note = (
        f"Not whole on this paper: {listed}. Our letters lack some of its signs ({SUBSTITUTE} "
        f"stands for one). The true spelling is on your status page."
    )
    paper.y = paper.para("P", LEFT, paper.y + 10, say(note), ROOM, size=7.4, bold=True) - 7


def drawing(paper: Paper) -> None:
    """The drive line, as wide as the page."""
    facts = paper.facts
    if facts.drawing is None:
        return
    paper.skip(4)
    paper.bookmark(paper.words("Drawing"), paper.y)
    if paper.pen:
        draw(paper.pen, facts.drawing, LEFT, paper.y, ROOM)
    paper.y += facts.drawing.height_mm * ROOM / facts.drawing.width_mm
    if facts.scale:
        said = paper.words(facts.scale)
        paper.line("P", RIGHT, paper.y - 3.4, said, size=8.2, align="right", room=ROOM * 0.45)


def shaft_and_gap(paper: Paper) -> None:
    """The shaft's facts at the left; the gap in words and as a picture at the right."""
    shaft = paper.facts.shaft
    if shaft is None:
        return
    paper.skip(13)
    top = paper.y
    right_side = bool(shaft.gap)
    _shaft(paper, shaft, _SPLIT - 18 if right_side else RIGHT)
    below, paper.y = paper.y, top
    if right_side:
        _gap(paper, shaft)
    paper.y = max(below, paper.y)


def _shaft(paper: Paper, shaft: ShaftFacts, right: float) -> None:
    paper.heading("Your shaft", right=right)
    label = paper.words("Length, coupling face to end of threads")
    paper.line("P", LEFT, paper.y + 11, label, size=7.4, colour=SOFT, room=right - LEFT)
    paper.line("P", LEFT, paper.y + 26, shaft.length, size=14, bold=True, room=right - LEFT)
    base, size = paper.y + 41, paper.size(8.2)
    for name, value in shaft.rows:
        paper.line("P", LEFT, base, name, size=size * 0.95, colour=SOFT, room=80)
        base = paper.para("P", LEFT + 84, base, value, right - LEFT - 84, size=size, leading=1.25)
        base += 1.6 * paper.tight
    paper.y = base - size


def _gap(paper: Paper, shaft: ShaftFacts) -> None:
    paper.heading("The gap it will leave", x=_SPLIT)
    base, size = paper.y + 12, paper.size(8.2)
    for text in filter(None, (*shaft.gap, shaft.rounding)):
        base = paper.para("P", _SPLIT, base, text, RIGHT - _SPLIT, size=size) + 2
    paper.y = base - size
    picture = paper.facts.gap_drawing
    if picture:
        if paper.pen:
            draw(paper.pen, picture, _SPLIT + 10, paper.y, _GAP_WIDE)
        paper.y += picture.height_mm * _GAP_WIDE / picture.width_mm


def notes(paper: Paper) -> None:
    """What the checks noted and the customer should know."""
    if not paper.facts.notes:
        return
    paper.skip(13)
    paper.heading("What we noted")
    size = paper.size(8.2)
    base = paper.y + 12
    for note in paper.facts.notes:
        base = paper.para("P", LEFT, base, note, ROOM, size=size) + 1.5
    paper.y = base - size
