"""JCGM 100:2008 (the Guide), JCGM 101, JCGM 106:2012 and ISO/IEC 17043, vector by vector.

The vectors are data/metrology_vectors.csv. M1, M2, M4 are tested in test_09_gum_h1_end_gauge.py;
M14, M15, M16, M22 in test_11_jcgm_106_conformance.py; M6, M7, M23, M24, M25 in
test_12_resolution_and_boundary.py; M12, M13, M17 to M21, M26 and M27 here. M17, M18, M19 and M20
are from memory, each worked out by `scipy` besides.

Six do not apply to code of ours:

- M3, 16 degrees of freedom of the end gauge: we keep none; every u is Type B, taken as known.
- M5, the expanded uncertainty at 99 % by Student's t (from memory): the same reason.
- M8, a rectangular half-width of 1.5, M10, one of 0.40e-6, M9, a half-width that holds half of all
  cases, M11, bounds that are not symmetric: none of our code turns a half-width into a u. The
  table of methods holds finished figures; that these are what the rule a/sqrt 3 gives is tested
  with M6.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest
from scipy import stats

from intake.domain.estimate import Estimate
from intake.domain.fit import fit_probability
from intake.domain.fog import gap_picture
from intake.domain.shapes import Polygon
from tests.given import fired, judged
from tests.sources.vectors import HERE, limits_of, metrology, rows

ONE = 1_000_000_000  # a unit of the vectors in whole nanometres
DO_NOT_APPLY = {"M3", "M5", "M8", "M9", "M10", "M11"}


def _tested() -> Iterator[str]:
    for path in sorted(HERE.glob("test_*.py")):
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_m"):
                yield from (number.upper() for number in re.findall(r"m\d+(?=_)", node.name))


def test_every_vector_is_tested_or_said_not_to_apply() -> None:
    every = {row["id"] for row in rows("metrology_vectors")}
    assert every == {f"M{number}" for number in range(1, 28)}
    assert set(_tested()) == every - DO_NOT_APPLY
    not_ours = (__doc__ or "").partition("do not apply")[2]
    assert set(re.findall(r"M\d+", not_ours)) - {"M6"} == DO_NOT_APPLY


def _four() -> Estimate:
    total = Estimate(0, {"0": ONE})
    for name in "123":
        total = total.plus(Estimate(0, {name: ONE}))
    return total


def _within(half: float) -> float:
    """The share our normal law puts within half a width of the sum of four."""
    return fit_probability(0, _four().u_nm, limits_of(-round(half * ONE), round(half * ONE)))


def test_m12_a_sum_of_four_normal_readings() -> None:
    """u = 2.0, 95 % within 3.92 (JCGM 101:2008 9.2)."""
    assert _four().u_nm == 2 * ONE
    assert _within(3.92) == pytest.approx(0.95, abs=0.0001)


def test_m13_a_sum_of_four_rectangular_readings_is_near_enough_normal() -> None:
    """Half-width sqrt 3 is u = 1; 95 % within 3.88 where we say 3.92 (JCGM 101:2008 9.2).

    Ours is the more cautious by a quarter of a point; the reference is the exact law of such a
    sum, Irwin and Hall's.
    """
    true = stats.irwinhall(4, loc=-4 * 3**0.5, scale=2 * 3**0.5)
    reached = true.cdf(3.88) - true.cdf(-3.88)
    assert reached == pytest.approx(0.95, abs=0.002)
    assert 0 < reached - _within(3.88) < 0.004


@pytest.mark.parametrize("at", range(5))
def test_m17_one_sided_conformance(at: int) -> None:
    """A value z standard uncertainties inside its limit conforms with this probability."""
    share, z = (0.80, 0.90, 0.95, 0.99, 0.999)[at], float(metrology("M17")["expected"].split()[at])
    for margin, near in ((stats.norm.ppf(share), 1e-9), (z, 0.002)):
        ours = fit_probability(0, ONE, limits_of(most=round(margin * ONE)))
        assert ours == pytest.approx(share, abs=near)


def test_m18_a_breakdown_voltage() -> None:
    """y = -5.47, u = 0.05, limit -5.40: 0.92 (JCGM 106:2012, example)."""
    ours = fit_probability(-5.47 * ONE, 0.05 * ONE, limits_of(most=round(-5.40 * ONE)))
    assert ours == pytest.approx(0.91924, abs=0.00001)


def test_m19_a_value_on_an_acceptance_limit_two_u_inside() -> None:
    """0.977 (JCGM 106:2012 8.3; ISO 14253-1, 1998)."""
    assert fit_probability(0, ONE, limits_of(most=2 * ONE)) == pytest.approx(0.97725, abs=0.00001)


def test_m20_a_guard_of_1_65_u_is_one_sided_95_percent() -> None:
    """ISO 14253-1 (2017)."""
    ours = fit_probability(0, ONE, limits_of(most=round(1.64485 * ONE)))
    assert ours == pytest.approx(0.95, abs=0.000001)


def test_m21_a_specific_risk_between_two_limits() -> None:
    """N(10, 0.4) between 9 and 11: risk 0.01242, each tail 0.00621."""
    inside = fit_probability(10 * ONE, 0.4 * ONE, limits_of(9 * ONE, 11 * ONE))
    below = fit_probability(10 * ONE, 0.4 * ONE, limits_of(most=9 * ONE))
    above = fit_probability(10 * ONE, 0.4 * ONE, limits_of(least=11 * ONE))
    assert 1 - inside == pytest.approx(0.01242, abs=0.000005)
    assert below == pytest.approx(0.00621, abs=0.000005)
    assert above == pytest.approx(below, abs=1e-12)


@pytest.mark.parametrize(("z", "said"), [(1.9, None), (2.1, "note"), (2.9, "note"), (3.1, "ask")])
@pytest.mark.parametrize("sign", [-1, 1])
def test_m26_routes_are_judged_by_the_bands_of_a_z_score(z: float, said: str, sign: int) -> None:
    """To 2 satisfactory, 2 to 3 questionable, beyond 3 not: quiet, a note, a question."""
    agreed = judged().case
    assert agreed is not None
    assert agreed.routes is not None
    assert agreed.routes.difference is not None
    assert agreed.routes.difference.nm == 0
    old = 49 * 25_400_000 + sign * z * agreed.routes.difference.u_nm
    length = {"text": f"{old / 1_000_000:.3f} mm", "method": "tape"}
    verdict = judged(old_length_face_to_thread=length)
    assert fired(verdict).get("route-boat-vs-old") == said


def test_m27_the_pale_fog_is_twice_the_standard_uncertainty() -> None:
    """u = 0.35 is stated as 0.70 with k = 2 (NIST; the Guide, 7.2.2): so wide the fog is drawn."""
    stack = {"gap_min": 12.7, "gap_goal": 19.05, "gap_max": 25.4, "predicted_gap": 19.05}
    drawn = gap_picture({**stack, "u_mm": 0.35}).shapes
    paper = {shape.fill: _width(shape) for shape in drawn if isinstance(shape, Polygon)}
    a_millimetre = paper["band"] / (25.4 - 12.7)
    assert paper["fog-1"] / a_millimetre == pytest.approx(2 * 0.35)
    assert paper["fog-2"] / a_millimetre == pytest.approx(
        2 * float(metrology("M27")["expected"][2:6])
    )
    assert _within_u(2) == pytest.approx(0.95, abs=0.005)


def _width(shape: Polygon) -> float:
    across = [x for x, _ in shape.points]
    return max(across) - min(across)


def _within_u(times: int) -> float:
    return fit_probability(0, ONE, limits_of(-times * ONE, times * ONE))
