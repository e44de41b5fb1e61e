"""The stages of a shaft in the shop, and of a parcel of parts, and which step follows which."""

from __future__ import annotations

from enum import StrEnum


class Stage(StrEnum):
    """Where one shaft stands, or one parcel."""

    WAITING = "waiting"
    SAWN = "sawn"
    MADE = "made"
    INSPECTED = "inspected"
    PACKED = "packed"
    SHIPPED = "shipped"
    CANCELLED = "cancelled"


WORDS = {
    Stage.WAITING: "waiting for its bar",
    Stage.SAWN: "sawn",
    Stage.MADE: "made",
    Stage.INSPECTED: "inspected",
    Stage.PACKED: "packed",
    Stage.SHIPPED: "shipped",
    Stage.CANCELLED: "called off",
}
Line = tuple[Stage, ...]
SHAFT: Line = (
    Stage.WAITING,
    Stage.SAWN,
    Stage.MADE,
    Stage.INSPECTED,
    Stage.PACKED,
    Stage.SHIPPED,
)
# Parts alone: nothing is sawn and nothing is inspected.
PARCEL: Line = (Stage.WAITING, Stage.PACKED, Stage.SHIPPED)
PARCEL_WORDS = {**WORDS, Stage.WAITING: "waiting to be packed"}
DONE = frozenset({Stage.SHIPPED, Stage.CANCELLED})
# What a press on the button says has been done.
BUTTONS = {
    Stage.SAWN: "Bar sawn",
    Stage.MADE: "Shaft made",
    Stage.INSPECTED: "Inspected, on to packing",
    Stage.PACKED: "Packed",
    Stage.SHIPPED: "Gone",
}
# A bar that is sawn is sawn: the step to it is not taken back. A parcel is opened again.
_BACK = {Stage.MADE: Stage.SAWN, Stage.INSPECTED: Stage.MADE, Stage.PACKED: Stage.INSPECTED}
_PARCEL_BACK = {Stage.PACKED: Stage.WAITING}


def after(stage: Stage, line: Line = SHAFT) -> Stage | None:
    """The next stage, or None at the end.

    >>> after(Stage.MADE), after(Stage.SHIPPED), after(Stage.WAITING, PARCEL)
    (<Stage.INSPECTED: 'inspected'>, None, <Stage.PACKED: 'packed'>)
    """
    return None if stage in DONE else line[line.index(stage) + 1]


def before(stage: Stage, line: Line = SHAFT) -> Stage:
    """The stage from which this one is reached. Raises KeyError for the first and for no step."""
    at = line.index(stage) if stage in line else 0
    if at == 0:
        raise KeyError(stage)
    return line[at - 1]


def step_back(stage: Stage, line: Line = SHAFT) -> Stage | None:
    """Where a wrong press is taken back to; None where nothing can be taken back."""
    return (_PARCEL_BACK if line == PARCEL else _BACK).get(stage)
