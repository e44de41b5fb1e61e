"""The stages of a shaft in the shop, in their order, and which step follows which."""

from __future__ import annotations

from enum import StrEnum


class Stage(StrEnum):
    """Where one shaft stands."""

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
_LINE = (
    Stage.WAITING,
    Stage.SAWN,
    Stage.MADE,
    Stage.INSPECTED,
    Stage.PACKED,
    Stage.SHIPPED,
)
DONE = frozenset({Stage.SHIPPED, Stage.CANCELLED})
# What a press on the button says has been done.
BUTTONS = {
    Stage.SAWN: "Bar sawn",
    Stage.MADE: "Shaft made",
    Stage.INSPECTED: "Inspected, on to packing",
    Stage.PACKED: "Packed",
    Stage.SHIPPED: "Gone",
}
# A bar that is sawn is sawn: the step to it is not taken back.
_BACK = {Stage.MADE: Stage.SAWN, Stage.INSPECTED: Stage.MADE, Stage.PACKED: Stage.INSPECTED}


def after(stage: Stage) -> Stage | None:
    """The next stage, or None at the end.

    >>> after(Stage.MADE), after(Stage.SHIPPED)
    (<Stage.INSPECTED: 'inspected'>, None)
    """
    return None if stage in DONE else _LINE[_LINE.index(stage) + 1]


def before(stage: Stage) -> Stage:
    """The stage from which this one is reached. Raises KeyError for the first and for no step."""
    at = _LINE.index(stage) if stage in _LINE else 0
    if at == 0:
        raise KeyError(stage)
    return _LINE[at - 1]


def step_back(stage: Stage) -> Stage | None:
    """Where a wrong press is taken back to; None where nothing can be taken back."""
    return _BACK.get(stage)
