"""The gap as a picture: where the propeller will stand, blurred by how sure we are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length
from intake.domain.drawing_words import ENGLISH, Words
from intake.domain.gap_range import likely_range
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text, hatch, rectangle, text_width
from intake.domain.stations import as_mm

WIDTH, LEFT, RIGHT, TOP, AXIS, BOTTOM = 110.0, 16.0, 106.0, 11.0, 27.0, 43.0


def gap_picture(stack: Mapping[str, Any], words: Words = ENGLISH) -> Drawing:
    """Strut and propeller hub at the predicted gap; the fog holds 19 of 20 outcomes.

    Dark fog is one standard uncertainty either way (2 of 3); pale fog holds what slips could do
    as well. The band from the least
    to the most fair gap is drawn and named. What is missing is drawn as on a typical boat.
    """
    low, high = as_mm(stack, "gap_min") or 12.7, as_mm(stack, "gap_max") or 25.4
    goal = as_mm(stack, "gap_goal") or (low + high) / 2
    gap, u = as_mm(stack, "predicted_gap"), as_mm(stack, "u_mm") or 0.0
    stands = goal if gap is None else gap
    system = stack.get("system") or "inch"
    longest = max(1.45 * high, stands + 2.4 * u, 1.0)
    scale = (RIGHT - LEFT) / longest

    def x(mm: float) -> float:
        return LEFT + min(max(mm, -0.06 * longest), longest) * scale

    shapes = [
        *_band((x(low), x(goal), x(high)), system, (low, goal, high), words),
        *_fog(x, stands, u, _ends(stack, stands, u)),
        *_strut(),
        *_hub(x(stands), words),
        Line(2, AXIS, WIDTH - 2, AXIS, "axis"),
        *_said(x(stands), stands, u, system, words, known=gap is not None),
    ]
    return Drawing(
        tuple(shapes), WIDTH, 58.5, words["gap.title"],
        _words(stands, u, (low, high), system, words, known=gap is not None),
    )  # fmt: skip


def _band(
    places: tuple[float, float, float],
    system: str,
    real: tuple[float, float, float],
    words: Words,
) -> Iterator[Shape]:
    """Least, goal and most, each named over its line; names stay apart on a small picture."""
    yield rectangle(places[0], TOP, places[2], BOTTOM, "word", "band")
    right = 0.0
    for place, name, value in zip(places, ("least", "goal", "most"), real, strict=True):
        yield Line(place, TOP - 1, place, BOTTOM, "dashed" if name == "goal" else "thin")
        text, word = _fair(value, system), words[f"gap.{name}"]
        half = max(text_width(text, 3.6), text_width(word, 3.6)) / 2
        centre = min(max(place, right + half + 1.2), WIDTH - 1 - half)
        right = centre + half
        yield Text(centre, TOP - 6.2, word, 3.6)
        yield Text(centre, TOP - 2.2, text, 3.6)


def _fair(mm: float, system: str) -> str:
    """An edge of the band, exactly."""
    return f"{mm:.4g} mm" if system == "mm" else _length(mm, system, ENGLISH)


def _ends(stack: Mapping[str, Any], stands: float, u: float) -> tuple[float, float]:
    """Where the pale fog ends: two standard uncertainties, or as far as a likely slip reaches."""
    between = likely_range(stack) if stack.get("explained") else None
    if between is None:
        return stands - 2 * u, stands + 2 * u
    return between[0].in_mm, between[1].in_mm


def _fog(x: Any, stands: float, u: float, ends: tuple[float, float]) -> Iterator[Shape]:
    """Two bands of fog, hatched as well as tinted, so that it shows without colour."""
    if u <= 0:
        return
    for name, (low, high) in (("fog-2", ends), ("fog-1", (stands - u, stands + u))):
        yield rectangle(x(low), TOP + 4, x(high), BOTTOM - 4, "word", name)
    yield from hatch(x(ends[0]), TOP + 4, x(ends[1]), BOTTOM - 4, 2.0)


def _strut() -> Iterator[Shape]:
    half, bore = 10.5, 5.5
    for top, bottom in ((-half, -bore), (bore, half)):
        yield rectangle(2, AXIS + top, LEFT, AXIS + bottom)
        yield from hatch(2, AXIS + top, LEFT, AXIS + bottom, 1.6)
    yield Line(LEFT, AXIS - half, LEFT, AXIS + half)
    for y in (AXIS - bore, AXIS + bore):
        yield Line(2, y, WIDTH - 2, y)


def _hub(front: float, words: Words) -> Iterator[Shape]:
    half = 10.0
    end = WIDTH - 2
    yield Line(front, AXIS - half, front, AXIS + half, "lit")
    yield Line(front, AXIS - half, end, AXIS - half * 0.88)
    yield Line(front, AXIS + half, end, AXIS + half * 0.88)
    wide = text_width(words["gap.hub"], 3.4)
    yield Text(end - wide / 2 - 1, AXIS + 14, words["gap.hub"], 3.4)
    yield Text(9, AXIS + 14, words["gap.strut"], 3.4)


def _said(
    front: float, stands: float, u: float, system: str, words: Words, *, known: bool
) -> Iterator[Shape]:
    y = BOTTOM + 4
    yield Line(LEFT, BOTTOM - 4, LEFT, y + 1, "dimension")
    yield Line(front, AXIS + 10, front, y + 1, "dimension")
    yield Line(LEFT, y, front, y, "dimension")
    if front - LEFT > 6:
        yield _head(LEFT, y, 1)
        yield _head(front, y, -1)
    text = _length(stands, system, words) if known else words["gap.unknown"]
    if known and u > 0:
        text = words["gap.doubt"].format(gap=text, doubt=_length(u, system, words))
    if known and stands <= 0:
        text = words["gap.touch"]
    wide = text_width(text, 4.2)
    middle = min(max((LEFT + front) / 2, wide / 2 + 1), WIDTH - 1 - wide / 2)
    yield Text(middle, y + 6, text, 4.2)


def _head(x: float, y: float, way: int) -> Polygon:
    return Polygon(((x, y), (x + way * 2.6, y - 0.4), (x + way * 2.6, y + 0.4)), "arrow")


def _length(mm: float, system: str, words: Words) -> str:
    """To the nearest 1/32 in or 0.5 mm: a picture promises no more."""
    if system == "mm":
        return f"{Decimal(round(mm * 2)) / 2:f} mm"
    thirty_seconds = max(round(mm / 25.4 * 32), 0)
    if mm > 0 and thirty_seconds == 0:
        return words["gap.under"]
    return f"{Length(thirty_seconds * 793_750).inch_text} in"


def _words(
    stands: float, u: float, band: tuple[float, float], system: str, words: Words, *, known: bool
) -> str:
    low, high = band
    fair = words["gap.fair"].format(least=_fair(low, system), most=_fair(high, system))
    if not known:
        return words["gap.cannot"].format(fair=fair)
    inside = low <= stands - 2 * u and stands + 2 * u <= high
    return words["gap.expected"].format(
        gap=_length(stands, system, words), doubt=_length(u, system, words), fair=fair,
        verdict=words["gap.inside" if inside else "gap.outside"],
    )  # fmt: skip
