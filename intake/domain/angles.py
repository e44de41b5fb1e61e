"""The slope of a shaft, as people write it: ``10``, ``10 deg``, ``10.5°``."""

from __future__ import annotations

import re

from intake.domain.refusals import Refused

_ANGLE = re.compile(r"(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:°|deg|degrees?)?\.?", re.IGNORECASE)
_STEEPEST = 45.0


def read_angle(text: str) -> float:
    """Degrees, from 0 to 45. Raises Refused with one kind sentence.

    >>> read_angle("10,5 deg")
    10.5
    """
    match = _ANGLE.fullmatch(text.strip())
    degrees = float(match[1].replace(",", ".")) if match else _STEEPEST + 1
    if degrees > _STEEPEST:
        raise Refused("Give the slope in degrees, such as 10; a level shaft is 0.")
    return degrees
