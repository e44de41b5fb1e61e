"""The shaft's metal: no weaker than it was, and right for water, hull and twin."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.materials import material
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "diameter-downsize",
    Severity.STOP,
    ask="Who has decided on the smaller size or the other metal, and on what grounds?",
    inputs=DIAMETER,
    likely={"I-DIAREAD": 5, "I-OTHER": 3, "I-SIDE": 1},
)
def the_shaft_gets_no_weaker(case: Case) -> Iterator[Mismatch]:
    """The new shaft is thinner, or of a weaker metal, than the last one supplied.

    Price or stock led. A reduction is a designer's decision.
    """
    last, size = case.history.last_diameter, case.size
    if last is None or size is None:
        return
    if size.diameter < last:
        words = "The shaft is thinner than the last one we supplied for this boat."
        yield Mismatch(("dia_clean",), words)
    elif size.diameter == last and _weaker(case.alloy, case.history.last_alloy):
        words = "The metal is weaker than that of the last shaft we supplied for this boat."
        yield Mismatch(("dia_clean",), words)


@check(
    "alloy-vs-water",
    Severity.NOTE,
    ask="How long does she lie still between runs, and in what water?",
    source="nickel industry guideline NiDI 11 003; sea water's chloride, general reference",
    inputs=DIAMETER,
    needs=("water",),
    likely={"I-COMBO": 1},
)
def the_metal_suits_the_water(case: Case) -> Iterator[Mismatch]:
    """A plain stainless steel that this water attacks in crevices when the boat lies still.

    The cheapest line was picked.
    """
    kind, limits = case.sheet.part("water", "kind"), case.limits
    plain, better = case.alloy in limits.alloys_304, case.alloy in limits.alloys_316
    if kind not in ("salt", "brackish") or not (plain or better):
        return
    idle = case.sheet.part("water", "weeks_idle")
    asked = plain or (idle is not None and idle > limits.idle_weeks)
    if kind == "salt" and asked:
        words = "This metal is attacked in salt water; a better one should be offered."
        yield Mismatch(("water",), words, severity=Severity.ASK)
    else:
        words = "This metal may be attacked in this water where she lies still."
        yield Mismatch(("water",), words)


@check(
    "alloy-vs-hull",
    Severity.STOP,
    ask="What is the hull made of below the water?",
    source="common practice (galvanic pairing)",
    inputs=DIAMETER,
    needs=("hull_material",),
    likely={"I-COMBO": 3, "I-OTHER": 1},
)
def the_metal_suits_the_hull(case: Case) -> Iterator[Mismatch]:
    """A bronze or nickel-copper shaft in an aluminium hull eats the hull.

    Ordered like for like from an older boat.
    """
    if case.sheet.part("hull_material", "hull") != "aluminium":
        return
    if case.alloy.startswith(case.limits.alloys_copper):
        words = "A shaft of this metal eats an aluminium hull."
        yield Mismatch(("hull_material",), words)


@check(
    "mixed-pair-metal",
    Severity.NOTE,
    ask="What is the other shaft made of?",
    inputs=DIAMETER,
)
def both_shafts_are_of_one_metal(case: Case) -> Iterator[Mismatch]:
    """The two shafts of one boat would be of two metals.

    One side was replaced before.
    """
    sister, size = case.history.sister, case.size
    if sister is None or size is None:
        return
    # Without a word of its own the other side gets the desk's usual metal, as this one would.
    inch, limits = size.system == "inch", case.limits
    other = sister.alloy or (limits.alloy_inch if inch else limits.alloy_metric)
    if other != case.alloy:
        words = "The shafts of the two sides would be of different metals."
        yield Mismatch(("boat_name_and_station",), words)


def _weaker(new: str, old: str) -> bool:
    """True where both metals are known and the new one yields sooner."""
    now, before = material(new), material(old)
    if now is None or before is None:
        return False
    return now.torsional_yield_psi < before.torsional_yield_psi


CHECKS = (
    the_shaft_gets_no_weaker,
    the_metal_suits_the_water,
    the_metal_suits_the_hull,
    both_shafts_are_of_one_metal,
)
