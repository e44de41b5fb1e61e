"""How numbers are written: a decimal for eighths, and figures finer than the tool shows."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_INCH
from intake.checks.base import LENGTHS, Mismatch, check
from intake.checks.units import INCH_UNITS
from intake.domain.case import Case
from intake.domain.diameter import nearest_size
from intake.domain.limits import Limits
from intake.domain.sheet import Reading
from intake.domain.verdict import Severity

ALL = ("shaft", "coupling", "bearing")
TAPES = frozenset(
    {
        "rod",
        "rule",
        "tape",
        "tape_helper",
        "tape_one_hand",
        "tape_short",
        "pieces",
        "along_old_shaft",
    }
)
_POINTS = frozenset(".,")
_EIGHTH = NM_PER_INCH // 8
_TENTH = NM_PER_INCH // 10


def _eighths_meant() -> dict[str, tuple[tuple[int, str], ...]]:
    """For each figure behind the point: what the length shifts by, read in the two habits."""
    counted = {str(count): count for count in range(1, 8)}
    cut_short = {str(count * 1000 // 8)[0]: count for count in range(1, 8)}
    meant: dict[str, tuple[tuple[int, str], ...]] = {}
    for figure in "123456789":
        plain = int(figure) * _TENTH
        habits = ((counted, "as a count of eighths"), (cut_short, "as an eighth cut short"))
        meant[figure] = tuple(
            (eighths[figure] * _EIGHTH - plain, words)
            for eighths, words in habits
            if figure in eighths
        )
    return meant


_MEANT = _eighths_meant()
# What a figure behind the point says of a tape in eighths: .5 is a mark as it stands.
_ON_A_MARK = "5"


@check(
    "fraction-as-decimal",
    Severity.ASK,
    ask="Which mark past the whole inch was it: can you count the small marks for me?",
    inputs=LENGTHS,
    likely={"R-DECFRAC": 1},
)
def a_decimal_is_a_decimal(case: Case) -> Iterator[Mismatch]:
    """A number with one decimal does not go with the others, and read in eighths it would.

    46.5 written for 46-5/8: the figure counts eighths, or a decimal was cut short. Where nothing
    can show it, a figure that is no mark of the tape is noted.
    """
    for slug in ("face_to_strut_aft", "old_length_face_to_thread", "tail_to_thread", "hub_length"):
        reading = case.sheet.readings.get(slug)
        if reading is None or not _POINTS.intersection(reading.text):
            continue
        figure = _only_decimal(reading)
        apart = case.limits.decimal_apart.nm
        shifts = [meant for meant in _MEANT.get(figure, ()) if abs(meant[0]) >= apart]
        if shifts:
            yield from _decimal(case, reading, figure, shifts)


def _decimal(
    case: Case, reading: Reading, figure: str, shifts: list[tuple[int, str]]
) -> Iterator[Mismatch]:
    compared = _off_and_u(case, reading.slug)
    if compared is None:
        if figure != _ON_A_MARK:
            words = f"{reading.text} is no mark of an inch tape: the figure may count eighths."
            yield Mismatch((reading.slug,), words, severity=Severity.NOTE)
        return
    off, near = compared[0], case.limits.decimal_closes_u * compared[1]
    if abs(off) <= near:
        return
    for shift, habit in shifts:
        if abs(off + shift) <= near:
            words = f"{reading.text} read {habit} goes with the other answers; a decimal does not."
            yield Mismatch((reading.slug,), words)
            return


def _only_decimal(reading: Reading) -> str:
    """The one figure behind the point of a number read off an inch tape; else nothing."""
    if reading.unit != "in" or reading.method not in TAPES:
        return ""
    whole, _, rest = reading.text.strip().replace(",", ".").partition(".")
    figure = rest.rstrip(' in"″”')
    return figure if whole.isdigit() and len(figure) == 1 else ""


def _off_and_u(case: Case, slug: str) -> tuple[int, float] | None:
    """How far an answer is from what the others give for it, and how sure that is, in nm."""
    routes = case.routes
    if routes is None:
        return None
    if slug in ("tail_to_thread", "hub_length") and routes.taped_tail and routes.hub_tail:
        tails = routes.taped_tail.minus(routes.hub_tail)
        return (tails.nm if slug == "tail_to_thread" else -tails.nm), tails.u_nm
    if routes.difference is None:
        return None
    sign = -1 if slug == "old_length_face_to_thread" else 1
    return sign * routes.difference.nm, routes.difference.u_nm


@check(
    "resolution-vs-tool",
    Severity.NOTE,
    ask="What did the tool itself show before you turned it into this number?",
    holds=ALL,
    likely={"E-PAPERS": 2, "I-DIAREAD": 1},
)
def the_tool_can_show_that(case: Case) -> Iterator[Mismatch]:
    """A number is finer than its tool shows, or coarser than it would.

    Turned over from another unit, taken from a catalogue, or another tool was used.
    """
    for slug, reading in case.sheet.readings.items():
        if reading.method in TAPES:
            if _finer_than_shown(reading, case.limits):
                words = f"{reading.text} is finer than what it was measured with can show."
                yield Mismatch((slug,), words)
        elif slug in ("dia_clean", "dia_journal") and _coarser_than_shown(reading, case.limits):
            words = f"{reading.text} is coarser than a caliper shows, and no usual shaft size."
            yield Mismatch((slug,), words)


def _finer_than_shown(reading: Reading, limits: Limits) -> bool:
    """By the mark that the writing implies; the decimal name of a real mark is no finer."""
    nm, mark = reading.length.nm, reading.mark.nm if reading.mark else 0
    if reading.unit not in INCH_UNITS:
        shown = limits.tape_mark_metric.nm
        return mark < shown and nm % shown != 0
    if mark > limits.decimal_fine.nm and mark != limits.rule_mark.nm:
        return False
    shown = (limits.rule_mark if reading.method == "rule" else limits.tape_mark).nm
    off = nm % shown
    return min(off, shown - off) > limits.decimal_rounding.nm


def _coarser_than_shown(reading: Reading, limits: Limits) -> bool:
    if not reading.method.startswith("caliper") or reading.unit not in INCH_UNITS:
        return False
    coarse = reading.mark is not None and reading.mark >= limits.caliper_coarse
    return coarse and nearest_size(reading.length).diameter != reading.length


CHECKS = (
    a_decimal_is_a_decimal,
    the_tool_can_show_that,
)
