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
    # Flanges that an inch tape and a metric one read alike.
    flange_twins: tuple[Length, ...] = (inches(4), mm(100), mm(102), inches(5))
    flange_diameters: tuple[tuple[Length, Length, Length], ...] = (
        (inches("3 1/2"), inches("3/4"), inches(1)),
        (inches(4), inches("7/8"), inches("1 1/4")),
        (inches(5), inches("1 1/8"), inches("1 3/4")),
    )
    metric_twin: Length = mm("0.5508")  # 45 mm stands for 1-3/4 in
    small_flange: Length = inches("3 1/2")
    small_flange_stop_from: Length = inches("1 1/4")
    # Torque in lb-in that a flange carries (common practice; the gearbox maker's data decide).
    flange_torque: tuple[tuple[Length, int], ...] = (
        (inches("3 1/2"), 3_000),
        (inches(4), 7_000),
        (inches(5), 18_000),
    )


@dataclass(frozen=True)
class FasteningLimits:
    """Limits of the flange's bolts and ring, and of how the coupling holds the shaft."""

    # Bolt circles that go with a flange. 100 mm: one engine maker's service manual.
    bolt_circles: tuple[tuple[Length, Length], ...] = (
        (inches("3 1/2"), inches("2 3/4")),
        (inches(4), inches("3 1/4")),
        (inches(5), inches("4 1/4")),
        (mm(100), mm(78)),
    )
    bolt_circle_near: Length = inches("1/8")
    # Between two neighbouring holes, by tape.
    u_bolt_spacing: Length = inches("0.03")
    bolt_circle_u: float = 3.0
    bolt_counts: tuple[int, ...] = (3, 4, 6)
    # Metal left outside a hole, in hole diameters.
    bolt_edge: float = 0.3
    # The ring in the middle of the gearbox flange; its width is judged by the question's range.
    pilot_depth: tuple[Length, Length] = (inches("1/16"), inches("1/4"))
    # Bare shaft between coupling hub and gland, to re-pack it; one shaft diameter at least.
    gland_room: Length = inches(2)
    # How much longer a new hub may be than the old one.
    hub_longer: Length = inches("1/4")
    # A key is the width of a table's within this.
    key_near: Length = inches("1/64")
