"""Stock and the desk's own records against the sheet."""

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


@check(
    "duplicate",
    Severity.NOTE,
    ask="Which of the two requests do you want us to work on?",
    source="logic",
    holds=("shaft", "coupling", "bearing"),
)
def the_request_is_new(case: Case) -> Iterator[Mismatch]:
    """The same contact, boat and side already has an open request.

    Telephoned and filled in; or the yard and the owner both asked.
    """
    if case.history.same_open:
        words = f"The same boat and side is open already: {', '.join(case.history.same_open)}."
        yield Mismatch(("boat_name_and_station",), words)


CHECKS = (a_bar_is_long_enough, the_request_is_new)
