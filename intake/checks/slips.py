"""Single slips that one difference between two routes would betray."""

from __future__ import annotations

from intake.checks.base import Check

CHECKS: tuple[Check, ...] = ()
