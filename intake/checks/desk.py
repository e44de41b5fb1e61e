"""Bars and parcels: whether the desk can make and send what the sheet asks for."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "stock-length",
    Severity.STOP,
    ask="How would a one-piece shaft of that length be got into the boat?",
    source="common practice; catalogue",
    inputs=LENGTHS,
)
def a_bar_is_long_enough(case: Case) -> Iterator[Mismatch]:
    """No bar in the catalogue is long enough for this shaft in one piece.

    A very long shaft, or a length in the wrong unit.
    """
    overall, size, limits = case.overall, case.size, case.limits
    if overall is None or size is None:
        return
    bars = case.stock.bars(size.system, size.diameter, case.alloy)
    lengths = [bar.stock_length for bar in bars if bar.stock_length]
    usual = case.metric_or_inch(limits.bar_longest, limits.bar_longest_metric)
    if overall + limits.bar_facing_and_saw > max(lengths, default=usual):
        words = "No bar we stock is long enough for this shaft in one piece."
        yield Mismatch(("face_to_strut_aft", "old_length_face_to_thread"), words)


CHECKS = (a_bar_is_long_enough,)
