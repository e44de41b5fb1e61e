"""The boat as a whole: log, rudder, twins."""

from __future__ import annotations

from intake.checks.base import Check

CHECKS: tuple[Check, ...] = ()
