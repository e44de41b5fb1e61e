"""Limits of the boat as a whole: log, rudder, twins. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class LayoutLimits:
    """Limits of the boat as a whole: log, rudder, twins."""

    # The log's bore over the shaft's diameter.
    log_over_shaft: Length = inches("1/4")
    log_over_shaft_metric: Length = mm(6)
    log_over_shaft_stop: Length = inches("1/8")
    log_over_shaft_stop_metric: Length = mm(3)

    # From the shaft's tip to the rudder, and what a propeller needs to come off past its hub.
    rudder_least: Length = inches(1)
    rudder_past_hub: Length = inches("1/2")

    # Twins: how far the two sides may differ, and how near they are one number.
    twins_differ: Length = inches(1)
    twins_differ_metric: Length = mm(25)
    twins_same: Length = inches("1/16")
    sides_same: Length = inches("1/8")
