"""A remake refers to its original, is the shaft alone, and is priced by who was wrong."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User

from catalog.models import Part
from quotes.cases import selectors
from quotes.cases.models import Case
from quotes.cases.remaking.services import accept_at_our_cost, remake
from quotes.cases.services import Agreement, CaseError, agree, open_case
from quotes.domain.kept_price import again
from quotes.making import order_of
from quotes.models import Quote, QuoteDocument
from quotes.stock.selectors import held_for
from tests.quotes.given import a_quoter, correct, stock_the_shelf
from tests.quotes.outcomes.given import a_sent
from tests.quotes.paper.papers import texts

pytestmark = pytest.mark.django_db
WHY = "the nose was counted in; measured anew"


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def maud() -> User:
    return a_quoter("maud", rights=("add_quote", "view_case", "change_case"))


def a_remake_case(by: User, payer: str, **changes: Any) -> Case:
    case = open_case(a_sent(days_ago=12, **changes), why="too short by 2 in", by=by)
    return agree(case=case, agreement=Agreement("remake", payer, "as the terms say"), by=by)


def test_where_we_were_wrong_it_costs_nothing_and_says_what_it_is_worth(maud: User) -> None:
    case = a_remake_case(maud, "us")
    made = remake(case=case, why=WHY, by=maud)
    assert made.remake_of_id == case.quote_id
    assert {made.goods, made.freight, made.tax, made.total} == {Decimal(0)}
    assert made.status == "issued"
    texts = [line["text"] for line in made.lines]
    assert f"Remake of {case.quote.number} at our cost: material" in texts
    bar = made.lines[0]
    assert Decimal(bar["amount"]) == Decimal("180.00"), "trade 6.6 (invented): 50 in x 3.60"
    assert case.quote.status == Quote.objects.get(pk=case.quote_id).status == "accepted"
    assert Case.objects.get(pk=case.pk).state == "doing"


def test_where_the_boat_was_measured_wrong_material_and_freight_are_paid(maud: User) -> None:
    """Trade 6.6 (all invented): bar 180, nut 18, keys 12, tube 21.95; freight 41; tax 7 %."""
    made = remake(case=a_remake_case(maud, "customer"), why=WHY, by=maud)
    assert made.goods == Decimal("180.00") + 18 + 12 + Decimal("21.95")
    assert made.freight == Decimal("41.00")
    assert made.tax == Decimal("16.24"), "7 % of 231.95, rounded once"
    assert made.total == Decimal("289.19")


@pytest.mark.parametrize("payer", ["us", "customer"])
def test_it_is_the_shaft_alone_and_can_be_worked_out_again(maud: User, payer: str) -> None:
    made = remake(case=a_remake_case(maud, payer), why=WHY, by=maud)
    assert order_of(made).parts == ()
    assert order_of(made).shaft is not None
    assert again(made.inputs).total == made.total
    assert [line.as_json() for line in again(made.inputs).lines] == made.lines


def test_its_paper_speaks_of_the_shaft_alone(maud: User) -> None:
    """The coupling that was out of stock is with the customer: nobody waits for it again."""
    Part.objects.filter(kind="coupling").update(on_hand=0)
    case = a_remake_case(maud, "us")
    made = remake(case=case, why=WHY, by=maud)
    first, second = (
        " ".join(texts(bytes(QuoteDocument.objects.get(quote=one).content)))
        for one in (case.quote, made)
    )
    assert "Not on the shelf today" in first
    assert "Not on the shelf today" not in second


def test_asked_twice_it_is_made_once(maud: User) -> None:
    case = a_remake_case(maud, "us")
    first = remake(case=case, why=WHY, by=maud)
    assert remake(case=selectors.fresh_case(case.pk), why=WHY, by=maud) == first
    assert Quote.objects.filter(remake_of=case.quote).count() == 1


def test_a_corrected_sheet_leaves_the_sent_order_as_it_was_and_gives_the_new_length(
    maud: User, do_jobs: Any
) -> None:
    case = a_remake_case(maud, "us")
    submission = case.quote.submission
    correct(
        submission,
        face_to_strut_aft={"text": "45 1/8", "method": "rod"},
        old_length_face_to_thread={"text": "50", "method": "tape"},
        tail_to_thread={"text": "4 7/8", "method": "tape_short"},
    )
    while do_jobs():
        pass
    assert Quote.objects.get(pk=case.quote_id).status == "accepted"
    assert Quote.objects.filter(submission=submission).count() == 1, "nothing is quoted by itself"
    made = remake(case=selectors.fresh_case(case.pk), why=WHY, by=maud)
    old, new = order_of(case.quote).shaft, order_of(made).shaft
    assert old is not None
    assert new is not None
    assert (new.length - old.length).inch_text == "1"


def test_at_our_cost_the_desk_says_yes_and_the_shop_gets_it(maud: User) -> None:
    case = a_remake_case(maud, "us")
    with pytest.raises(CaseError, match="once its quote is made"):
        accept_at_our_cost(case=case, by=maud)
    remake(case=case, why=WHY, by=maud)
    accepted = accept_at_our_cost(case=selectors.fresh_case(case.pk), by=maud)
    assert (accepted.status, accepted.accepted_by) == ("accepted", "maud")
    assert accepted.accepted_from.startswith("at our cost")
    assert held_for(accepted) is not None
    assert accept_at_our_cost(case=selectors.fresh_case(case.pk), by=maud) == accepted


def test_a_remake_that_is_paid_is_accepted_by_who_pays(maud: User) -> None:
    case = a_remake_case(maud, "customer")
    remake(case=case, why=WHY, by=maud)
    with pytest.raises(CaseError, match="Only a remake at our cost"):
        accept_at_our_cost(case=selectors.fresh_case(case.pk), by=maud)


def test_nothing_is_made_anew_before_it_is_agreed_and_said_why(maud: User) -> None:
    case = open_case(a_sent(days_ago=12), why="too short", by=maud)
    with pytest.raises(CaseError, match="Agree on a remake"):
        remake(case=case, why=WHY, by=maud)
    agree(case=case, agreement=Agreement("remake", "us", "ours"), by=maud)
    with pytest.raises(CaseError, match="different this time"):
        remake(case=case, why="", by=maud)
