"""Limits of the boat as a whole: log, rudder, twins. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class LayoutLimits:
    """Limits of the boat as a whole: log, rudder, twins."""
