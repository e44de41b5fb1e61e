"""``changed-after-accept``: any difference from what was accepted, however small; logic."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from catalog.domain.lengths import Length, inches
from intake.domain.verdict import Severity
from quotes.checks.accepted import AcceptedLimits, Beside, nothing_changed
from quotes.domain.agreed import Agreed, agreed
from quotes.domain.choice import Choice
from quotes.domain.order import Order
from quotes.domain.stations import chain
from quotes.domain.tax import Place
from tests.quotes.domain.orders import s01
from tests.quotes.stacks import a_stack


def facts(order: Order, **more: object) -> Agreed:
    given = {"station": "single", "confirmed": {"datum": "…"}, "total": Decimal("697.07"), **more}
    return agreed(order, chain(a_stack()), **given)  # type: ignore[arg-type]


def test_what_is_the_same_is_accepted() -> None:
    assert nothing_changed.found(Beside(facts(s01()), facts(s01()))) == ()


def test_it_stops_and_asks_what_made_the_number_change() -> None:
    assert nothing_changed.severity == Severity.STOP
    assert nothing_changed.ask == "What made the number change?"


@pytest.mark.parametrize("by", [Length(1), inches("1/8"), -inches("1/16")])
def test_a_length_that_changed_by_however_little_is_questioned(by: Length) -> None:
    order = s01()
    assert order.shaft is not None
    longer = replace(order, shaft=replace(order.shaft, length=order.shaft.length + by))
    (found,) = nothing_changed.found(Beside(facts(order), facts(longer)))
    assert found.answers == ("length",)
    assert "Face to thread end was 49 in" in found.message


@pytest.mark.parametrize(
    ("more", "key"),
    [
        ({"total": Decimal("697.08")}, "total"),
        ({"station": "port"}, "side"),
        ({"place": Place("XX", "1")}, "place"),
        ({"confirmed": {}}, "confirmed"),
    ],
)
def test_a_price_a_side_a_place_or_a_statement_is_a_change(more: object, key: str) -> None:
    found = nothing_changed.found(Beside(facts(s01()), facts(s01(), **more)))  # type: ignore[arg-type]
    assert [one.answers for one in found] == [(key,)]


def test_another_metal_is_a_change() -> None:
    order = s01()
    assert order.shaft is not None
    other = replace(
        order, shaft=replace(order.shaft, alloy="S31600"), choice=Choice("S31600", frozenset())
    )
    assert ("alloy",) in [
        one.answers for one in nothing_changed.found(Beside(facts(order), facts(other)))
    ]


def test_a_station_that_is_no_longer_known_is_a_change() -> None:
    without = agreed(s01(), None, "single", {"datum": "…"}, total=Decimal("697.07"))
    found = nothing_changed.found(Beside(facts(s01()), without))
    assert all("not told now" in one.message for one in found)
    assert len(found) > 3


def test_what_may_change_is_a_limit() -> None:
    may = AcceptedLimits(frozenset({"total"}))
    beside = Beside(facts(s01()), facts(s01(), total=Decimal(1)))
    assert nothing_changed.found(beside, may) == ()
