"""What was accepted still holds: a newer sheet, choice or price says nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from intake.checks.base import Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check
from quotes.domain.agreed import NOT_TOLD, Agreed


@dataclass(frozen=True, slots=True)
class Beside:
    """What was accepted, and what is known now."""

    accepted: Agreed
    now: Agreed


@dataclass(frozen=True, slots=True)
class AcceptedLimits:
    """``left_out``: keys of facts that may change after acceptance without making it void: what is
    measured as a caution, and neither cut nor chosen by (common practice, no source)."""

    left_out: frozenset[str] = frozenset(
        {"reading.rudder_clear", "reading.gland_position", "reading.log_id", "reading.bearing_play"}
    )


@check(
    "changed-after-accept",
    Severity.STOP,
    AcceptedLimits(),
    ask="What made the number change?",
    source="logic",
)
def nothing_changed(beside: Beside, limits: AcceptedLimits) -> Iterator[Mismatch]:
    """Something differs from what was accepted, by however little.

    A late correction, mostly. The new version must be accepted before metal is cut.
    """
    keys = dict.fromkeys(one.key for one in (*beside.accepted.facts, *beside.now.facts))
    for key in keys:
        before, now = beside.accepted.of(key), beside.now.of(key)
        same = before is not None and now is not None and before.exact == now.exact
        if same or key in limits.left_out:
            continue
        name = (before or now).name  # type: ignore[union-attr]  # one of them has the key
        was, is_now = (one.words if one else NOT_TOLD for one in (before, now))
        yield Mismatch((key,), f"{name} was {was} when it was accepted, and is {is_now} now.")
