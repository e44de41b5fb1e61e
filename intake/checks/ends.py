"""The propeller end: taper, thread, key, nut, and the propeller on it."""

from __future__ import annotations

from intake.checks.base import Check

CHECKS: tuple[Check, ...] = ()
