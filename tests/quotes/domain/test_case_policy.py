"""The terms (invented policy, trade 6.1 point 10) and the cost model (invented, trade 1.3)."""

from __future__ import annotations

from decimal import Decimal

import pytest

from intake.domain.causes import CAUSES, FAMILIES
from quotes.domain.case_costs import USUAL, desk_cost, read_cost
from quotes.domain.case_policy import born_in, suggest_payer
from quotes.domain.case_words import BORN, COSTS, MOVES, PAYERS, STATES
from quotes.domain.fitted import asked_after, next_answer


def test_every_cause_has_a_stage_and_all_but_unknown_a_payer() -> None:
    assert {code.partition("-")[0] for code in CAUSES} <= set(FAMILIES)
    for code in CAUSES:
        assert born_in(code) in BORN
        assert (suggest_payer(code).payer in PAYERS) == (code != "X")


@pytest.mark.parametrize(
    ("cause", "payer"),
    [("K-SKIPPED", "us"), ("S-LENGTH", "us"), ("C-WRONGDIM", "us"), ("T-BENT", "us"),
     ("D-PIN", "customer"), ("O-OLDSHAFT", "customer"), ("F-SEAT", "customer"), ("X", ""),
     ("", "")],
)  # fmt: skip
def test_our_numbers_wrong_is_ours(cause: str, payer: str) -> None:
    assert suggest_payer(cause).payer == payer


def test_measured_wrong_is_shortened_at_cost_and_remade_at_material_and_freight() -> None:
    assert "shorten at cost" in suggest_payer("D-CBACK", "shorten").why
    assert "material and freight" in suggest_payer("D-CBACK", "remake").why


@pytest.mark.parametrize(("kind", "total"), [("remake", 470), ("shorten", 180), ("swap", 75)])
def test_the_usual_costs_come_to_the_invented_cost_model(kind: str, total: int) -> None:
    assert sum(line.amount for line in USUAL[kind]) == total
    assert {line.kind for line in USUAL[kind]} <= set(COSTS)


def test_the_remake_is_bar_labour_two_freights_and_desk() -> None:
    by_kind: dict[str, Decimal] = {}
    for line in USUAL["remake"]:
        name = line.kind.partition("_")[0]
        by_kind[name] = by_kind.get(name, Decimal(0)) + line.amount
    assert by_kind == {"material": 180, "labour": 165, "freight": 82, "desk": 43}


def test_minutes_are_rounded_once() -> None:
    assert [desk_cost(minutes) for minutes in (0, 1, 17, 60)] == [
        Decimal("0.00"), Decimal("0.72"), Decimal("12.18"), Decimal("43.00"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "amount"),
    [("41", "41.00"), (" 12,5 ", "12.50"), ("-41", "-41.00"), ("1e3", None), ("", None)],
)
def test_an_amount_as_staff_type_it(text: str, amount: str | None) -> None:
    assert read_cost(text) == (Decimal(amount) if amount else None)


def test_a_closed_case_goes_nowhere() -> None:
    assert set(MOVES) == set(STATES)
    assert MOVES["done"] == MOVES["without"] == ()


@pytest.mark.parametrize(
    ("days", "told", "asked", "kept"),
    [(3, (), 0, 7), (7, (), 7, 7), (29, (7,), 0, 30), (30, (), 30, 30), (31, (7,), 30, 30),
     (90, (30,), 0, 0), (12, (7, 30), 0, 0)],
)  # fmt: skip
def test_when_it_is_asked_and_where_an_answer_is_kept(
    days: int, told: tuple[int, ...], asked: int, kept: int
) -> None:
    assert asked_after(days, frozenset(told), put_off=False) == asked
    assert next_answer(days, frozenset(told)) == kept
    assert asked_after(days, frozenset(told), put_off=True) == 0
