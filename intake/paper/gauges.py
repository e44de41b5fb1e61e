"""Three pages of paper gauges, true to scale. Pure: the same size and language, the same bytes."""

from __future__ import annotations

from math import pi

from intake.paper.bars import head, key, proof
from intake.paper.comb import comb_cards
from intake.paper.field import Field, Say
from intake.paper.target import Target
from intake.paper.wedge import wedge
from intake.paper.wrap_strip import LEAD, PAPER, WING, Strip, wound


def gauges_pdf(*, shop: str, size: str, say: Say = str, language: str = "en") -> bytes:
    """The whole paper; ``size`` is a4 or letter."""
    _ = say
    field = Field(
        _("Paper gauges"),
        author=shop,
        subject=_("Wrap strip, flange target, thread comb and gap wedge, true to scale"),
        size=size,
        say=say,
        language=language,
    )
    _strip_page(field)
    field.next_page()
    _target_page(field)
    field.next_page()
    _wedge_page(field)
    return field.pen.finished()


def _strip_page(field: Field) -> None:
    _ = field.say
    x, room = 42.0, 152.0
    Strip(field, WING + 1.0, LEAD + pi * PAPER + 1.0).draw()
    y = head(field, 1, _("wrap strip, the shaft's diameter"), x, room)
    y = field.steps(x, y + 2, [
        _("Cut the strip out. Clean the shaft where it is bright and unworn."),
        _("Print outside, lay the head on the shaft and hold it by a wing. Wind the strip once "
          "round, square to the shaft, over the head's middle, and pull it tight: the wings look "
          "out above and below."),
        _("Read each scale at the line on its wing: the upper edge in inches, every mark 1/64; "
          "the lower in millimetres, every mark 1/2. Turn the page to the left to see it so."),
        _("Cannot see it there? Prick a pin through both layers just inside the strip's edge, in "
          "line with the line on the wing. Lay the strip flat: the lower hole must lie in its "
          "ring, else prick again; the upper hole is read on the scale."),
        _("Do it twice, at two places. Write both down, and “paper strip” as the way."),
    ], room)  # fmt: skip
    y = _heading(field, _("What it can do, and what not"), x, y + 3, room)
    for text in (
        _("Standard uncertainty 0.006 in (0.15 mm): two readings in three lie within it. That "
          "tells 25 mm from 1 in, which are 0.016 in (0.4 mm) apart; it does not tell a worn "
          "journal from a new one, and no fit can be made by it."),
        _("The marks stand at π times the diameter from the scale's 0. Paper lies round the shaft "
          "with its middle and reads its own thickness too much; so the line to read at stands "
          "0.31 mm before the 0, which is π times 0.10 mm: common office paper, 80 g/m² or 20 lb. "
          "Card reads large; do not use it for this strip."),
        _("Slack, paint, growth and a strip wound askew all read large, never small. Damp paper "
          "stretches: keep it dry, print a new one."),
    ):  # fmt: skip
        y = field.words(x, y, text, room) + 0.9
    wound(field, x + 34, y + 12)
    key(field, x + 24, 238)
    proof(field, x + 24, 259, room - 24, upright=(x + 9, 159))


def _target_page(field: Field) -> None:
    _ = field.say
    y = head(field, 2, _("target, the flange and its bolts"), 0, 186)
    field.steps(0, y + 1, [
        _("Coupling off: lay its flange face down on the target until its rim runs even with a "
          "circle all round, and put a pencil through each bolt hole."),
        _("Lift it. Wide circles are flanges. Circles of dashes and dots are the bolt circles that "
          "are met with them; the spokes marked 3, 4 or 6 tell whether the holes are evenly "
          "spaced. Between circles read the scale of diameters."),
        _("Coupling on: cut out a hole for hub or shaft and one slit to the rim, put the paper "
          "round behind the flange, and read the circle that just looks out."),
    ], 186)  # fmt: skip
    Target(field).draw()
    text = _(
        "Bolt to next bolt, centre to centre, gives the bolt circle too: times 1.155 for 3 bolts, "
        "1.414 for 4, 2 for 6. A paper target is as good as a tape, standard uncertainty 0.04 in "
        "(1 mm): it tells 4 in from 100 mm only with a true print, and 4 in from 102 mm not at "
        "all. It says nothing of pilot, thickness or bolt thread."
    )
    field.words(112, 238.5, text, 68, size=7.4, most=7)
    proof(field, 0, 259, 106, upright=(192, 161))


def _wedge_page(field: Field) -> None:
    _ = field.say
    y = head(field, 3, _("gap wedge and thread comb"), 0, 186)
    y = field.steps(0, y + 1, [
        _("Cut along the wide lines, fold along the dashes and dots, glue the flap behind; better "
          "still, glue it to a piece of thin card."),
        _("Shaft pushed hard forward, coupling bolted up. Beside the shaft, push the wedge into "
          "the gap, thin end first, its edges on the strut's metal and on the hub's front face, "
          "until both just touch. Not on rubber, not on a blade."),
        _("Read where it is as high as the gap: inches on the slope, every mark 1/32; millimetres "
          "on the fold. Standard uncertainty 0.03 in (0.8 mm): paper gives way. A drill's shank "
          "that just fits is better; write what you used."),
    ], 186)  # fmt: skip
    y = wedge(field, 0, y + 35) + 9
    y = _heading(field, _("Thread comb, for the propeller nut's thread"), 0, y, 176)
    text = _(
        "Cut a card out and hold its edge along the thread, crests to crests, over as much thread "
        "as there is. It is the right one when every tooth agrees from end to end. A comb of paper "
        "names the pitch nine times in ten; it cannot tell 13 an inch from 2 mm, or 10 an inch "
        "from 2.5 mm, on less than an inch of thread. Say the thread's outside diameter too."
    )
    y = field.words(0, y, text, 176)
    comb_cards(field, 0, y + 2)
    key(field, 120, 258)
    proof(field, 0, 259, 110, upright=(192, 161))


def _heading(field: Field, text: str, x: float, y: float, room: float) -> float:
    return field.words(x, y, text, room, tag="H2", size=9.5, bold=True, most=1) + 0.8
