"""Geometry and load of a coupling's flange: its bolt circle and its torque."""

from __future__ import annotations

import math

from catalog.domain.lengths import Length

# lb-in for one horsepower at one turn a minute: 33 000 ft lbf/min x 12 / (2 pi), rounded as the
# published formula rounds it.
_LB_IN = 63_025


def bolt_circle_nm(count: int, spacing: Length) -> float:
    """The circle of ``count`` holes (2 or more) whose neighbours stand ``spacing`` apart.

    BC = c / sin(pi / n): 3 holes 1.155 c, 4 holes 1.414 c, 6 holes 2 c. Source: geometry.
    """
    return spacing.nm / math.sin(math.pi / count)


def torque_lb_in(horsepower: float, rpm: float) -> float:
    """Torque in lb-in of a shaft that turns at ``rpm`` (> 0): T = 63025 P / N.

    >>> round(torque_lb_in(310, 4600))
    4247
    """
    return _LB_IN * horsepower / rpm
