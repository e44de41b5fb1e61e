"""Limits of the coupling and its flange. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class CouplingLimits:
    """Limits of the coupling and its flange."""

    # Flange.
    hub_not_flange: tuple[Length, Length] = (inches("1 3/4"), inches("2 7/8"))
    flange_near: Length = inches("1/16")
    flanges: tuple[Length, ...] = (
        inches("3 1/2"),
        inches(4),
        inches("4 1/2"),
        inches(5),
        inches("5 3/4"),
        inches("7 1/4"),
        mm(100),
        mm(102),
        mm(127),
    )
    flange_diameters: tuple[tuple[Length, Length, Length], ...] = (
        (inches("3 1/2"), inches("3/4"), inches(1)),
        (inches(4), inches("7/8"), inches("1 1/4")),
        (inches(5), inches("1 1/8"), inches("1 3/4")),
    )
    metric_twin: Length = mm("0.5508")  # 45 mm stands for 1-3/4 in
    small_flange: Length = inches("3 1/2")
    small_flange_stop_from: Length = inches("1 1/4")
