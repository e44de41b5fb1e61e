"""Limits of the propeller end: taper, thread, key, nut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class EndsLimits:
    """Limits of the propeller end: taper, thread, key, nut."""
