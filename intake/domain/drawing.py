"""The drive line, drawn: a side elevation to one datum, x = 0 at the coupling face.

One drawing for every paper: form, status page, desk and PDF quote. Line kinds follow ISO 128,
dimensions ISO 129-1. Pure: the same stack gives the same shapes, in well under 1 ms. The guided
path draws the same in the browser (``config/static/fairgap/guided/drawing/``); one set of vectors
runs against both.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import NM_PER_MM, Length
from intake.domain import dimensions as dims
from intake.domain.dimensions import Dimension
from intake.domain.drawing_words import ASKED, ENGLISH, Words
from intake.domain.elevation import WATER_DOWN, elevation, shell
from intake.domain.fog import gap_picture
from intake.domain.lit import SHOWN, Asked, draw_shown
from intake.domain.plan_view import HIGH as PLAN_HIGH
from intake.domain.plan_view import STATIONS, plan_view
from intake.domain.shapes import Drawing, Polygon, Shape, Text, text_width
from intake.domain.stations import Stations, sizes, stations

__all__ = ["ASKED", "Drawing", "drive_line", "gap_picture", "length_text"]

ABOVE, ROW, FIRST_ROW = 19.5, 6.6, 6.4  # paper mm: over the axis, between rows, to the first
ENGINE_ABOVE = 7.0  # more of it where the engine stands over the shaft's flange

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
_ON_PASSING = ("gearbox_through", "front_length")


def drive_line(
    stack: Mapping[str, Any],
    *,
    lit: str = "",
    readings: Mapping[str, str] | None = None,
    shorten: bool = True,
    width_mm: float = 110.0,
    hook: str = "",
    thumb: str = "",
    words: Words = ENGLISH,
) -> Drawing:
    """Draw the drive line of a verdict's stack; what the stack lacks is drawn as on a typical boat.

    ``readings`` are the texts to print, by answer slug; without one the stack's own value is
    printed, and without that the name. ``lit`` draws one answer in brass with hook and thumb and
    leaves the other dimensions out; ``"all"`` draws every answer both ways, for a page that lights
    them itself. ``hook`` and ``thumb`` are other words for the two ends of what is lit. ``shorten``
    breaks the long plain shaft; otherwise all is to one scale. A twin's shaft, ``station`` in the
    stack, is shown in a small view from above. ``words`` are those of
    :data:`intake.domain.drawing_words.ENGLISH` in another language.

    >>> drive_line({}).height_mm < 80
    True
    """
    passes = stack.get("layout") == "v_pass_through"
    station = str(stack.get("station") or "")
    planned = station in STATIONS or lit == "boat_name_and_station"
    at = stations(
        sizes(stack), passes=passes, shorten=shorten, width=width_mm,
        axis=_axis(stack, planned=planned), layout=str(stack.get("layout") or "inline"),
    )  # fmt: skip
    size = 4.3 if width_mm < 150 else 3.7
    said = _Said(stack, readings or {}, _marks(stack), words, (lit, hook, thumb))
    every = {d.slug: d for d in _dimensions(at, said, wide=width_mm >= 150)}
    shown = [every[slug] for slug in (*_ALWAYS, *_extra(at, every, width_mm)) if slug in every]
    placed, rows = dims.place([] if lit in ASKED else shown, size=size, width=width_mm)
    first = at.axis + WATER_DOWN + FIRST_ROW
    shapes: list[Shape] = [*elevation(at, words["engine"]), *_datum(at, size, words)]
    if planned:
        shapes += plan_view(station, words)
    for one in placed:
        shapes += dims.draw(one, axis=at.axis, y=first + one.row * ROW, size=size)
    bottom = first + (rows - 1) * ROW + 2.4
    if lit:
        for slug in [lit] if lit != "all" else ASKED:
            shapes += _lit(Asked(slug, at, said.readings.get(slug, ""), station, words, hook, size),
                           every, first + 1.0)  # fmt: skip
        bottom = max(bottom, first + 1.0 + 6.6 + size + 1.6 + 1.6)
    key = dims.key({one.dimension.mark for one in placed}, words)
    if key and lit not in ASKED:
        key = f"{words['mm' if stack.get('system') == 'mm' else 'inches']} · {key}"
        bottom += size + 1.4
        shapes.append(Text(1.0, bottom - 1.2, key, 0.82 * size, "start"))
    twin = words["twin"].format(station=words[station]) if station in STATIONS else ""
    return Drawing(
        tuple(_in_groups(shapes)), width_mm, round(bottom, 2), _title(lit, words, passes=passes),
        _description(every, words, twin, passes=passes, shorten=shorten), lit,
    )  # fmt: skip


def _axis(stack: Mapping[str, Any], *, planned: bool) -> float:
    """Paper y of the shaft's axis: lower where there is more to show above it."""
    engine = ENGINE_ABOVE if stack.get("layout") == "v_rear_flange" else 0.0
    return ABOVE + engine + (PLAN_HIGH if planned else 0.0)


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
    extra = list(_ON_PASSING) if at.passes else []
    room = width >= 150 and "nut_standoff" in every
    return [*extra, "nut_standoff"] if room else extra


class _Said:
    """What is printed at a dimension: the customer's text, else the stack's value, else its name.

    ``lit`` is the slug that is lit, with other words for its two ends where they are given.
    """

    def __init__(
        self, stack: Mapping[str, Any], readings: Mapping[str, str], marks: Mapping[str, str],
        words: Words, lit: tuple[str, str, str],
    ) -> None:  # fmt: skip
        self.stack, self.readings, self.marks, self.words = stack, readings, marks, words
        self.lit = lit

    def name(self, slug: str) -> str:
        return self.words.get(f"{slug}.name") or self.words.get(slug, slug)

    def ends(self, slug: str) -> tuple[str, str]:
        lit, hook, thumb = self.lit
        first, last = (self.words.get(f"{slug}.{end}", "") for end in ("first", "last"))
        return (hook or first, thumb or last) if slug == lit else (first, last)

    def text_and_mark(self, slug: str) -> tuple[str, str]:
        key, mark_key = _VALUES.get(slug, ("", ""))
        value = _value(self.stack, key)
        system = self.stack.get("system") or "inch"
        own = length_text(value, system).rsplit(" ", 1)[0] if value else ""
        text = self.readings.get(slug) or own
        return text, (self.marks.get(mark_key, "") if text else "")


def _dimensions(at: Stations, said: _Said, *, wide: bool) -> Iterator[Dimension]:
    """Every length along the axis that can be drawn."""
    spans = _spans(at)
    if wide and said.stack.get("nut_standoff"):
        spans["nut_standoff"] = spans["nuts"]
    for slug, (x1, x2, from1, from2) in spans.items():
        word, (text, mark) = said.name(slug), said.text_and_mark(slug)
        letter = said.words[f"letter.{mark}"] if mark else ""
        yield Dimension(
            slug, x1, x2, text or word, from1, from2, said.ends(slug), mark, word, letter
        )


def _spans(at: Stations) -> dict[str, tuple[float, float, float, float]]:
    """Two paper stations and the radii there, by answer."""
    thread, nose, one = 0.375 * at.unit, 0.28 * at.unit, 0.55 * at.unit
    hub_back, hub = 0.8 * at.unit, at.unit
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
        "nuts": (at.hub_back, at.thread_end, hub_back, thread),
        "pin_end": (at.thread_end, at.tip, thread, nose),
        "gland_position": (at.face, at.gland - 0.35 * at.unit, at.flange, 1.12 * at.unit),
    }
    if not at.passes:
        spans["hub_length_coupling"] = (at.face, at.hub_end, at.flange, hub)
        spans["flange_thickness"] = (at.face - one, at.face, at.flange, at.flange)
        return spans
    spans["gearbox_through"] = (at.face, at.gear_right, at.flange, 0.78 * at.flange + 1.2)
    spans["front_length"] = spans["front_end"] = (at.front_tip, at.face, thread, at.flange)
    spans["hub_length_coupling"] = (at.hub_end, at.face, hub, at.flange)
    spans["flange_thickness"] = (at.face, at.face + one, at.flange, at.flange)
    return spans


def _value(stack: Mapping[str, Any], key: str) -> str | None:
    """One value of the stack; the tail is the length less what lies before the strut's end."""
    if key == "tail" and not stack.get("tail"):
        length, strut = stack.get("length"), stack.get("x_strut_aft")
        return str(Decimal(str(length)) - Decimal(str(strut))) if length and strut else None
    value = stack.get(key)
    return str(value) if value not in (None, "") else None


def _datum(at: Stations, size: float, words: Words) -> Iterator[Shape]:
    """The one datum: a filled triangle standing on the coupling face (ISO 5459's sign)."""
    y, small = at.axis - at.flange, 0.8 * size
    yield Polygon(((at.face, y - 0.3), (at.face - 1.2, y - 2.4), (at.face + 1.2, y - 2.4)), "arrow")
    half = text_width(words["datum"], small) / 2
    yield Text(max(at.face, half + 0.8), y - 3.2, words["datum"], small)


def _lit(asked: Asked, every: Mapping[str, Dimension], y: float) -> Iterator[Shape]:
    at, slug = asked.at, asked.slug
    if slug == "boat_name_and_station" and at.axis < ABOVE + PLAN_HIGH:
        return  # no view from above here
    if slug in SHOWN:
        for shape in draw_shown(asked, y):
            yield replace(shape, slug=slug, part="ends")
    elif slug in every:
        yield from dims.draw_lit(every[slug], axis=at.axis, y=y, size=asked.size, width=at.width)


def _in_groups(shapes: list[Shape]) -> list[Shape]:
    """Parts first, then each slug's shapes together, plain before ends."""
    order = {slug: number for number, slug in enumerate(["", *_VALUES, *ASKED])}
    return sorted(shapes, key=lambda s: (order.get(s.slug, 99), s.slug, s.part == "ends"))


def _title(lit: str, words: Words, *, passes: bool) -> str:
    line = words["title.through" if passes else "title"]
    if lit not in ASKED:
        return line
    return words["title.lit"].format(line=line, name=words[f"{lit}.name"])


def _description(
    every: Mapping[str, Dimension], words: Words, twin: str, *, passes: bool, shorten: bool
) -> str:
    said = [
        words["said.mark" if d.mark else "said"].format(
            name=d.word, text=d.text, mark=d.mark and words[f"mark.{d.mark}"].split(" (")[0]
        )
        for d in every.values()
        if d.text != d.word and d.slug in (*_ALWAYS, *_ON_PASSING)
    ]
    return words["description"].format(
        first=words["first.through" if passes else "first"],
        scale=words["shortened" if shorten else "to_scale"],
        twin=twin,
        listed=" " + "; ".join(said).capitalize() + "." if said else "",
    )
