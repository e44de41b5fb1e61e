"""Both sides of a twin together: each is judged with the other's current sheet as a fact."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import LENGTHS, STRUT, Mismatch, check
from intake.domain.case import Case, build_case
from intake.domain.history import History
from intake.domain.sheet import Sheet
from intake.domain.strut import strut_distance
from intake.domain.verdict import Severity

_NOTHING = History()
_OTHER = {"port": "starboard", "starboard": "port"}


@check(
    "twin-symmetry",
    Severity.ASK,
    ask="How do the two sides differ when you stand behind her?",
    inputs=STRUT,
    needs=("face_to_strut_aft",),
    likely={"R-WHOLE": 4, "B-MOVED": 3, "D-CBACK": 2},
)
def the_two_sides_are_alike(case: Case) -> Iterator[Mismatch]:
    """The two sides' lengths to the strut differ by more than twins do, or not at all.

    One is wrong, or the gearboxes are staggered. The same number to the mark behind two different
    gearboxes was perhaps measured once.
    """
    sister = case.history.sister
    if sister is None or case.routes is None or case.routes.strut is None:
        return
    other = strut_distance(sister, case.limits)
    if other is None:
        return
    apart, limits = abs(case.routes.strut.nm - other.nm), case.limits
    if apart > case.metric_or_inch(limits.twins_differ, limits.twins_differ_metric).nm:
        words = "The two sides differ by more than the sides of one boat do."
        yield Mismatch(("face_to_strut_aft", "boat_name_and_station"), words)
    elif apart <= limits.twins_same.nm and _gearboxes_differ(case.sheet, sister):
        words = "The two sides have the same length behind two different gearboxes."
        yield Mismatch(("face_to_strut_aft", "gear_ratio"), words, severity=Severity.NOTE)


@check(
    "twin-rotation",
    Severity.ASK,
    ask="Which way does each turn, from behind?",
    needs=("rotation",),
    likely={"E-COPY": 4, "K-TYPED": 3, "I-SIDE": 2},
)
def the_two_propellers_turn_against_each_other(case: Case) -> Iterator[Mismatch]:
    """Both propellers of a twin are said to turn the same way.

    Typed twice, or judged while facing aft.
    """
    sister = case.history.sister
    if sister is None or _OTHER.get(case.sheet.station) != case.history.sister_station:
        return
    if case.sheet.choices.get("rotation") == sister.choices.get("rotation"):
        words = "Both sides are said to turn the same way."
        yield Mismatch(("rotation", "boat_name_and_station"), words)


@check(
    "side-swapped",
    Severity.STOP,
    ask="Which hand were you holding the tape in, facing which way?",
    source="own records; limits common practice",
    inputs=LENGTHS,
    likely={"I-SIDE": 9, "I-OTHER": 1},
)
def port_is_port(case: Case) -> Iterator[Mismatch]:
    """The new shaft has the length of the other side's last one, and not of its own side's.

    Whoever measured was facing aft. It is a stop where both sides tell so, and a question where
    only one was sent.
    """
    last, station = dict(case.history.last_by_side), case.sheet.station
    own, other = last.get(station), last.get(_OTHER.get(station, ""))
    if own is None or other is None or case.exact is None:
        return
    near = case.limits.sides_same
    if not _crossed(case.exact, own, other, near):
        return
    words = "The length is that of the other side's last shaft, not of this side's."
    sister = _sister_length(case)
    if sister is None:
        yield Mismatch(("boat_name_and_station",), words, severity=Severity.ASK)
    elif _crossed(sister, other, own, near):
        yield Mismatch(("boat_name_and_station",), words)


def _crossed(length: Length, own: Length, other: Length, near: Length) -> bool:
    return abs(length - other) <= near and abs(length - own) > near


def _sister_length(case: Case) -> Length | None:
    """The exact length that the opposite side's own sheet asks for; None where none was sent."""
    sister, station = case.history.sister, case.history.sister_station
    if sister is None or station != _OTHER.get(case.sheet.station):
        return None
    return build_case(sister, case.stock, _NOTHING, case.limits).exact


def _gearboxes_differ(one: Sheet, other: Sheet) -> bool:
    """True where both sides tell of their gearboxes, and tell of two."""
    ratios = one.part("gear_ratio", "text"), other.part("gear_ratio", "text")
    drives = one.choices.get("drive_layout"), other.choices.get("drive_layout")
    return any(a and b and a != b for a, b in (ratios, drives))


CHECKS = (
    the_two_sides_are_alike,
    the_two_propellers_turn_against_each_other,
    port_is_port,
)
