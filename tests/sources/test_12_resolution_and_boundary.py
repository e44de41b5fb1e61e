"""Outside check 12: what one mark of a scale is worth, and where "agree" ends.

Sources: JCGM 100:2008 (GUM) F.2.2.1 (half a step either side, rectangular: 0.288675), 4.3.9
(triangular: 0.204124); ISO/IEC 17043 B.3 for E_n = (x - X)/sqrt(U² + U_ref²), for which 10.05,
10.00, 0.04, 0.03 give exactly 1, in floats 1.0000000000000142. The permissible error of a class II
tape, 0.3 + 0.2·L + 0.2 mm, is directive MI-008's, from memory; the other parts of a method's u
(slack, tilt, mark) are common practice, no source. The reference library `GTC` is not installed:
`scipy.stats` stands in its place. Vectors M6, M7, M23, M24, M25.
"""

from __future__ import annotations

from math import hypot, pi

import pytest
from scipy import stats

from catalog.domain.lengths import Length, inches
from intake.domain.case import Case, build_case
from intake.domain.estimate import Estimate
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.methods import uncertainty_nm
from tests.given import a_sheet, demo_stock

# Half a step either side of a reading to 1/16, to 1/32 and, two pricks of a pin, to 1/64 twice.
TO_16TH, TO_32ND, TWICE_TO_64TH = 1 / 32, 1 / 64, 1 / 64


def _rectangular(half_width: float) -> float:
    """Standard uncertainty of "somewhere within": the reference library's, not a formula."""
    return float(stats.uniform(-half_width, 2 * half_width).std())


_TAPE = hypot(_rectangular(0.9 / 25.4), _rectangular(TO_16TH), 0.02, 0.03)
# Method: what its parts come to, in inches, each reading of a mark rectangular.
PARTS = {
    "caliper": hypot(_rectangular(0.001), 0.002),
    "paper_strip": hypot(_rectangular(TWICE_TO_64TH), 0.015) / pi,
    "wrench_32": hypot(0.010, _rectangular(TO_32ND), 0.012),
    "wrench_16": hypot(0.012, _rectangular(TO_16TH), 0.020),
    "tape_across": hypot(0.04, _rectangular(TO_16TH), 0.04),
    "tape_short": hypot(_rectangular(0.7 / 25.4), _rectangular(TO_16TH), 0.02),
    "tape": _TAPE,
    "rod": hypot(_TAPE, 0.02),
    "tape_one_hand": hypot(_TAPE, 0.06, 0.04),
    "laser": hypot(0.05, 0.05),
}


# The scale each is read on, alone.
MARKS = {
    "caliper": 0.0005,
    "paper_strip": TWICE_TO_64TH / pi,
    "wrench_32": TO_32ND,
    "wrench_16": TO_16TH,
    "tape_across": TO_16TH,
    "tape_short": TO_16TH,
    "tape": TO_16TH,
    "tape_helper": TO_16TH,
    "tape_one_hand": TO_16TH,
    "rod": TO_16TH,
    "pieces": TO_16TH,
    "along_old_shaft": TO_16TH,
    "drill_shank": TO_32ND,
    "papers": 0.5,
}


@pytest.mark.parametrize("method", PARTS)
def test_m6_each_method_is_as_sure_as_its_marks_and_parts(method: str) -> None:
    """Our figure is the root sum of squares, rounded: never more than a twelfth away."""
    ours = uncertainty_nm("", method) / inches(1).nm
    assert ours == pytest.approx(PARTS[method], rel=1 / 12)


@pytest.mark.parametrize("method", MARKS)
def test_m6_no_method_is_surer_than_the_marks_it_is_read_on(method: str) -> None:
    assert uncertainty_nm("", method) >= _rectangular(MARKS[method]) * inches(1).nm


def test_m6_m7_what_half_a_step_is_worth() -> None:
    """A check of two published figures against the library the tests above lean on.

    Our code takes a mark as rectangular, the more cautious of the two; it never uses triangular.
    """
    assert _rectangular(0.5) == pytest.approx(0.288675, abs=5e-7)
    assert stats.triang(0.5, -0.5, 1).std() == pytest.approx(0.204124, abs=5e-7)


def _e_n(x: int, u_x: float, reference: int, u_reference: float) -> float:
    """E_n by our own difference of two lengths (nm); U is twice our standard uncertainty."""
    apart = Estimate(x, {"x": u_x / 2}).minus(Estimate(reference, {"reference": u_reference / 2}))
    return apart.nm / (2 * apart.u_nm)


def test_m23_the_boundary_is_exactly_one_in_our_lengths_though_not_in_floats() -> None:
    assert _e_n(10_050_000, 40_000, 10_000_000, 30_000) == 1.0
    assert (10.05 - 10.00) / hypot(0.04, 0.03) == 1.0000000000000142


def test_m24_the_second_vector() -> None:
    assert _e_n(1_271_000_000, 2_000_000, 1_270_000_000, 1_500_000) == 0.4


def test_m25_zeta_is_twice_as_much_and_is_where_routes_still_agree() -> None:
    apart = Estimate(10_050_000, {"x": 20_000.0}).minus(Estimate(10_000_000, {"X": 15_000.0}))
    assert apart.nm / apart.u_nm == 2.0 == DEFAULT_LIMITS.route_z_note


def _with_a_past_shaft(length: Length) -> Case:
    """Boat route and last shaft supplied, nothing else."""
    sheet = a_sheet(without=("gap_now", "tail_to_thread", "old_length_face_to_thread"))
    history = History(last_length=length, fitted_gap=inches("3/4"))
    return build_case(sheet, demo_stock(), history, DEFAULT_LIMITS)


def test_m25_one_nanometre_decides() -> None:
    """Two routes exactly two standard uncertainties apart are believed together; no further."""
    routes = _with_a_past_shaft(inches(49)).routes
    assert routes is not None
    assert routes.boat is not None
    u = hypot(routes.boat.u_nm, DEFAULT_LIMITS.u_history.nm)
    last = routes.boat.nm - int(2 * u)
    for length, believed in ((last, True), (last - 1, False)):
        found = _with_a_past_shaft(Length(length)).routes
        assert found is not None
        assert ("history" in found.believed) is believed
