"""What else speaks of the shaft's size: bearing, coupling bore, propeller nut, and what we sent."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import DIAMETER, Mismatch, check
from intake.checks.diameter import ALL_PARTS, measured_by
from intake.domain.case import Case
from intake.domain.diameter import nearest_size, steps_apart
from intake.domain.routes import end_of
from intake.domain.verdict import Severity


@check(
    "dia-vs-bearing",
    Severity.STOP,
    ask="What is stamped on the bearing or its packaging?",
    holds=("shaft", "bearing"),
    needs=("dia_clean", "bearing_id_or_mark"),
    likely={"I-DIAREAD": 12, "O-OLDBEARING": 5, "I-HOLE": 5},
)
def the_bearing_runs_on_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The bearing's inside size is not the shaft's size.

    Usually the worn flutes were measured, or the journal, where the shaft is thinnest. One stock
    step, or an inside that was measured and is no size at all, is asked rather than stopped.
    """
    reading, size = case.sheet.readings.get("bearing_id_or_mark"), case.size
    if reading is None or size is None:
        return
    bearing = case.bearing_size
    if bearing == size:
        return
    words = "The bearing's inside size and the shaft's size are not the same."
    worn_flutes = bearing is None and reading.u_nm > 0
    one_step = bearing is not None and steps_apart(size, bearing) == 1
    severity = Severity.ASK if worn_flutes or one_step else Severity.STOP
    yield Mismatch(("bearing_id_or_mark", "dia_clean"), words, severity=severity)


@check(
    "dia-vs-coupling-bore",
    Severity.ASK,
    ask="What is between shaft and coupling: any sleeve?",
    holds=("shaft", "coupling"),
    inputs=DIAMETER,
    needs=("coupling_bore", "dia_clean|bearing_id_or_mark"),
    likely={"I-DIAREAD": 12, "I-HOLE": 6, "I-COMBO": 3},
)
def the_coupling_is_bored_for_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The coupling's straight bore is not the shaft's size.

    A coupling with a sleeve in it, or one of the two misread.
    """
    bore, size, sheet = case.sheet.part("coupling_bore", "size"), case.size, case.sheet
    if bore is None or size is None or sheet.part("coupling_bore", "kind") == "taper":
        return
    near = abs(bore.nm - size.diameter.nm) <= case.limits.coupling_bore_near.nm
    if not near and nearest_size(bore) != size:
        words = "The coupling's bore and the shaft's size are not the same."
        yield Mismatch(("coupling_bore", measured_by(case)), words)


@check(
    "dia-vs-thread",
    Severity.ASK,
    ask="What nut is on it: width across flats, and threads in an inch?",
    source="SAE J755",
    inputs=DIAMETER,
    needs=("thread", "dia_clean|bearing_id_or_mark"),
    likely={"R-FLIP": 15, "I-DIAREAD": 8, "I-SYSTEM": 3},
)
def the_nut_belongs_to_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The propeller nut's thread is not the one a shaft of this size has.

    The peaks were counted for the gaps, the end was made to no standard, or the diameter is wrong.
    Of metric ends only the system is judged: no table at hand gives their threads.
    """
    thread, size = case.sheet.part("thread", "text"), case.size
    if thread is None or size is None:
        return
    end = end_of(size)
    fits = thread.text == end.thread if end else thread.system == size.system
    if not fits:
        words = "The nut's thread is not the usual one of a shaft of this size."
        yield Mismatch(("thread", measured_by(case)), words)


@check(
    "dia-changed-vs-history",
    Severity.STOP,
    ask="What has changed on this boat since the last shaft we sent?",
    source="logic",
    holds=ALL_PARTS,
    inputs=DIAMETER,
    needs=("dia_clean|bearing_id_or_mark",),
    likely={"I-OTHER": 6, "I-SIDE": 3, "I-DIAREAD": 6},
)
def the_boat_has_the_size_we_sent(case: Case) -> Iterator[Mismatch]:
    """The diameter is not that of the last shaft we supplied for this boat and side.

    Another boat or side, or a new engine.
    """
    last = case.history.last_diameter
    if last is not None and case.size is not None and last != case.size.diameter:
        words = "We supplied another diameter for this boat the last time."
        yield Mismatch((measured_by(case),), words)


CHECKS = (
    the_bearing_runs_on_the_shaft,
    the_coupling_is_bored_for_the_shaft,
    the_nut_belongs_to_the_shaft,
    the_boat_has_the_size_we_sent,
)
