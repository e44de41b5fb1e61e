"""What is read from a checked sheet: the facts a price is made of."""

from __future__ import annotations

from typing import Any

import pytest

from catalog.domain.lengths import inches, mm
from quotes.domain.order import Wanted, alloy_words, read_order, standard_key, standard_thread


def a_record(**stack: Any) -> dict[str, Any]:
    return {
        "shaft": {"fit_probability": 0.99},
        "parts": [{"code": "CP40C-1000", "kind": "coupling", "quantity": 1}],
        "stack": {
            "layout": "inline",
            "system": "inch",
            "nominal": {"mm": "25.400000", "inch": "1"},
            "length": "1244.600000",
            "overall": "1252.537500",
            **stack,
        },
    }


def a_body(**answers: Any) -> dict[str, Any]:
    return {"wants": ["shaft", "coupling"], "answers": answers}


def test_a_shaft_is_read_exactly() -> None:
    order = read_order(a_body(), a_record())
    assert order.shaft is not None
    assert order.shaft.length == inches(49)
    assert order.shaft.overall == inches("49 5/16")
    assert (order.shaft.alloy, order.shaft.thread, order.shaft.key) == ("S20910", "3/4-10", "1/4")
    assert order.parts == (Wanted("CP40C-1000", "coupling", 1),)


def test_a_metric_shaft_takes_the_desks_metric_alloy_and_the_tables_thread() -> None:
    nominal = {"mm": "25.000000", "inch": "≈63/64"}
    order = read_order(a_body(), a_record(system="mm", nominal=nominal))
    assert order.shaft is not None
    assert (order.shaft.alloy, order.shaft.thread, order.shaft.key) == ("1.4462", "M16x1.5", "")


def test_the_customers_thread_stands_in_where_no_table_gives_one() -> None:
    nominal = {"mm": "40.000000", "inch": "≈1 37/64"}
    body = a_body(thread={"text": "M24 × 2"})
    order = read_order(body, a_record(system="mm", nominal=nominal))
    assert order.shaft is not None
    assert order.shaft.thread == "M24x2"


@pytest.mark.parametrize(
    "record", [{}, {"shaft": None, "stack": None}, a_record(length=None), a_record(nominal={})]
)
def test_no_length_no_shaft(record: dict[str, Any]) -> None:
    assert read_order(a_body(), record).shaft is None


def test_a_shaft_nobody_asked_for_is_not_made() -> None:
    assert read_order({"wants": ["bearing"], "answers": {}}, a_record()).shaft is None


@pytest.mark.parametrize(
    ("answers", "end"),
    [
        ({}, "straight"),
        ({"coupling_bore": "split"}, "straight"),
        ({"coupling_bore": "taper"}, "tapered"),
        ({"coupling_bore": {"kind": "taper"}}, "tapered"),
        ({"front_taper": {"tapered": "yes"}}, "tapered"),
        ({"front_taper": {"tapered": "unknown"}}, "straight"),
    ],
)
def test_the_forward_end_follows_the_coupling(answers: dict[str, Any], end: str) -> None:
    order = read_order(a_body(**answers), a_record())
    assert order.shaft is not None
    assert order.shaft.forward_end == end


def test_a_coupling_comes_only_when_it_is_sent() -> None:
    kept = a_body(reuse_coupling={"reuse": True, "sending": False})
    sent = a_body(reuse_coupling={"reuse": True, "sending": True})
    assert not read_order(kept, a_record()).coupling_comes
    assert read_order(sent, a_record()).coupling_comes


def test_a_pass_through_goes_by_its_overall() -> None:
    order = read_order(a_body(), a_record(layout="v_pass_through"))
    assert order.shaft is not None
    assert order.shaft.charged_by == order.shaft.overall


def test_what_no_table_says_is_left_empty() -> None:
    assert standard_thread("inch", inches("1 1/16")) == ""
    assert standard_key("inch", inches("1 1/16")) == ""
    assert standard_key("mm", mm(90)) == ""


def test_a_metric_key_must_fit_both_ends() -> None:
    """ISO 4566 rows: 30 mm takes 8x7 in its taper; 25 mm takes 6 wide, and 8x7 at the coupling."""
    assert standard_key("mm", mm(30)) == "8x7"
    assert standard_key("mm", mm(25)) == ""
    assert standard_key("mm", mm(40)) == ""


def test_an_alloy_carries_the_name_of_its_numbers() -> None:
    assert alloy_words("S31600") == "UNS S31600"
    assert alloy_words("1.4401") == "EN 1.4401"
