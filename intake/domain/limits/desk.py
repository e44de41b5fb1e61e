"""Limits of the desk: bars, parcels, its own records. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class DeskLimits:
    """Limits of the desk: bars, parcels, its own records."""

    # Bar.
    bar_facing_and_saw: Length = inches("1/4")
    bar_longest: Length = inches(144)
    bar_longest_metric: Length = mm(4000)

    # Parcel: what the tube is longer than its shaft, where each class ends, what a home may get.
    tube_extra: Length = inches(4)
    tube_classes: tuple[Length, ...] = (inches(48), inches(72), inches(96), inches(108))
    tube_classes_metric: tuple[Length, ...] = (mm(1200), mm(2000), mm(3000))
    home_tube: Length = inches(72)

    # Weight in pounds.
    weight_two_people: float = 50.0
    weight_pallet: float = 70.0
    weight_home: float = 50.0

    # Own records: a new shaft against the last one supplied.
    repeat_near: Length = inches("1/4")

    # A batch: boats of one customer that are asked for together. So many lengths that are the same
    # to the mark were copied; without an order number it is a batch for so many days.
    batch_same: int = 4
    batch_days: int = 14

    # Own records: a shaft against those of its sisters; how many there must be, and how far it may
    # stand out. 1.4826 makes the median deviation of a normal distribution its standard deviation.
    family_least: int = 5
    family_z: float = 3.5
    family_mad: float = 1.4826
    family_apart: Length = inches(1)
