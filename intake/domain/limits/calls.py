"""Limits of the call-backs: how soon a question is asked. Common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class CallLimits:
    """Limits of the call-backs: how soon a question is asked."""

    # Hours from the request to the call; fewer where a wrong cut would cost much, by the price
    # of the parts. Nobody is called sooner than `call_soonest_hours` after asking.
    call_within_hours: int = 48
    call_within_hours_dear: int = 24
    call_dear_from: int = 300
    call_soonest_hours: int = 1

    # Days a part needs in the shop and on the road before she can run.
    days_shop_and_road: int = 9
