"""Outside check 6: how far apart bearings may stand.

Source: a published worked example: 1 in, 2000 rpm, E 16 000 000 psi, 0.304 lb/in³, printed
3 ft 5 in (3.412 ft). L = sqrt(3.21·D/N)·(E/w)^(1/4); 3.21 is the first bending critical of a
pinned-pinned Euler-Bernoulli beam, 3.2151 when worked out, so it holds no margin. The reference
here is that beam, and `scipy` for the root of tan x = tanh x of a fixed-pinned one.
"""

from __future__ import annotations

from math import pi, sqrt, tan, tanh

import pytest
from scipy.optimize import brentq

from catalog.domain.lengths import inches
from catalog.domain.materials import material
from catalog.domain.strength import bearing_span_inches
from tests.sources.vectors import sizing

G_INCHES = 386.0886  # standard gravity, in/s²
EXAMPLE = (inches(1), 2000, 16e6, 0.304)


def test_t5_the_worked_example() -> None:
    found = bearing_span_inches(*EXAMPLE)
    assert found == pytest.approx(3 * 12 + 5, abs=float(sizing("T5")["tolerance"].split()[0]))
    assert found / 12 == pytest.approx(3.4123, abs=0.00006)


def test_t6_our_constant_is_the_beam_rounded_down() -> None:
    """(L/12)²·N/D·sqrt(w/E) of our own span is 3.21; Euler-Bernoulli gives 3.2151."""
    ours = (bearing_span_inches(*EXAMPLE) / 12) ** 2 * 2000 * sqrt(0.304 / 16e6)
    beam = pi * 60 / 8 * sqrt(G_INCHES) / 144
    assert beam == pytest.approx(float(sizing("T6")["recomputed"]), abs=0.00001)
    assert beam == pytest.approx(3.2151, abs=0.00005)
    assert ours == pytest.approx(3.21, abs=1e-9)
    assert 0 <= beam - ours <= float(sizing("T6")["tolerance"])


@pytest.mark.parametrize(
    ("size", "rpm", "pinned", "fixed"),
    [("1", 4500, 31.9, 39.9), ("1 1/8", 3600, 37.8, 47.3), ("1 1/2", 1100, 79.0, 98.8)],
)
def test_three_spans_of_s20910(size: str, rpm: float, pinned: float, fixed: float) -> None:
    """Worked out by the same formula, inches; both ends free to turn, then one clamped."""
    metal = material("S20910")
    assert metal
    shaft = (inches(size), rpm, metal.modulus_psi, float(metal.density_lb_in3))
    assert bearing_span_inches(*shaft) == pytest.approx(pinned, abs=0.051)
    assert bearing_span_inches(*shaft, fixed=True) == pytest.approx(fixed, abs=0.051)


def test_a_clamped_end_is_worth_a_quarter_more() -> None:
    """First root of tan x = tanh x over pi: 3.9266 / 3.1416 = 1.25."""
    root = brentq(lambda x: tan(x) - tanh(x), pi + 0.1, 1.5 * pi - 0.1)
    ratio = bearing_span_inches(*EXAMPLE, fixed=True) / bearing_span_inches(*EXAMPLE)
    assert ratio == pytest.approx(root / pi, rel=0.001)
