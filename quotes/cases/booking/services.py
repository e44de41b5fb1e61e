"""Booking what a case costs, line by line, to its cause; never to a person."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction

from intake.inserts import insert
from quotes.cases import selectors
from quotes.cases.lines.services import TRAIL, CaseError, note
from quotes.cases.models import Case, CaseCost
from quotes.domain import case_words as words
from quotes.domain.case_costs import LARGEST, USUAL, desk_cost
from staff.trail.services import note_change


@dataclass(frozen=True, slots=True)
class Cost:
    """One line as it was typed. ``minutes`` stand in the amount's place for time at the desk."""

    kind: str
    said: str
    amount: Decimal | None = None
    minutes: int | None = None


@transaction.atomic
def book_cost(*, case: Case, cost: Cost, once: str, by: User) -> bool:
    """Book one cost. ``once``: what the form carried; sent twice it is booked once (False).

    A line that was wrong is taken back by another with a minus. Raises CaseError.
    """
    amount = _amount(cost)
    row = CaseCost(
        case=case,
        kind=cost.kind,
        words=cost.said[:200],
        amount=amount,
        minutes=cost.minutes if cost.kind == "desk" else None,
        once=once[:40],
        by=by,
    )
    if not insert(row, unless_there=True):
        return False
    _booked(case, f"{words.COSTS[cost.kind]}: {cost.said} {amount}", amount, by)
    return True


def _amount(cost: Cost) -> Decimal:
    if cost.kind not in words.COSTS:
        raise CaseError({"cost_kind": "Choose what kind of cost it is."})
    if cost.kind == "desk" and cost.minutes is not None:
        return desk_cost(cost.minutes)
    if cost.amount is None:
        raise CaseError({"amount": "Write an amount; for time at the desk, minutes will do."})
    if cost.amount < 0 and not cost.said:
        raise CaseError({"said_cost": "Write which line is taken back."})
    if abs(cost.amount) > LARGEST:
        raise CaseError({"amount": "That is more than a case can cost. Look at the number again."})
    return cost.amount


@transaction.atomic
def book_usual(*, case: Case, by: User) -> int:
    """The usual lines of the kind that was agreed, marked as invented; each once for a case."""
    usual = USUAL.get(case.kind, ())
    if not usual:
        raise CaseError("There are no usual costs for this; book each as it is known.")
    booked = 0
    for number, line in enumerate(usual):
        row = CaseCost(
            case=case,
            kind=line.kind,
            words=line.words,
            amount=line.amount,
            invented=True,
            once=f"usual:{case.kind}:{number}",
            by=by,
        )
        if insert(row, unless_there=True):
            booked += 1
    if booked:
        total = sum((line.amount for line in usual), Decimal(0))
        _booked(case, f"the usual costs of this kind (invented): {total}", total, by)
    return booked


def _booked(case: Case, said: str, amount: Decimal, by: User) -> None:
    note(case, "cost", f"Booked: {said}", by)
    total = selectors.total_of(case)
    note_change(
        record=TRAIL,
        key=case.number,
        by=by,
        why="",
        before={"cost": total - amount},
        after={"cost": total},
    )
