"""What every step of a case writes: its fields, its state, a line of history and of the trail."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib.auth.models import User
from django.utils import timezone

from quotes.cases import selectors
from quotes.cases.models import Case, CaseEvent
from quotes.domain import case_words as words
from staff.trail.services import note_change

TRAIL = "case"  # the trail's name for these records; the key is the number


class CaseError(Exception):
    """It cannot be done as it was typed, or as the case stands. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str] | str) -> None:
        self.errors = {"": errors} if isinstance(errors, str) else dict(errors)
        super().__init__(" ".join(self.errors.values()))


_TRAILED = ("state", "kind", "part", "cause", "payer", "found", "born", "by_nm", "opened_as")


def state_of(case: Case) -> dict[str, Any]:
    """What the trail keeps: codes and numbers, no free words."""
    return {name: getattr(case, name) for name in _TRAILED}


def require_open(case: Case) -> None:
    if case.state not in words.STANDS_OPEN:
        raise CaseError("This case is closed. Open a new one, which refers to the same order.")


def change(case: Case, now: Mapping[str, Any], by: User | None, why: str) -> bool:
    """Write what differs, with its line in the trail; False where nothing does."""
    before = state_of(case)
    changed = {name: value for name, value in now.items() if getattr(case, name) != value}
    if not changed:
        return False
    Case.objects.filter(pk=case.pk).update(**changed)
    for name, value in changed.items():
        setattr(case, name, value)
    note_change(record=TRAIL, key=case.number, by=by, why=why, before=before, after=state_of(case))
    return True


def move(case: Case, to: str, by: User | None) -> None:
    """The one way from state to state; the database decides who came first."""
    was = case.state
    if to not in words.MOVES[was]:
        raise CaseError(f"This case is {words.STATES[was]}, so it cannot become that now.")
    closed = None if to in words.STANDS_OPEN else timezone.now()
    mine = Case.objects.filter(pk=case.pk, state=was)
    if not mine.update(state=to, closed_at=closed):
        raise CaseError("Somebody else changed this case a moment ago. Please look again.")
    case.state, case.closed_at = to, closed
    note_change(
        record=TRAIL, key=case.number, by=by, why="", before={"state": was}, after={"state": to}
    )


def note(case: Case, what: str, said: str, by: User | None) -> None:
    CaseEvent.objects.create(case=case, what=what, words=said[:1200], by=by)


def note_once(case: Case, what: str, said: str, by: User | None) -> None:
    """The same words by the same person right after are a second click."""
    if selectors.last_words(case) != (said[:1200], by.pk if by else None):
        note(case, what, said, by)
