"""The boat as a whole: log, rudder, how it was measured; both sides together are in `twins`."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks import twins
from intake.checks.base import DIAMETER, LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity

# What cannot be reached from inside a boat that floats.
_OUTSIDE = (
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "strut_barrel",
    "tail_to_thread",
    "gap_now",
)


@check(
    "log-clearance",
    Severity.ASK,
    ask="What is the smallest hole the shaft has to pass?",
    inputs=DIAMETER,
    needs=("log_id",),
    likely={"I-HOLE": 4, "I-DIAREAD": 3, "I-OTHER": 2},
)
def the_shaft_passes_the_log(case: Case) -> Iterator[Mismatch]:
    """The shaft has too little room in its log.

    A thicker shaft than before, or the wrong hole measured.
    """
    log, size, limits = case.sheet.length("log_id"), case.size, case.limits
    if log is None or size is None:
        return
    room = log - size.diameter
    if room >= case.metric_or_inch(limits.log_over_shaft, limits.log_over_shaft_metric):
        return
    least = case.metric_or_inch(limits.log_over_shaft_stop, limits.log_over_shaft_stop_metric)
    words = "The log leaves a shaft of this size too little room."
    severity = Severity.STOP if room < least else None
    yield Mismatch(("log_id", "dia_clean"), words, severity=severity)


@check(
    "rudder-clear",
    Severity.NOTE,
    ask="How far is the rudder from the shaft's tip, and does it swing clear?",
    inputs=LENGTHS,
    needs=("rudder_clear",),
)
def the_rudder_stands_clear(case: Case) -> Iterator[Mismatch]:
    """The rudder stands too near to the new shaft's tip to pull the propeller.

    The tip moves aft with a wider gap or a longer shaft.
    """
    room, limits = _room_to_rudder_nm(case), case.limits
    if room is None:
        return
    hub = case.sheet.length("hub_length")
    needed = hub + limits.rudder_past_hub if hub is not None else limits.rudder_least
    if room < max(needed, limits.rudder_least).nm:
        words = "The rudder stands near the shaft's new tip: the propeller may not come off."
        yield Mismatch(("rudder_clear",), words)


@check(
    "withdrawal-path",
    Severity.NOTE,
    ask="Which way did the old shaft come out?",
    inputs=LENGTHS,
    needs=("rudder_clear", "shaft_in"),
)
def the_shaft_can_come_out(case: Case) -> Iterator[Mismatch]:
    """The shaft is still in the boat, and longer than the room before the rudder.

    It comes out past the rudder, or inside with the gearbox lifted; the yard should know which.
    """
    room = case.sheet.length("rudder_clear")
    if room is None or case.overall is None or case.sheet.choice("shaft_in") != "in":
        return
    if case.overall > room:
        words = "The shaft is longer than the room before the rudder: it needs another way out."
        yield Mismatch(("rudder_clear", "shaft_in"), words)


@check(
    "afloat-vs-strut",
    Severity.ASK,
    ask="Who measured the strut, and where was the boat then?",
    source="logic",
    needs=("afloat_or_ashore", "|".join(_OUTSIDE)),
    likely={"E-PAPERS": 6, "I-OTHER": 1},
)
def nobody_measured_a_strut_afloat(case: Case) -> Iterator[Mismatch]:
    """The boat is afloat and lengths from under it are given from papers or memory.

    Old notes, of which nobody knows how they were taken. A tape said to have been held there while
    she floats is another matter, and is asked about as such.
    """
    sheet = case.sheet
    if sheet.choice("afloat_or_ashore") != "afloat":
        return
    reported = tuple(
        slug
        for slug in _OUTSIDE
        if slug in sheet.readings and sheet.readings[slug].method == "papers"
    )
    if reported:
        words = "The boat is afloat, and lengths from under it are not from a tape."
        yield Mismatch((*reported, "afloat_or_ashore"), words)


def _room_to_rudder_nm(case: Case) -> int | None:
    """Tip to rudder with the new shaft in, as far as it is known how the tip moves."""
    room = case.sheet.length("rudder_clear")
    if room is None:
        return None
    before, after = case.sheet.length("gap_now"), case.gap
    if before is None or after is None:
        before, after = case.sheet.length("old_length_face_to_thread"), case.cut
    moved = after.nm - before.nm if before is not None and after is not None else 0
    return room.nm - moved


CHECKS = (
    the_shaft_passes_the_log,
    the_rudder_stands_clear,
    the_shaft_can_come_out,
    nobody_measured_a_strut_afloat,
    *twins.CHECKS,
)
