"""What judging does with a stop at entry, with what was confirmed, and with what is missing."""

from __future__ import annotations

from intake.domain.history import History
from intake.evaluate import fingerprint
from tests.given import a_sheet, as_inches, fired, judged

TOO_WIDE = {"hub_length": {"text": "8 1/2", "method": "rule"}, "without": ("tail_to_thread",)}


def test_a_number_stopped_at_entry_is_set_aside() -> None:
    verdict = judged(**TOO_WIDE)
    assert fired(verdict) == {"range-single": "stop"}
    assert verdict.shaft is not None
    assert as_inches(verdict.shaft.cut) == "49"


def test_a_number_that_was_confirmed_is_used() -> None:
    mark = fingerprint(a_sheet(**TOO_WIDE), ("hub_length",))
    verdict = judged(History(settled=frozenset({("range-single", mark)})), **TOO_WIDE)
    assert fired(verdict)["range-single"] == "note"
    assert fired(verdict)["route-boat-vs-old"] == "stop"


def test_another_number_is_asked_about_again() -> None:
    mark = fingerprint(a_sheet(), ("hub_length",))
    verdict = judged(History(settled=frozenset({("range-single", mark)})), **TOO_WIDE)
    assert fired(verdict) == {"range-single": "stop"}


def test_what_is_missing_is_asked_in_its_own_words() -> None:
    asked = judged(without=("flange_direction",)).next_question
    assert asked is not None
    assert asked.answer == "flange_direction"
    assert asked.ask.startswith("Looking at the coupling")
