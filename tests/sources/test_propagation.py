"""Our sums of readings against the package `uncertainties` (first order, correlations kept)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat
from uncertainties.core import AffineScalarFunc

from intake.domain.estimate import Estimate, blend

_u = st.floats(0.5, 500.0)


def theirs_and_ours(
    strut_u: float, tail_u: float, gap_u: float, old_u: float
) -> tuple[AffineScalarFunc, AffineScalarFunc, Estimate, Estimate]:
    strut, tail = ufloat(1120775, strut_u), ufloat(123825, tail_u)
    gap, old = ufloat(19050, gap_u), ufloat(1244600, old_u)
    boat_theirs, old_theirs = strut + 19050 + (tail - gap), old + 19050 - gap
    boat = Estimate(1120775 + 19050 + 123825 - 19050, {"s": strut_u, "t": tail_u, "g": -gap_u})
    shaft = Estimate(1244600 + 19050 - 19050, {"o": old_u, "g": -gap_u})
    return boat_theirs, old_theirs, boat, shaft


@given(_u, _u, _u, _u)
def test_sums_and_differences_keep_what_is_shared(
    strut_u: float, tail_u: float, gap_u: float, old_u: float
) -> None:
    boat_theirs, old_theirs, boat, old = theirs_and_ours(strut_u, tail_u, gap_u, old_u)
    assert boat.u_nm == pytest.approx(boat_theirs.s)
    assert boat.minus(old).u_nm == pytest.approx((boat_theirs - old_theirs).s)
    assert boat.plus(old).u_nm == pytest.approx((boat_theirs + old_theirs).s)


@given(_u, _u, _u, _u)
def test_the_blend_is_the_weighted_mean(
    strut_u: float, tail_u: float, gap_u: float, old_u: float
) -> None:
    boat_theirs, old_theirs, boat, old = theirs_and_ours(strut_u, tail_u, gap_u, old_u)
    one, other = boat_theirs.s**-2, old_theirs.s**-2
    mean = (boat_theirs * one + old_theirs * other) / (one + other)
    ours = blend(boat, old)
    assert ours.u_nm == pytest.approx(mean.s)
    assert ours.nm == pytest.approx(mean.n, abs=0.51)


@given(st.integers(0, 10**10), _u, _u)
def test_two_equal_lengths_blend_to_exactly_that_length(nm: int, one: float, other: float) -> None:
    assert blend(Estimate(nm, {"a": one}), Estimate(nm, {"b": other})).nm == nm
