"""What the doubt of the length, and the rounding of the cut, cost the fit."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.fit import Band, fit_probability, rounded
from intake.domain.loosest import loosest_answers
from intake.domain.verdict import Severity


def _half(band: Band) -> float:
    return (band.most.nm - band.least.nm) / 2


@check(
    "u-budget",
    Severity.NOTE,
    ask="Could you take that one again with a second pair of hands?",
    source="JCGM 100; arithmetic",
    inputs=LENGTHS,
    likely={"G-ASSUME": 2, "P-RULE": 1},
)
def the_length_is_sure_enough(case: Case) -> Iterator[Mismatch]:
    """The length is too doubtful for its gap to land in the band 97 times in a hundred.

    Pieces through the hull, a gap judged by eye. The answer named here is the loosest.
    """
    if case.band is None or case.exact is None:
        return
    if case.u_nm > case.limits.u_share_of_half_band * _half(case.band):
        words = "This answer makes the length doubtful; taken another way it would be surer."
        yield Mismatch(loosest_answers(case, 1), words)


@check(
    "rounding-worth",
    Severity.NOTE,
    ask="How would you like it cut: to the usual mark, or to the length as it was worked out?",
    source="cut to the eighth: common practice; arithmetic",
    inputs=LENGTHS,
)
def rounding_costs_little(case: Case) -> Iterator[Mismatch]:
    """Rounding the cut length takes more than two points from the fit probability.

    The exact length lies far from a mark, and the length is doubtful already.
    """
    band = case.band
    if band is None or case.gap is None or case.cut == case.exact:
        return
    exact = fit_probability(band.goal.nm, case.u_nm, band)
    if exact - fit_probability(case.gap.nm, case.u_nm, band) > case.limits.rounding_cost:
        words = "Cut to its usual mark the shaft is a little less sure to fit than cut exactly."
        yield Mismatch(loosest_answers(case, 1), words)


@check(
    "round-long",
    Severity.NOTE,
    ask=(
        "If it had to miss, which could your yard live with: a touch long, which we can shorten, "
        "or a touch short?"
    ),
    source="derived; costs invented",
    inputs=LENGTHS,
)
def the_cut_leans_to_the_cheaper_side(case: Case) -> Iterator[Mismatch]:
    """So doubtful a length is better cut one mark longer: a long shaft can be shortened.

    The best lean is u^2 ln(cost short / cost long) / band; it counts from a thirty-second up.
    """
    band, limits = case.band, case.limits
    if band is None or case.exact is None or case.cut is None:
        return
    lean = case.u_nm**2 * math.log(limits.cost_short / limits.cost_long) / (2 * _half(band))
    if lean < limits.long_shift.nm:
        return
    step = case.metric_or_inch(limits.rounding_inch, limits.rounding_metric)
    if rounded(Length(case.exact.nm + round(lean)), step) > case.cut:
        words = "Cut one mark longer this shaft would risk less, for a long one can be shortened."
        yield Mismatch(loosest_answers(case, 1), words)


CHECKS = (
    the_length_is_sure_enough,
    rounding_costs_little,
    the_cut_leans_to_the_cheaper_side,
)
