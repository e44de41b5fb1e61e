"""What every page of gauges proves its scale with: 100 mm one way, 4 in the other."""

from __future__ import annotations

from intake.paper.field import Field

INCH = 25.4
_STEP = 1.4  # mm a tick stands out


def refusal(field: Field) -> str:
    """The line no page of gauges is without."""
    _ = field.say
    return _("If this bar is not 100 mm long, do not use this sheet.")


def upright_bar(field: Field, x: float, y: float) -> None:
    """100 mm downwards from (x, y), a tick every 10 mm; its words stand to the left of it."""
    with field.figure(field.say("Scale bar, 100 mm long"), x - 3, y, x + 1, y + 100):
        field.line(x, y, x, y + 100, "strong")
        for ten in range(11):
            long = 2.6 if ten % 5 == 0 else _STEP
            field.line(x - long, y + 10 * ten, x, y + 10 * ten, "strong")
        field.label(x - 3.6, y + 50, "100 mm", bold=True, turn=90, size=7.5)


def level_bar(field: Field, x: float, y: float) -> None:
    """4 in to the right from (x, y), a tick every 1/4 in; its words stand above it."""
    long = 4 * INCH
    with field.figure(field.say("Scale bar, 4 inches long"), x, y - 3, x + long, y + 1):
        field.line(x, y, x + long, y, "strong")
        for quarter in range(17):
            high = 2.6 if quarter % 4 == 0 else _STEP
            field.line(x + quarter * INCH / 4, y - high, x + quarter * INCH / 4, y, "strong")
        field.label(x + long / 2, y - 3.6, "4 in", bold=True, size=7.5)


def proof(field: Field, x: float, y: float, room: float, *, upright: tuple[float, float]) -> None:
    """Both bars with the refusal: the level one at (x, y), ``room`` mm for the words above it."""
    _ = field.say
    field.words(x, y - 14.5, refusal(field), room, size=10.5, bold=True, most=1)
    said = _(
        "Lay a steel rule on both: the upright bar must be 100 mm, the level one 4 in. Printers "
        "shrink pages to fit: print at 100 %, “actual size”."
    )
    field.words(x, y - 10.2, said, room, size=7.4, most=2)
    level_bar(field, x, y)
    upright_bar(field, *upright)


def key(field: Field, x: float, y: float) -> None:
    """How a line to cut and a line to fold look."""
    _ = field.say
    with field.figure(_("Key: a wide line is cut, a dash and two dots is folded"), x, y - 3,
                      x + 60, y + 1):  # fmt: skip
        field.line(x, y - 1, x + 12, y - 1, "cut")
        field.label(x + 13.5, y, _("cut"), anchor="start", size=7.4)
        field.line(x + 27, y - 1, x + 43, y - 1, "fold")
        field.label(x + 44.5, y, _("fold"), anchor="start", size=7.4)


def head(field: Field, number: int, title: str, x: float, room: float) -> float:
    """The page's heading, and how to print it; the next baseline in mm."""
    _ = field.say
    tag = "H1" if number == 1 else "H2"
    said = _("Paper gauges, {number} of 3: {title}").format(number=number, title=title)
    y = field.words(x, 5.5, said, room, tag=tag, size=13, bold=True, most=2)
    return y + 0.5
