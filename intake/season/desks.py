"""Three desks: one copies the old length, one adds a fixed tail, one asks the tool.

The only file here that meets the tool, by its public door: a body goes in, a verdict comes out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from catalog.domain.ends import shaft_end
from catalog.domain.stock import Stock
from intake.domain.history import History
from intake.domain.reading import read_sheet
from intake.domain.sheet import SheetErrors
from intake.domain.verdict import Severity, Verdict
from intake.evaluate import evaluate
from intake.season.answers import answer
from intake.season.boats import METRIC_STANDOFF, MM
from intake.season.customers import Customer
from intake.season.sheets import a_body, size_text

FIXED_TAIL = 4.75
MOST_QUESTIONS = 4
NAMES_CAUSES = "route-boat-vs-old"  # the finding that weighs the slips against each other
_NOTHING_KNOWN = History()


def by_old_length(customer: Customer) -> float:
    """Copy the old shaft; where there is none, boat and hub (or the fixed tail)."""
    first, boat = customer.first, customer.boat
    if "old" in first:
        return _cut(customer, first["old"].value)
    if "hub" not in first:
        return by_fixed_tail(customer)
    return _cut(customer, _strut(customer) + boat.goal + first["hub"].value + _standoff(customer))


def by_fixed_tail(customer: Customer) -> float:
    """Strut distance and 4-3/4 in on every size; where there is none, the old length."""
    if "x" not in customer.first:
        return _cut(customer, customer.first["old"].value)
    return _cut(customer, _strut(customer) + FIXED_TAIL)


def _strut(customer: Customer) -> float:
    """The strut distance as written, a spacer and a gearbox allowed for where they were told."""
    boat = customer.boat
    through = boat.through if customer.how.datum_said == "gearbox_back" else 0.0
    return customer.first["x"].value - boat.spacer + through


def _standoff(customer: Customer) -> float:
    boat = customer.boat
    if boat.system == "mm":
        return METRIC_STANDOFF[size_text(boat)] * MM
    end = shaft_end("inch", boat.size)
    if end is None:
        raise ValueError(f"no standard end for {boat.size}")
    return end.nut_standoff.in_inches


def _cut(customer: Customer, length: float) -> float:
    """To the eighth, or to five millimetres; a tie goes long."""
    step = 5 * MM if customer.boat.system == "mm" else 0.125
    return int(length / step + 0.5) * step


@dataclass(slots=True)
class Played:
    """How the tool's desk dealt with one sheet.

    ``fit`` and ``is_right`` speak of the cut length: at first sight (None where there was none to
    cut), and as released. ``held_by``: the checks that held the first verdict,
    ``held_at_last`` those that held the last one.
    """

    first_call: str = "stop"
    first_fit: float | None = None
    first_is_right: bool = False
    held_by: tuple[str, ...] = ()
    held_at_last: tuple[str, ...] = ()
    likely: tuple[tuple[str, float], ...] = ()
    questions: int = 0
    asked: list[str] = field(default_factory=list)
    released: bool = False
    fit: float = 0.0
    is_right: bool = False


def by_tool(customer: Customer, stock: Stock) -> Played:
    """Judge the sheet; while the shaft is held, ask what the tool wants to know.

    After four questions the sheet waits for a person. A third reading counts as one more.
    """
    body, played = a_body(customer), Played()
    verdict = _judged(body, stock)
    _note_first(played, customer, verdict)
    while verdict is not None and _call(verdict) != "release":
        slug = _next(verdict, played.asked, body["answers"])
        if not slug or played.questions >= MOST_QUESTIONS:
            played.held_at_last = _holding(verdict)
            return played
        played.asked.append(slug)
        played.questions += answer(customer, body["answers"], slug)
        verdict = _judged(body, stock)
    if verdict is not None and verdict.shaft is not None:
        played.released = True
        played.fit, played.is_right = _fit(verdict), _fits(customer, verdict)
    return played


def _judged(body: Mapping[str, Any], stock: Stock) -> Verdict | None:
    """None where the form would not take a number as it is written."""
    try:
        return evaluate(read_sheet(body), stock, _NOTHING_KNOWN)
    except SheetErrors:
        return None


def _note_first(played: Played, customer: Customer, verdict: Verdict | None) -> None:
    if verdict is None:
        played.held_by = ("cannot be read",)
        return
    played.first_call = _call(verdict)
    played.held_by = _holding(verdict)
    if verdict.shaft is not None:
        played.first_fit, played.first_is_right = _fit(verdict), _fits(customer, verdict)
    named = next((f.likely for f in verdict.findings if f.check == NAMES_CAUSES), ())
    played.likely = tuple((str(c["cause"]), float(c["probability"])) for c in named)


def _call(verdict: Verdict) -> str:
    return verdict.verdicts["shaft"].value


def _holding(verdict: Verdict) -> tuple[str, ...]:
    return tuple(finding.check for finding in verdict.findings if _holds(finding))


def _holds(finding: Any) -> bool:
    return finding.severity is not Severity.NOTE and "shaft" in finding.holds


def _fit(verdict: Verdict) -> float:
    return verdict.shaft.fit_probability if verdict.shaft else 0.0


def _fits(customer: Customer, verdict: Verdict) -> bool:
    """The shaft is of the boat's size, and the gap that it leaves is fair."""
    shaft, boat = verdict.shaft, customer.boat
    if shaft is None or shaft.nominal != boat.size:
        return False
    return boat.is_fair(boat.gap_of(shaft.cut.in_inches))


def _next(verdict: Verdict, asked: list[str], answers: Mapping[str, Any]) -> str:
    """The question on top; where that was asked already, the first open one of what holds.

    A long number may be asked for twice: first what it is, then for a second reading.
    """
    wanted = [verdict.next_question.answer] if verdict.next_question else []
    for finding in verdict.findings:
        if _holds(finding):
            wanted += finding.answers
    return next((slug for slug in wanted if slug not in asked or _once(slug, answers)), "")


_READ_TWICE = ("face_to_strut_aft", "old_length_face_to_thread")


def _once(slug: str, answers: Mapping[str, Any]) -> bool:
    """A long number that was read once only."""
    said = answers.get(slug)
    read = isinstance(said, Mapping) and "method" in said and "again" not in said
    return slug in _READ_TWICE and read
