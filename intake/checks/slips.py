"""Single slips that one difference between two routes would betray.

Each fires where the difference has the slip's own size and the slip explains it better than no
slip at all: an uncertain way of measuring must not call everything a lost inch.
"""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.slip_words import likely_slips, share_of
from intake.domain.slips import OK
from intake.domain.strut import level_shortfall
from intake.domain.verdict import Severity

_BOTH = ("face_to_strut_aft", "old_length_face_to_thread")
_TAPES = frozenset({"tape", "tape_helper", "tape_one_hand"})


def _difference(case: Case) -> int | None:
    difference = case.routes.difference if case.routes else None
    return difference.nm if difference else None


def _off_by(case: Case, size: Length) -> bool:
    """True where the two routes differ by that size, either way, within two u."""
    difference = case.routes.difference if case.routes else None
    # Most sheets differ by less than half of it: not worth weighing.
    if difference is None or 2 * abs(difference.nm) < size.nm:
        return False
    return abs(abs(difference.nm) - size.nm) <= case.limits.slip_u * difference.u_nm


def _rather_than_nothing(case: Case, *causes: str) -> bool:
    return share_of(case, *causes) > share_of(case, OK)


def _first_mark(case: Case) -> Length:
    """The first printed mark of the tape: an inch, or a centimetre."""
    metric = case.sheet.readings["face_to_strut_aft"].unit in ("mm", "cm", "m")
    return case.limits.burned_metric if metric else case.limits.burned


@check(
    "burned-inch",
    Severity.ASK,
    ask="Which mark did you hold at the start, and did you take it off afterwards?",
    inputs=LENGTHS,
    needs=_BOTH,
)
def no_inch_was_lost_at_the_start(case: Case) -> Iterator[Mismatch]:
    """The two ways to the length differ by one whole inch (on a metric tape, one centimetre).

    The tape was held at its first mark and that was not taken off, or taken off twice; or a whole
    inch was misread.
    """
    if not _off_by(case, _first_mark(case)):
        return
    if _rather_than_nothing(case, "R-BURN-X", "R-BURN-O", "R-TWICE", "R-WHOLE"):
        words = "A start mark not taken off would explain why the two ways differ."
        yield Mismatch(_BOTH, words, likely=likely_slips(case))


@check(
    "ten-start",
    Severity.STOP,
    ask="Which printed number was against the flange?",
    inputs=LENGTHS,
    needs=_BOTH,
)
def the_tape_did_not_start_on_the_ten(case: Case) -> Iterator[Mismatch]:
    """The two ways to the length differ by ten of the tape's marks, or by nine.

    The tape was started at its 10 mark and nothing, or only one, was taken off.
    """
    mark = _first_mark(case).nm
    ten = Length(mark * case.limits.ten_marks)
    if not (_off_by(case, ten) or _off_by(case, Length(ten.nm - mark))):
        return
    if _rather_than_nothing(case, "R-TEN", "R-SWAP"):
        words = "A tape started on a printed mark would explain why the two ways differ."
        yield Mismatch(_BOTH, words, likely=likely_slips(case))


@check(
    "tape-case",
    Severity.ASK,
    ask="When you pushed the tape case against the far side, where did you read from?",
    inputs=LENGTHS,
    needs=_BOTH,
)
def the_tape_case_was_added(case: Case) -> Iterator[Mismatch]:
    """The boat's length is short of the old shaft's by about the case of a tape.

    An inside measurement, case against the far side, read where the blade leaves it: the length
    printed on the case was not added.
    """
    difference, limits = _difference(case), case.limits
    if difference is None or case.sheet.readings["face_to_strut_aft"].method not in _TAPES:
        return
    short = Length(-difference)
    if limits.tape_case_least <= short <= limits.tape_case_most and (
        _rather_than_nothing(case, "R-CASE")
    ):
        words = "The case of a tape left out would explain why the two ways differ."
        yield Mismatch(_BOTH, words, likely=likely_slips(case))


@check(
    "slope-measure",
    Severity.ASK,
    ask="Did your tape lie along the shaft or along the floor: how was it held?",
    source="geometry",
    inputs=LENGTHS,
    needs=(*_BOTH, "shaft_angle"),
)
def the_tape_lay_along_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The boat's length is short by what a level measurement loses on a sloping shaft.

    Measured along the floor, or with a laser held level, every length is X (1 - cos a) short.
    """
    difference = _difference(case)
    if difference is None or case.sheet.part("shaft_angle", "along") == "floor":
        return
    short = level_shortfall(case.sheet)
    if not short or abs(difference + short) > case.limits.slope_near.nm:
        return
    if _rather_than_nothing(case, "D-SLOPE"):
        words = "A tape laid level, not along the shaft, would explain why the two ways differ."
        yield Mismatch(("face_to_strut_aft", "shaft_angle"), words, likely=likely_slips(case))


@check(
    "pass-through-datum",
    Severity.ASK,
    ask="Which side of the gearbox was your tape against?",
    source="geometry",
    inputs=LENGTHS,
    needs=(*_BOTH, "gearbox_through"),
)
def the_tape_passed_the_gearbox(case: Case) -> Iterator[Mismatch]:
    """The boat's length is short by the gearbox that the shaft passes through.

    The tape was against the back of the gearbox; the shaft begins at its front.
    """
    sheet, difference = case.sheet, _difference(case)
    through = sheet.length("gearbox_through")
    if difference is None or through is None or not case.passes_through:
        return
    if sheet.choice("forward_datum") == "gearbox_back":
        return
    if abs(difference + through.nm) <= case.limits.through_near.nm:
        words = "A tape held against the back of the gearbox would explain why the two ways differ."
        answers = ("face_to_strut_aft", "forward_datum")
        yield Mismatch(answers, words, likely=likely_slips(case))


CHECKS = (
    no_inch_was_lost_at_the_start,
    the_tape_did_not_start_on_the_ten,
    the_tape_case_was_added,
    the_tape_lay_along_the_shaft,
    the_tape_passed_the_gearbox,
)
