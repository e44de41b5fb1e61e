"""All checks, in the order in which a call would take them up."""

from __future__ import annotations

from intake.checks import (
    bearing,
    bolts,
    coupling,
    desk,
    diameter,
    ends,
    entry,
    flange,
    gap,
    history,
    layout,
    lengths,
    slips,
    strength,
    wear,
    witnesses,
)
from intake.checks.base import Check

CHECKS: tuple[Check, ...] = (
    *entry.CHECKS,
    *lengths.CHECKS,
    *slips.CHECKS,
    *gap.CHECKS,
    *diameter.CHECKS,
    *witnesses.CHECKS,
    *bearing.CHECKS,
    *wear.CHECKS,
    *flange.CHECKS,
    *bolts.CHECKS,
    *coupling.CHECKS,
    *ends.CHECKS,
    *strength.CHECKS,
    *layout.CHECKS,
    *history.CHECKS,
    *desk.CHECKS,
)
BY_ID: dict[str, Check] = {check.id: check for check in CHECKS}
