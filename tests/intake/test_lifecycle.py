"""The table of moves: complete, and closed at its end."""

from __future__ import annotations

import pytest

from intake.domain.lifecycle import ALLOWED, LABELS, OPEN, MoveError, Status, require_move


def test_every_status_has_its_moves_and_its_words() -> None:
    assert set(ALLOWED) == set(LABELS) == set(Status)


def test_every_status_but_the_first_can_be_reached() -> None:
    reached = set().union(*ALLOWED.values())
    assert reached == set(Status) - {Status.RECEIVED}


def test_withdrawn_is_the_end() -> None:
    assert not ALLOWED[Status.WITHDRAWN]
    assert Status.WITHDRAWN not in OPEN


@pytest.mark.parametrize(
    "old", [Status.NEEDS_CALL, Status.READY, Status.QUOTED, Status.ACCEPTED, Status.LAPSED]
)
def test_a_corrected_answer_leads_back_from_anywhere(old: Status) -> None:
    require_move(old, Status.NEEDS_CALL)
    require_move(old, Status.READY)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (Status.RECEIVED, Status.QUOTED),
        (Status.NEEDS_CALL, Status.QUOTED),
        (Status.READY, Status.DECLINED),
        (Status.ACCEPTED, Status.DECLINED),
        (Status.WITHDRAWN, Status.READY),
    ],
)
def test_a_move_that_is_not_in_the_table_is_refused_in_words(old: Status, new: Status) -> None:
    with pytest.raises(MoveError, match=f"It is {LABELS[old]}"):
        require_move(old, new)
