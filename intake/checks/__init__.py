"""All checks, in the order in which a call would take them up."""

from __future__ import annotations

from intake.checks import bearing, coupling, desk, diameter, entry, gap, lengths, strength
from intake.checks.base import Check

CHECKS: tuple[Check, ...] = (
    *entry.CHECKS,
    *lengths.CHECKS,
    *gap.CHECKS,
    *diameter.CHECKS,
    *bearing.CHECKS,
    *coupling.CHECKS,
    *strength.CHECKS,
    *desk.CHECKS,
)
BY_ID: dict[str, Check] = {check.id: check for check in CHECKS}
