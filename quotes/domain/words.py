"""The shaft and its gap in words a customer can check, made from the stored stack-up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from catalog.domain.lengths import NM_PER_64TH, NM_PER_MM, Length, mm
from intake.domain.gap_range import likely_range
from quotes.domain.facts import ShaftFacts
from quotes.domain.order import Shaft, alloy_words
from quotes.domain.texts import VERIFY

# Common practice, no source.
_STRAIGHT = {
    "inch": "0.002 in per foot, run-out at most 0.005 in (common practice)",
    "mm": "0.17 mm per metre, run-out at most 0.13 mm (common practice)",
}
# 19 times in 20 lie within this many standard uncertainties of a normal error.


def shaft_facts(shaft: Shaft, stack: Mapping[str, Any]) -> ShaftFacts:
    """What is made, in both systems, and the gap it will leave."""
    return ShaftFacts(
        length=both(shaft.length, shaft.system),
        rows=tuple(_rows(shaft, stack)),
        gap=tuple(gap_words(stack)),
        rounding=rounding_words(stack),
    )


def _rows(shaft: Shaft, stack: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    yield "Diameter", both(shaft.diameter, shaft.system)
    yield "Alloy", alloy_words(shaft.alloy)
    yield "Overall, tip to tip", both(shaft.overall, shaft.system)
    if stack.get("front_length"):
        yield "In front of the face", both(mm(stack["front_length"]), shaft.system)
    yield "Propeller end", _propeller_end(shaft, stack)
    yield "Coupling end", _coupling_end(shaft)
    yield "Nut thread", shaft.thread or "to be agreed with you"
    unit = "in" if shaft.system == "inch" else "mm"
    yield "Keys", f"{shaft.key} {unit}, two" if shaft.key else "to be agreed with you"
    yield "Straightness", _STRAIGHT[shaft.system]


def _propeller_end(shaft: Shaft, stack: Mapping[str, Any]) -> str:
    if shaft.system == "mm":
        return f"taper, keyway and thread agreed with you before we cut ({VERIFY})"
    taper = f"SAE J755: taper 1:16, {_plain(stack.get('taper_length'), shaft.system)} long"
    nose = "" if shaft.overall > shaft.length else ", no nose"
    unsure = "" if stack.get("end_confidence") == "seen" else f" ({VERIFY})"
    return f"{taper}, keyway, cotter hole{nose}{unsure}"


def _coupling_end(shaft: Shaft) -> str:
    if shaft.forward_end == "tapered":
        return "tapered to the coupling in hand"
    return "straight: faced, chamfered, keyway"


def _plain(value: Any, system: str) -> str:
    return mm(value).show(system) if value else "as the table says"


def gap_words(stack: Mapping[str, Any]) -> Iterator[str]:
    """The fit statement: what gap, how sure, and whether that is a fair gap."""
    gap, system = stack.get("predicted_gap"), str(stack.get("system") or "inch")
    between = likely_range(stack)
    if not gap or between is None:
        return
    low, high = between
    yield (
        f"With your measurements we expect a gap of {near(mm(gap), system)}, between "
        f"{near(low, system, unit=False)} and {near(high, system)} nineteen times in twenty."
    )
    least, most, goal = (stack.get(key) for key in ("gap_min", "gap_max", "gap_goal"))
    if least and most and goal:
        yield (
            f"A fair gap behind the strut is {mm(goal).show(system)}; least "
            f"{mm(least).show(system)}, most {mm(most).show(system)}."
        )


def rounding_words(stack: Mapping[str, Any]) -> str:
    """What rounding to a length a shop cuts did to the gap."""
    exact, cut = stack.get("exact_length"), stack.get("length")
    system = str(stack.get("system") or "inch")
    if not exact or not cut:
        return ""
    off = mm(cut) - mm(exact)
    if not off:
        return f"The exact length is the cut length, {mm(cut).show(system)}: nothing was rounded."
    # A longer shaft carries the propeller further aft, so the gap grows with it.
    way = "wider" if off > Length(0) else "narrower"
    return (
        f"Exact length {mm(exact).show(system)}, cut to {mm(cut).show(system)}: the gap becomes "
        f"{abs(off).show(system)} {way} than the goal."
    )


def both(length: Length, system: str) -> str:
    """Both systems, the shaft's or the tape's own first: ``950 mm · ≈37 13/32 in``."""
    other = "mm" if system in ("inch", "in") else "inch"
    return f"{length.show(system)} · {length.show(other)}"


def near(length: Length, system: str, *, unit: bool = True) -> str:
    """As near as makes sense for a chance: to 1/16 in, or to the millimetre.

    >>> near(mm("15.3"), "inch"), near(mm("15.3"), "mm", unit=False)
    ('5/8 in', '15')
    """
    if system == "inch":
        sixteenths = round(Fraction(length.nm, 4 * NM_PER_64TH))
        text = Length(sixteenths * 4 * NM_PER_64TH).inch_text
        return f"{text} in" if unit else text
    text = str(round(Fraction(length.nm, NM_PER_MM)))
    return f"{text} mm" if unit else text
