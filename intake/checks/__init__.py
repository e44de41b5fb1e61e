"""All checks, in the order in which a call would take them up."""

from __future__ import annotations

from intake.checks import (
    bearing,
    bolts,
    budget,
    coupling,
    decimals,
    desk,
    diameter,
    ends,
    entry,
    flange,
    gap,
    gap_now,
    habits,
    history,
    layout,
    lengths,
    needed,
    pieces,
    slips,
    strength,
    units,
    wear,
    witnesses,
)
from intake.checks.base import Check

CHECKS: tuple[Check, ...] = (
    *units.CHECKS,
    *entry.CHECKS,
    *needed.CHECKS,
    *decimals.CHECKS,
    *habits.CHECKS,
    *lengths.CHECKS,
    *slips.CHECKS,
    *pieces.CHECKS,
    *budget.CHECKS,
    *gap_now.CHECKS,
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
