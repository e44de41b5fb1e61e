"""The drive line, drawn: a side elevation to one datum, x = 0 at the coupling face.

One drawing for every paper: form, status page, desk and PDF quote. Line kinds follow ISO 128,
dimensions ISO 129-1. Pure: the same stack gives the same shapes, in well under 1 ms.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import NM_PER_MM, Length
from intake.domain import dimensions as dims
from intake.domain.dimensions import Dimension
from intake.domain.elevation import WATER_DOWN, elevation, shell
from intake.domain.fog import gap_picture
from intake.domain.shapes import (
    BOLD,
    Drawing,
    Line,
    Polygon,
    Shape,
    Text,
    rectangle,
    text_width,
)
from intake.domain.stations import Stations, sizes, stations

__all__ = ["ASKED", "Drawing", "drive_line", "gap_picture", "length_text"]

ABOVE, ROW, FIRST_ROW = 19.5, 6.6, 6.4  # paper mm: over the axis, between rows, to the first

# Every answer the drawing can light: its name, and what is at its two ends.
ASKED: dict[str, tuple[str, str, str]] = {
    "face_to_strut_aft": ("face to strut", "hook: flange face", "thumb: strut's metal"),
    "face_to_strut_fwd": ("face to strut, front", "hook: flange face", "thumb: strut's front"),
    "strut_barrel": ("strut", "front end", "aft end"),
    "gap_now": ("gap", "strut's metal end", "hub's front face"),
    "hub_length": ("hub", "hub's front face", "back face"),
    "tail_to_thread": ("tail", "hook: strut's metal end", "thumb: thread end"),
    "old_length_face_to_thread": ("shaft", "hook: coupling face", "thumb: thread end"),
    "old_length_overall": ("overall", "one tip", "other tip"),
    "bearing_length": ("bearing", "one end", "other end"),
    "gearbox_through": ("gearbox", "front face", "back of gearbox"),
    "dia_clean": ("diameter", "bright, unworn stretch", ""),
    "flange_od": ("flange", "rim", "rim"),
    "shell_od": ("shell", "outside of the shell, not of the strut", ""),
    "flange_direction": ("hub points", "", ""),
}

# slug: (key in the stack, key in stack["marks"])
_VALUES = {
    "face_to_strut_aft": ("x_strut_aft", "face_to_strut_aft"),
    "gap_now": ("predicted_gap", "gap"),
    "hub_length": ("hub_length", "hub_length"),
    "tail_to_thread": ("tail", "tail"),
    "old_length_face_to_thread": ("length", "length"),
    "old_length_overall": ("overall", "overall"),
    "nut_standoff": ("nut_standoff", "nut_standoff"),
    "front_length": ("front_length", "front_length"),
    "gearbox_through": ("gearbox_through", "gearbox_through"),
}
_ALWAYS = ("gap_now", "hub_length", "tail_to_thread", "face_to_strut_aft",
           "old_length_face_to_thread", "old_length_overall")  # fmt: skip
_UPRIGHT = ("dia_clean", "flange_od", "shell_od", "flange_direction")


def drive_line(
    stack: Mapping[str, Any],
    *,
    lit: str = "",
    readings: Mapping[str, str] | None = None,
    shorten: bool = True,
    width_mm: float = 110.0,
) -> Drawing:
    """Draw the drive line of a verdict's stack; what the stack lacks is drawn as on a typical boat.

    ``readings`` are the texts to print, by answer slug; without one the stack's own value is
    printed, and without that the name. ``lit`` draws one answer in brass with hook and thumb and
    leaves the other dimensions out; ``"all"`` draws every answer both ways, for a page that lights
    them itself. ``shorten`` breaks the long plain shaft; otherwise all is to one scale.

    >>> drive_line({}).height_mm < 80
    True
    """
    passes = stack.get("layout") == "v_pass_through"
    at = stations(sizes(stack), passes=passes, shorten=shorten, width=width_mm, axis=ABOVE)
    size = 4.3 if width_mm < 150 else 3.7
    marks = _marks(stack)
    every = {d.slug: d for d in _dimensions(at, stack, readings or {}, marks, wide=width_mm >= 150)}
    shown = [every[slug] for slug in (*_ALWAYS, *_extra(at, every, width_mm)) if slug in every]
    placed, rows = dims.place([] if lit in ASKED else shown, size=size, width=width_mm)
    first = at.axis + WATER_DOWN + FIRST_ROW
    shapes: list[Shape] = [*elevation(at), *_datum(at, size)]
    for one in placed:
        shapes += dims.draw(one, axis=at.axis, y=first + one.row * ROW, size=size)
    bottom = first + (rows - 1) * ROW + 2.4
    if lit:
        lit_slugs = [lit] if lit != "all" else list(ASKED)
        for slug in lit_slugs:
            shapes += _lit(slug, at, every, stack, readings or {}, first + 1.0, size)
        bottom = max(bottom, first + 1.0 + 6.6 + size + 1.6 + 1.6)
    said = dims.key({one.dimension.slug: one.dimension.mark for one in placed})
    if said and lit not in ASKED:
        said = f"{'mm' if stack.get('system') == 'mm' else 'inches'} · {said}"
        bottom += size + 1.4
        shapes.append(Text(1.0, bottom - 1.2, said, 0.82 * size, "start"))
    return Drawing(
        tuple(_in_groups(shapes)), width_mm, round(bottom, 2), _title(lit, passes),
        _description(every, passes, shorten), lit,
    )  # fmt: skip


def length_text(mm: str | float, system: str) -> str:
    """A length of the stack as the drawing prints it: ``"44 1/8 in"`` or ``"1121 mm"``.

    >>> length_text("1120.775", "inch"), length_text("1121.000000", "mm")
    ('44 1/8 in', '1121 mm')
    """
    length = Length(int(Decimal(str(mm)) * NM_PER_MM))
    if system == "mm":
        return f"{Decimal(str(mm)).quantize(Decimal('0.1')).normalize():f} mm"
    return f"{length.inch_text} in"


def _marks(stack: Mapping[str, Any]) -> dict[str, str]:
    return {"nut_standoff": "table"} | {
        key: value for key, value in (stack.get("marks") or {}).items() if value
    }


def _extra(at: Stations, every: Mapping[str, Dimension], width: float) -> list[str]:
    """What is worth a line when there is room, or on the layout that needs it."""
    extra = ["gearbox_through", "front_length"] if at.passes else []
    room = width >= 150 and "nut_standoff" in every
    return [*extra, "nut_standoff"] if room else extra


def _dimensions(
    at: Stations,
    stack: Mapping[str, Any],
    readings: Mapping[str, str],
    marks: Mapping[str, str],
    *,
    wide: bool,
) -> Iterator[Dimension]:
    """Every length along the axis that can be drawn."""
    thread, nose = 0.375 * at.unit, 0.28 * at.unit
    hub_back = 0.8 * at.unit
    spans = {
        "gap_now": (at.strut_aft, at.hub_front, at.barrel, at.hub),
        "hub_length": (at.hub_front, at.hub_back, at.hub, hub_back),
        "tail_to_thread": (at.strut_aft, at.thread_end, at.barrel, thread),
        "face_to_strut_aft": (at.face, at.strut_aft, at.flange, at.barrel),
        "face_to_strut_fwd": (at.face, at.strut_fwd, at.flange, at.barrel),
        "strut_barrel": (at.strut_fwd, at.strut_aft, at.barrel, at.barrel),
        "bearing_length": (at.strut_fwd, at.strut_aft, shell(at), shell(at)),
        "old_length_face_to_thread": (at.face, at.thread_end, at.flange, thread),
        "old_length_overall": (at.front_tip, at.tip, thread if at.passes else at.flange, nose),
    }
    if at.passes:
        spans["gearbox_through"] = (at.face, at.gear_right, at.flange, 0.78 * at.flange + 1.2)
        spans["front_length"] = (at.front_tip, at.face, thread, at.flange)
    if wide and stack.get("nut_standoff"):
        spans["nut_standoff"] = (at.hub_back, at.thread_end, hub_back, thread)
    for slug, (x1, x2, from1, from2) in spans.items():
        word, *ends = ASKED.get(slug, (_PLAIN_WORDS.get(slug, slug), "", ""))
        text, mark = _text_and_mark(slug, stack, readings, marks)
        yield Dimension(slug, x1, x2, text or word, from1, from2, (ends[0], ends[1]), mark, word)


_PLAIN_WORDS = {"nut_standoff": "nut", "front_length": "front"}


def _text_and_mark(
    slug: str, stack: Mapping[str, Any], readings: Mapping[str, str], marks: Mapping[str, str]
) -> tuple[str, str]:
    key, mark_key = _VALUES.get(slug, ("", ""))
    value = _value(stack, key)
    system = stack.get("system") or "inch"
    text = readings.get(slug) or (length_text(value, system).rsplit(" ", 1)[0] if value else "")
    return text, (marks.get(mark_key, "") if text else "")


def _value(stack: Mapping[str, Any], key: str) -> str | None:
    """One value of the stack; the tail is the length less what lies before the strut's end."""
    if key == "tail" and not stack.get("tail"):
        length, strut = stack.get("length"), stack.get("x_strut_aft")
        return str(Decimal(str(length)) - Decimal(str(strut))) if length and strut else None
    value = stack.get(key)
    return str(value) if value not in (None, "") else None


def _datum(at: Stations, size: float) -> Iterator[Shape]:
    """The one datum: a filled triangle standing on the coupling face (ISO 5459's sign)."""
    y = at.axis - at.flange
    yield Polygon(((at.face, y - 0.3), (at.face - 1.2, y - 2.4), (at.face + 1.2, y - 2.4)), "arrow")
    half = text_width("datum", 0.8 * size) / 2
    yield Text(max(at.face, half + 0.8), y - 3.2, "datum", 0.8 * size)


def _lit(
    slug: str,
    at: Stations,
    every: Mapping[str, Dimension],
    stack: Mapping[str, Any],
    readings: Mapping[str, str],
    y: float,
    size: float,
) -> Iterator[Shape]:
    if slug in _UPRIGHT:
        text = readings.get(slug, "")
        for shape in _upright(slug, at, text, y, size):
            yield replace(shape, slug=slug, part="ends")
    elif slug in every:
        yield from dims.draw_lit(every[slug], axis=at.axis, y=y, size=size, width=at.width)


def _upright(slug: str, at: Stations, text: str, y: float, size: float) -> Iterator[Shape]:
    """What is measured across the shaft, or shown rather than measured."""
    word, first, _ = ASKED[slug]
    named = f"{word} ⌀ {text}".rstrip() if text else f"{word} ⌀"
    if slug == "dia_clean":
        left = at.breaks[1] if at.breaks else at.log_end
        x1, x2, r = left + 0.6, at.strut_fwd - 0.4, at.radius
        yield from (Line(x1, at.axis + s * r, x2, at.axis + s * r, "lit") for s in (-1, 1))
        yield from _across((x1 + x2) / 2, at.axis - r, at.axis + r)
        where = (x1 + x2) / 2
    elif slug == "shell_od":
        r, where = shell(at), (at.strut_fwd + at.strut_aft) / 2
        for s in (-1, 1):
            yield Line(at.strut_fwd, at.axis + s * r, at.strut_aft, at.axis + s * r, "lit")
        yield from _across(at.strut_aft + 1.6, at.axis - r, at.axis + r)
        yield from (
            Line(at.strut_aft, at.axis + s * r, at.strut_aft + 2.4, at.axis + s * r, "tape")
            for s in (-1, 1)
        )
    elif slug == "flange_od":
        where, r = at.face, at.flange
        thick = 0.55 * at.unit
        x1, x2 = (at.face - thick, at.face + thick)
        yield from (Line(x1, at.axis + s * r, x2, at.axis + s * r, "lit") for s in (-1, 1))
        left = min(at.gear_left, at.front_tip) - 1.6
        yield from (Line(left - 1, at.axis + s * r, x1, at.axis + s * r, "tape") for s in (-1, 1))
        yield from _across(max(left, 1.2), at.axis - r, at.axis + r)
        first = "the big disc, rim to rim"
    else:
        where, named, first = yield from _hub_way(at)
    yield from _caption(where, (first, named), at.width, y, size)


def _hub_way(at: Stations) -> Generator[Shape, None, tuple[float, str, str]]:
    near = at.face - 0.5 * at.unit if at.passes else at.face + 0.5 * at.unit
    hub, way = at.unit, (-1 if at.passes else 1)
    box = rectangle(near, at.axis - hub, at.hub_end, at.axis + hub, "lit", "")
    yield box
    y = at.axis + hub + 2.6
    yield Line(near, y, at.hub_end, y, "lit")
    yield Polygon(
        ((at.hub_end + way * 2.2, y), (at.hub_end - way * 0.6, y - 1.1),
         (at.hub_end - way * 0.6, y + 1.1)), "lit", "paper",
    )  # fmt: skip
    said = "forward, toward the engine" if at.passes else "aft, toward the propeller"
    return (near + at.hub_end) / 2, said, "the long hub points"


def _across(x: float, top: float, bottom: float) -> Iterator[Shape]:
    """An upright dimension with its arrows outside when it is small."""
    small = bottom - top < 8
    reach = 4.0 if small else 0.0
    yield Line(x, top - reach, x, bottom + reach, "lit")
    way = -1 if small else 1
    for tip, turn in ((top, way), (bottom, -way)):
        yield replace(dims.arrow_up(x, tip, turn), kind="lit", fill="paper")


def _caption(
    where: float, lines: tuple[str, str], width: float, y: float, size: float
) -> Iterator[Shape]:
    for number, (line, kind) in enumerate(zip(lines, ("lit", "word"), strict=True)):
        half = text_width(line, size) * (BOLD if kind == "lit" else 1) / 2
        x = min(max(where, half + 0.8), width - half - 0.8)
        if line:
            yield Text(x, y + 1.2 + number * (size + 1.6), line, size, "middle", kind)


def _in_groups(shapes: list[Shape]) -> list[Shape]:
    """Parts first, then each slug's shapes together, plain before ends."""
    order = {slug: number for number, slug in enumerate(["", *_VALUES, *ASKED])}
    return sorted(shapes, key=lambda s: (order.get(s.slug, 99), s.slug, s.part == "ends"))


def _title(lit: str, passes: bool) -> str:
    line = "Drive line, shaft passing through the gearbox" if passes else "Drive line"
    return f"{line}: {ASKED[lit][0]} shown" if lit in ASKED else line


def _description(every: Mapping[str, Dimension], passes: bool, shorten: bool) -> str:
    first = "front coupling and its nut, gearbox" if passes else "gearbox flange, half coupling"
    said = [
        f"{d.word} {d.text}{', ' + d.mark if d.mark else ''}"
        for d in every.values()
        if d.text != d.word and d.slug in (*_ALWAYS, "gearbox_through", "front_length")
    ]
    scale = "The plain shaft is shortened at a break." if shorten else "Drawn to scale."
    listed = " " + "; ".join(said).capitalize() + "." if said else ""
    return (
        f"Side view from the engine on the left to the propeller on the right: {first}, gland, log "
        f"through the hull, strut with bearing, gap, propeller hub on its taper, nut and jam nut, "
        f"nose. Every length counts from the coupling face. {scale}{listed}"
    )
