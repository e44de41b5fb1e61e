"""Asking a question in other words: a new row, never an edit."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from intake.domain.questions import QUESTIONS
from intake.models import QuestionWording
from intake.wording import selectors
from staff.trail.services import note_change

TRAIL = "question"
LONGEST, LONGEST_REASON, SHORTEST = 300, 400, 8


class WordingErrors(ValueError):
    """What cannot be adopted: one sentence for each box."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__(", ".join(errors))
        self.errors = errors


class WordingOvertaken(Exception):
    """Somebody else changed this question first."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed this question a moment ago. Nothing of yours is stored; please "
            "look at theirs, then send yours again if it is still needed."
        )


def adopt_wording(
    *, slug: str, ask: str, ask_es: str, reason: str, by: User, based_on: int | None = None
) -> QuestionWording:
    """Ask a question so from now on. Empty words go back to the program's own.

    Raises WordingErrors by box, WordingOvertaken where ``based_on`` is not the newest number.
    """
    before = next(iter(selectors.wordings_of(slug)), None)
    number = before.number if before else 0
    if based_on is not None and based_on != number:
        raise WordingOvertaken
    ask, ask_es, reason = (_line(text) for text in (ask, ask_es, reason))
    ask = "" if ask == QUESTIONS[slug].ask else ask
    errors = _errors(ask, ask_es, reason)
    was = (before.ask, before.ask_es) if before else ("", "")
    if (ask, ask_es) == was and not errors:
        errors["ask"] = "Nothing is changed by this; change the words first."
    if errors:
        raise WordingErrors(errors)
    row = QuestionWording(
        slug=slug, number=number + 1, ask=ask, ask_es=ask_es, reason=reason, adopted_by=by
    )
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            note_change(
                record=TRAIL,
                key=slug,
                by=by,
                why=reason,
                before={"asked": was[0], "asked in Spanish": was[1]},
                after={"asked": ask, "asked in Spanish": ask_es},
            )
    except IntegrityError as error:
        raise WordingOvertaken from error
    selectors.look_again()
    return row


def _line(text: str) -> str:
    return " ".join(text.replace("\x00", "").split())


def _errors(ask: str, ask_es: str, reason: str) -> dict[str, str]:
    errors = {}
    for box, text in (("ask", ask), ("ask_es", ask_es)):
        if len(text) > LONGEST:
            errors[box] = f"Please keep it under {LONGEST} characters."
        elif text and len(text) < SHORTEST:
            errors[box] = "Please write the whole question."
    if not reason:
        errors["reason"] = "Please write why, in a sentence for whoever reads it next year."
    elif len(reason) > LONGEST_REASON:
        errors["reason"] = f"Please keep the reason under {LONGEST_REASON} characters."
    return errors
