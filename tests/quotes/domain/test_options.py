"""Options and what is worth doing while the shaft is out: offered with a price, never unasked.

Which options: the desk's list (common practice, no source). All prices are invented.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import inches, mm
from catalog.domain.stock import Kind, Stock, StockPart
from intake.domain.history import History
from intake.evaluate import evaluate
from quotes.domain.choice import Choice
from quotes.domain.options import OPTION, WHILE_OUT, Offer, offers
from quotes.domain.order import Order, read_order
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from tests.given import a_body, a_sheet, demo_stock
from tests.quotes.domain.orders import an_inch_shaft, an_order, s01, the_shelf

RATES = Rates()
Changes = dict[str, Any]
CERTIFICATE = StockPart("SV-CERT", Kind.SERVICE, "both", None, "bar certificate", Decimal(12))
HEAT = StockPart("SV-HEAT", Kind.SERVICE, "both", None, "both from one heat", Decimal(30))


# What the demo catalogue has of them, so that a shelf can be made without.
_BESIDES = ("SV-CERT", "SV-HEAT", "FB-", "AN-")


def shelf(*more: StockPart) -> Stock:
    """The demo shelf with nothing besides but ``more``."""
    plain = (part for part in demo_stock().parts if not part.code.startswith(_BESIDES))
    return Stock((*plain, *more), 1)


def sheet_of(**changes: Any) -> tuple[Order, dict[str, Any], dict[str, Any]]:
    """An order with its body and its record, as they are stored."""
    body = a_body(**changes)
    record = evaluate(a_sheet(**changes), demo_stock()).as_record()
    return read_order(body, record), body, record


def offered(
    stock: Stock | None = None, history: History | None = None, **changes: Any
) -> list[Offer]:
    order, body, record = sheet_of(**changes)
    return list(
        offers(order, stock or demo_stock(), RATES, body, record, history=history or History())
    )


def by_key(found: list[Offer]) -> dict[str, Offer]:
    return {offer.key: offer for offer in found}


def ticking(order: Order, *keys: str) -> Order:
    return replace(order, choice=Choice(options=frozenset(keys)))


def amounts(priced: Priced) -> dict[str, Decimal | None]:
    return {line.text: line.amount for line in priced.lines}


# --- What is offered --------------------------------------------------------------------


def test_a_whole_order_is_offered_what_is_not_in_its_price() -> None:
    found = offered()
    assert [offer.key for offer in found] == [
        "spare:1:NT-3_4-10", "spare:1:BR-1000-1250-2", "certificate", "rush", "spare:1:KY-1_4",
    ]  # fmt: skip
    assert not any(offer.ticked for offer in found)
    assert [offer.group for offer in found] == [OPTION] * 4 + [WHILE_OUT]


def test_what_no_row_of_the_catalogue_prices_is_asked_for_and_cannot_be_ticked() -> None:
    paper = by_key(offered(shelf()))["certificate"]
    assert (paper.amount, paper.how, paper.tickable) == (None, "ask us", False)
    priced = by_key(offered(shelf(CERTIFICATE)))["certificate"]
    assert (priced.amount, priced.tickable) == (Decimal("12.00"), True)


def test_the_demo_catalogue_prices_what_the_checks_can_suggest() -> None:
    """Invented prices: 12 for the mill's paper, 4.50 a bolt, 17 for the collar."""
    told: Changes = {
        "bolts": {"count": 4, "size": "3/8-16"},
        "between_strut_and_propeller": {"kind": "anode", "length": "2"},
    }
    found = by_key(offered(**told))
    assert found["certificate"].amount == Decimal("12.00")
    assert found["part:4:FB-3_8-16"].amount == Decimal("18.00")
    assert found["part:1:AN-1000"].amount == Decimal("17.00")
    assert demo_stock().part("SV-HEAT")


def test_fitting_is_offered_only_where_it_is_not_in_the_price() -> None:
    bare = by_key(offered(top={"wants": ["shaft"]}))["fit"]
    assert bare.amount == Decimal("65.00")
    sent: Changes = {"reuse_coupling": {"reuse": True, "sending": True}}
    assert "fit" not in by_key(offered(top={"wants": ["shaft"]}, **sent))
    assert "fit" not in by_key(offered())


def test_one_heat_is_offered_only_to_a_pair() -> None:
    sister = a_sheet(boat_name_and_station={"name": "Biscuit Barrel", "station": "port"})
    twin = History(sister=sister, sister_station="port")
    side: Changes = {"boat_name_and_station": {"name": "Biscuit Barrel", "station": "starboard"}}
    assert by_key(offered(shelf(HEAT), twin, **side))["heat"].amount == Decimal("30.00")
    assert "port" in by_key(offered(history=twin, **side))["heat"].why
    assert "heat" not in by_key(offered(**side))
    only_bearing = History(sister=replace(sister, wants=("bearing",)))
    assert "heat" not in by_key(offered(history=only_bearing, **side))


def test_a_second_bearing_is_offered_to_who_orders_one() -> None:
    assert by_key(offered())["spare:1:BR-1000-1250-2"].amount == Decimal("38.00")
    two = offered(bearing_length={"text": "2", "count": 2})
    assert not any("Second bearing" in offer.text for offer in two)


def test_a_rush_is_a_quarter_of_the_labour() -> None:
    """92 + 44 + 24.20 + 65, the worked price of the trade notes: 225.20, of which a quarter."""
    rush = by_key(offered())["rush"]
    assert (rush.amount, rush.how) == (Decimal("56.30"), "25 % of 225.20 labour")


def test_nothing_is_rushed_without_a_shaft() -> None:
    assert "rush" not in by_key(offered(top={"wants": ["bearing"]}))


def test_a_shaft_is_left_long_only_where_the_checks_would_send_it_so() -> None:
    order, body, record = sheet_of()
    assert not any(key.startswith("long") for key in by_key(offered()))
    record["stack"]["trim_length"] = mm("1270").mm_text  # 50 in: an inch more than 49
    found = by_key(list(offers(order, demo_stock(), RATES, body, record)))["long:25.4"]
    assert (found.amount, found.how) == (Decimal("3.60"), "1 in × 3.60")
    assert found.text == "Left 1 in long at the coupling end, to be trimmed"


# --- While the shaft is out -------------------------------------------------------------


def test_the_bearing_of_this_shaft_is_suggested_where_it_is_not_ordered() -> None:
    found = by_key(offered(top={"wants": ["shaft", "coupling"]}))["part:1:BR-1000-1250-2"]
    assert (found.group, found.amount) == (WHILE_OUT, Decimal("38.00"))
    assert "1 1/4" in found.why
    pair = offered(top={"wants": ["shaft", "coupling"]}, bearing_length={"text": "2", "count": 2})
    assert by_key(pair)["part:2:BR-1000-1250-2"].how == "2 × 38.00"


def test_a_bearing_we_do_not_list_is_asked_for() -> None:
    found = by_key(offered(top={"wants": ["shaft"]}, bearing_length={"text": "2 1/2"}))
    assert found["ask:bearing"].amount is None


def test_nothing_is_suggested_of_a_bearing_nobody_measured() -> None:
    found = offered(top={"wants": ["shaft"]}, without=("shell_od", "bearing_length"))
    assert not any("bearing" in offer.text for offer in found)


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        ({"gland_type": "packed", "log_id": "1 3/8"}, "PK-3_16"),
        ({"gland_type": "packed", "log_id": "1 1/2"}, "PK-1_4"),
        ({"gland_type": "packed", "log_id": "2"}, ""),  # no such packing
        ({"gland_type": "packed"}, ""),
        ({"gland_type": "face", "log_id": "1 3/8"}, ""),
        ({"log_id": "1 3/8"}, ""),
    ],
)
def test_packing_goes_by_the_room_round_the_shaft(answers: dict[str, Any], code: str) -> None:
    found = [offer for offer in offered(**answers) if "packing" in offer.text]
    assert [offer.key for offer in found] == ([f"part:1:{code}"] if code else [])


def test_no_graphite_goes_on_a_stainless_shaft() -> None:
    """Section 9 of the trade notes; common practice, no source."""
    black = StockPart(
        "PK-3_16", Kind.HARDWARE, "inch", None, "gland packing 3/16 in, graphite", Decimal(9)
    )
    parts = [part for part in demo_stock().parts if part.code != "PK-3_16"]
    found = offered(Stock((*parts, black), 1), gland_type="packed", log_id="1 3/8")
    assert not any("packing" in offer.text for offer in found)


def test_who_orders_a_bearing_alone_is_offered_nut_and_keys() -> None:
    found = by_key(offered(top={"wants": ["bearing"]}))
    assert found["part:1:NT-3_4-10"].amount == Decimal("18.00")
    assert (found["part:2:KY-1_4"].amount, found["part:2:KY-1_4"].how) == (
        Decimal("12.00"),
        "2 × 6.00",
    )


def test_bolts_are_suggested_as_they_were_counted() -> None:
    bolts: Changes = {"bolts": {"count": 4, "size": "3/8-16"}}
    assert by_key(offered(shelf(), **bolts))["ask:bolts"].amount is None
    row = StockPart("FB-3_8-16", Kind.HARDWARE, "inch", None, "flange bolt 3/8-16", Decimal(3))
    assert by_key(offered(shelf(row), **bolts))["part:4:FB-3_8-16"].amount == Decimal("12.00")
    assert not any("bolts" in offer.text for offer in offered())


def test_an_anode_is_suggested_only_where_one_is_fitted_and_listed() -> None:
    row = StockPart("AN-1000", Kind.HARDWARE, "inch", inches(1), "shaft anode 1 in", Decimal(17))
    fitted: Changes = {"between_strut_and_propeller": {"kind": "anode", "length": "2"}}
    assert by_key(offered(shelf(row), **fitted))["part:1:AN-1000"].amount == Decimal("17.00")
    assert not any("anode" in offer.text for offer in offered(shelf(), **fitted))
    assert not any("anode" in offer.text for offer in offered(shelf(row)))


# --- Ticked: priced exactly as offered --------------------------------------------------


def test_what_is_ticked_costs_what_was_offered() -> None:
    order, body, record = sheet_of(top={"wants": ["shaft"]}, gland_type="packed", log_id="1 3/8")
    stock = shelf(CERTIFICATE, HEAT)
    for offer in offers(order, stock, RATES, body, record):
        before, after = (price(one, stock, RATES) for one in (order, ticking(order, offer.key)))
        if offer.amount is not None:
            assert after.lines[-1].amount == offer.amount, offer
            assert after.lines[-1].how == offer.how
            assert after.goods - before.goods == offer.amount


@given(st.data())
def test_any_of_them_together_add_up(data: st.DataObject) -> None:
    """Goods grow by the sum of what is ticked; a rush by its share of the labour then."""
    wants = data.draw(st.sampled_from([["shaft"], ["shaft", "coupling"], ["shaft", "bearing"]]))
    order, body, record = _CASES[tuple(wants)]
    stock = shelf(CERTIFICATE)
    found = [one for one in offers(order, stock, RATES, body, record) if one.tickable]
    keys = data.draw(st.sets(st.sampled_from([offer.key for offer in found])))
    chosen = ticking(order, *keys)
    again = by_key(list(offers(chosen, stock, RATES, body, record)))
    before, after = price(order, stock, RATES), price(chosen, stock, RATES)
    added = sum((again[key].amount or Decimal(0) for key in keys), Decimal(0))
    assert after.goods - before.goods == added
    assert {key for key, offer in again.items() if offer.ticked} == keys
    assert after.tax == (after.goods * RATES.tax_rate).quantize(Decimal("0.01"), "ROUND_HALF_UP")
    assert len(after.lines) == len(before.lines) + len(keys)


_CASES = {
    tuple(wants): sheet_of(top={"wants": wants})
    for wants in (["shaft"], ["shaft", "coupling"], ["shaft", "bearing"])
}


def test_a_rush_goes_by_the_fitting_that_is_ticked_with_it() -> None:
    order = ticking(an_order(an_inch_shaft()), "fit", "rush")
    lines = {line.code: line for line in price(order, the_shelf(), RATES).lines}
    assert lines["RUSH"].amount == Decimal("56.30")  # 25 % of 92 + 44 + 24.20 + 65
    alone = ticking(an_order(an_inch_shaft()), "rush")
    assert price(alone, the_shelf(), RATES).lines[-1].amount == Decimal("40.05")


def test_what_is_not_on_offer_any_more_is_said_and_not_priced() -> None:
    priced = price(ticking(s01(), "part:1:GONE", "nonsense"), the_shelf(), RATES)
    assert {missing.code for missing in priced.missing} == {"GONE", "NONSENSE"}
