"""The desk's own records against the sheet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from statistics import median

from catalog.domain.lengths import Length
from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.estimate import Estimate
from intake.domain.verdict import Severity

_LENGTH = ("face_to_strut_aft", "old_length_face_to_thread")


@check(
    "repeat-history",
    Severity.ASK,
    ask="Since the shaft we sent in last, what has been altered?",
    source="own records; limits common practice",
    inputs=LENGTHS,
    likely={"B-MOVED": 4, "I-SIDE": 2, "R-WHOLE": 2},
)
def the_boat_is_as_it_was(case: Case) -> Iterator[Mismatch]:
    """The new shaft is not as long as the last one supplied says it should be.

    The boat was altered, it is the other side, or there is a mistake now.
    """
    past, new = case.history, _told(case)
    if past.last_length is None or past.fitted_gap is None or new is None or case.band is None:
        return
    expected = past.last_length.nm + case.band.goal.nm - past.fitted_gap.nm
    if abs(new.nm - expected) > case.limits.repeat_near.nm:
        words = "The length does not follow from the last shaft we supplied and how it fitted."
        ask = _month_words(past.last_month)
        question = f"Since the shaft we sent in {ask}, what has been altered?" if ask else ""
        yield Mismatch(_answered(case), words, question=question)


@check(
    "prior-misfit",
    Severity.ASK,
    ask="The last shaft did not fit. What shall we both measure differently?",
    source="own records",
    likely={"R-WHOLE": 3, "G-ASSUME": 3, "D-CBACK": 2},
)
def a_second_route_after_a_misfit(case: Case) -> Iterator[Mismatch]:
    """An earlier shaft for this boat or from this hand did not fit, and only one route is given.

    The same tool and the same habit make the same mistake. Two routes that agree settle it.
    """
    misfit, routes = case.history.misfit, case.routes
    if misfit is None or routes is None or routes.best is None:
        return
    if routes.boat is not None and routes.old is not None and routes.gap_measured:
        return
    question = ""
    if misfit.off is not None:
        off = _in_words(abs(misfit.off), case)
        question = f"Last time we were out by {off}. What shall we both measure differently?"
    words = "An earlier shaft did not fit, so this length needs a second way to it."
    yield Mismatch(_answered(case), words, question=question)


@check(
    "hull-family-outlier",
    Severity.NOTE,
    ask="How does her engine installation differ from her sisters?",
    source="own records; statistics",
    inputs=LENGTHS,
    needs=("hull_built_by_year",),
)
def she_is_like_her_sisters(case: Case) -> Iterator[Mismatch]:
    """The shaft is much longer or shorter than those of boats of the same build.

    She has another engine, or it is another boat.
    """
    family, limits = case.history.family_lengths, case.limits
    if case.exact is None or len(family) < limits.family_least:
        return
    middle = median(length.nm for length in family)
    spread = limits.family_mad * median(abs(length.nm - middle) for length in family)
    off = abs(case.exact.nm - middle)
    if off > limits.family_apart.nm and off > limits.family_z * spread:
        words = "The shaft stands out from those of other boats of the same build."
        yield Mismatch(("hull_built_by_year", *_answered(case)), words)


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


@check(
    "yard-copy-paste",
    Severity.ASK,
    ask="Which of these boats did you measure yourself, and which did you fill in from the other?",
    likely={"E-COPY": 6, "I-OTHER": 2, "R-WHOLE": 1},
)
def each_boat_was_measured(case: Case) -> Iterator[Mismatch]:
    """Two boats of one customer share too many lengths to the mark.

    A row of the yard's list was copied and not measured anew. Only what is measured on each boat
    counts, and only boats that are asked for together: under one order number, or within days.
    """
    limits = case.limits
    for other in case.history.batch:
        if len(other.answers) >= limits.batch_same and other.days <= limits.batch_days:
            words = f"These lengths are those of {other.reference}, which is another boat."
            yield Mismatch(other.answers, words)
            return  # one of them is enough to ask about


def _told(case: Case) -> Estimate | None:
    """What the sheet itself says of the length, before our own records are blended in."""
    if case.routes is None:
        return None
    if case.routes.boat is not None:
        return case.routes.boat
    return case.routes.old if case.routes.gap_measured else None


def _answered(case: Case) -> tuple[str, ...]:
    """The lengths that were answered; the first of all where none was."""
    return tuple(slug for slug in _LENGTH if slug in case.sheet.readings) or _LENGTH[:1]


def _in_words(length: Length, case: Case) -> str:
    metric = case.size is not None and case.size.system == "mm"
    return f"{round(length.in_mm)} mm" if metric else f"{length.inch_text} in"


def _month_words(month: str) -> str:
    """``2026-04`` as it is said: April 2026; nothing for nothing."""
    return f"{date.fromisoformat(f'{month}-01'):%B %Y}" if month else ""


CHECKS = (
    the_boat_is_as_it_was,
    a_second_route_after_a_misfit,
    she_is_like_her_sisters,
    the_request_is_new,
    each_boat_was_measured,
)
