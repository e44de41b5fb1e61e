"""Records looked at together: whom was waited for, what moved, what came back. By hand."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.happened.answers import answered, method_of, moved
from quotes.domain.happened.mistakes import Seen, answer_of, first_caught, repeats
from quotes.domain.happened.waits import CUSTOMER, DESK, MACHINE, Moment, waits

CAME = datetime(2026, 4, 6, 9, 0, tzinfo=UTC)


def after(minutes: float) -> datetime:
    return CAME + timedelta(minutes=minutes)


def test_a_call_back_is_waited_for_by_the_desk_and_then_by_the_customer() -> None:
    moments = [Moment(after(1), DESK), Moment(after(31), CUSTOMER), Moment(after(91), MACHINE)]
    assert waits(CAME, after(92), moments) == (120, 1800, 3600)


def test_what_comes_after_the_quote_is_not_waited_for() -> None:
    assert waits(CAME, after(2), [Moment(after(5), DESK)]) == (120, 0, 0)


@given(st.lists(st.tuples(st.floats(-5, 500), st.sampled_from([MACHINE, DESK, CUSTOMER]))))
def test_the_parts_add_up_to_the_whole(told: list[tuple[float, str]]) -> None:
    assert sum(waits(CAME, after(300), [Moment(after(at), who) for at, who in told])) == 18000


def side(text_mm: str, u: str = "1.5") -> dict[str, object]:
    return {"body": {}, "readings": {"gap_now": {"mm": text_mm, "u_mm": u}}}


@pytest.mark.parametrize(("now", "is_other"), [("22.05", False), ("22.06", True)])
def test_a_length_has_moved_beyond_two_of_its_uncertainties(now: str, is_other: bool) -> None:
    assert moved(("gap_now",), side("19.05"), side(now)) is is_other


def test_a_choice_has_moved_where_it_is_another() -> None:
    sides = [
        {"body": {"answers": {"flange_direction": way}}, "readings": {}}
        for way in ("aft", "forward")
    ]
    assert moved(("flange_direction",), *sides)
    assert not moved(("flange_direction",), sides[0], sides[0])
    assert not moved(("rotation",), *sides)  # never said


def test_what_cannot_be_measured_is_no_answer() -> None:
    body = {"answers": {"gap_now": {"state": "cannot_measure"}, "fuel": "diesel"}}
    assert answered(body) == ["fuel"]


def test_the_way_of_the_strut_distance_counts_before_the_old_shafts() -> None:
    both = {"face_to_strut_aft": {"method": "rod"}, "old_length_face_to_thread": {"method": "tape"}}
    assert method_of(both) == "rod"
    assert method_of({"old_length_face_to_thread": {"method": "tape"}}) == "tape"
    assert method_of({}) == ""


def test_a_slip_knows_the_question_it_is_made_in() -> None:
    assert answer_of("D-CBACK") == "face_to_strut_aft"
    assert answer_of("R-BURN-O") == "old_length_face_to_thread"
    assert answer_of("C-WRONGDIM") == ""


def test_the_cheapest_place_counts() -> None:
    assert first_caught(["boat", "call"]) == "call"
    assert first_caught([]) == ""


def seen(key: int, day: int, cause: str = "D-CBACK", **told: object) -> Seen:
    facts = {"customer": None, "family": "", "answer": "", **told}
    return Seen(key, date(2026, 1, 1) + timedelta(days=day), cause, **facts)  # type: ignore[arg-type]


def test_what_came_back_is_told_by_whom_it_has_in_common() -> None:
    found = repeats(
        [
            seen(1, 0, customer=7, family="pilchard|24 ft", answer="gap_now"),
            seen(2, 90, customer=7, answer="gap_now"),
            seen(3, 90, customer=7, family="pilchard|24 ft"),  # of the same day: not after 2
            seen(4, 181, customer=7),  # 91 days after the last
            seen(5, 181, "X", customer=7),
            seen(6, 182, "X", customer=7),  # what is not known cannot come back
            seen(7, 182, customer=8),
        ]
    )
    assert found == {1: "", 2: "cq", 3: "cf", 4: "", 5: "", 6: "", 7: ""}
