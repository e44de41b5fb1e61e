"""What was expected of a shaft, and how far the gap it was fitted with lies from that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import NM_PER_MM, Length, mm


@dataclass(frozen=True, slots=True)
class Expected:
    """The gap a shaft should leave, and its band. ``u`` is one standard uncertainty (over 0)."""

    gap: Length
    u: Length
    least: Length
    goal: Length
    most: Length
    length: Length
    system: str

    def is_fair(self, gap: Length) -> bool:
        """Whether a gap lies inside the band; its ends belong to it."""
        return self.least <= gap <= self.most

    def after(self, kind: str, by: Length, told: Length | None) -> Expected:
        """The same once the shaft was shortened by so much, or a spacer of it put in.

        ``told``: the gap as it was fitted before; None: as it was predicted.
        """
        before = self.gap if told is None else told
        if kind == "shorten":
            return replace(self, gap=before - by, length=self.length - by)
        return replace(self, gap=before + by)


def expected(stack: Mapping[str, Any], made: Length | None = None) -> Expected | None:
    """What the stored stack-up of a sheet predicts; None where it predicts no gap.

    ``made``: coupling face to thread end as it was made. A shaft made longer stands the propeller
    further aft, so the gap grows by as much: g = L - X - hub - nut.
    """
    if not stack.get("predicted_gap") or not stack.get("length"):
        return None
    ordered = mm(stack["length"])
    length = ordered if made is None else made
    return Expected(
        gap=mm(stack["predicted_gap"]) + (length - ordered),
        u=Length(round(Decimal(str(stack.get("u_mm") or 0)) * NM_PER_MM)),
        least=mm(stack["gap_min"]),
        goal=mm(stack["gap_goal"]),
        most=mm(stack["gap_max"]),
        length=length,
        system=str(stack.get("system") or "inch"),
    )


ASKED_AFTER = (7, 30)  # days after it left us; common practice, no source


def asked_after(days: int | None, told: frozenset[int], *, put_off: bool) -> int:
    """After how many days it is asked about now, 0 for not at all. ``days`` since it was sent.

    Nobody's silence counts as a yes: what was not told is asked for again, the later time alone.
    ``put_off``: somebody named a later day to ask on, and it has not come.

    >>> asked_after(6, frozenset(), put_off=False), asked_after(7, frozenset(), put_off=False)
    (0, 7)
    >>> asked_after(31, frozenset({7}), put_off=False), asked_after(31, frozenset(), put_off=True)
    (30, 0)
    """
    if days is None or put_off or ASKED_AFTER[-1] in told:
        return 0
    due = [after for after in ASKED_AFTER if days >= after]
    return 0 if not due or due[-1] in told else due[-1]


def next_answer(days: int, told: frozenset[int]) -> int:
    """Under which of the times an answer is kept that comes by itself; 0: all are told.

    >>> next_answer(3, frozenset()), next_answer(12, frozenset({7})), next_answer(40, frozenset())
    (7, 30, 30)
    """
    if ASKED_AFTER[-1] in told:
        return 0
    later = [after for after in ASKED_AFTER if after not in told]
    due = [after for after in later if days >= after and after > max(told, default=0)]
    return due[-1] if due else min(after for after in later if after > max(told, default=0))
