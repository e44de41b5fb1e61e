"""The pages of bars and shafts and of what is to be ordered, as their people see them."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from catalog.domain.lengths import inches
from catalog.models import Part
from catalog.pieces.models import Piece, ReorderPoint
from quotes.stock import services
from quotes.stock.planning import bar_plan
from quotes.stock.reordering import reorder_rows
from staff.errors import Overtaken
from staff.models import Change
from tests.quotes.given import stock_the_shelf
from tests.quotes.stock.given import BAR, NEEDED, a_rack, a_remnant, accepted, shaft_of
from tests.staff.given import a_member, logged_in

PORT = {"name": "Ladle", "station": "port"}
STARBOARD = {"name": "Ladle", "station": "starboard"}


@pytest.fixture(autouse=True)
def _shelf(db: None) -> None:
    stock_the_shelf()


@pytest.fixture
def machinist() -> Client:
    return logged_in(a_member("bronagh", "machinist"))


def page(client: Client, name: str) -> str:
    answer = client.get(reverse(name))
    assert answer.status_code == 200
    return answer.content.decode()


# --- Which bar for which shaft ------------------------------------------------------------


def test_a_remnant_found_later_takes_the_shaft_off_the_bar(machinist: Client) -> None:
    a_rack(144)
    quote = accepted()
    assert "Hold it like this" not in page(machinist, "bars")
    remnant = a_remnant("52")
    text = page(machinist, "bars")
    assert "best possible" in text
    assert f"<strong>{remnant.label}</strong>" in text
    seen = bar_plan().seen
    answer = machinist.post(reverse("bars-hold"), {"seen": seen}, follow=True)
    assert "held as planned" in answer.content.decode()
    assert shaft_of(quote).piece == remnant
    assert [piece.held for piece in Piece.objects.order_by("pk")] == [inches(0), NEEDED]
    again = machinist.post(reverse("bars-hold"), {"seen": seen}, follow=True).content.decode()
    assert "changed after you opened the page" in again
    assert shaft_of(quote).piece == remnant


def test_a_pair_is_planned_onto_one_heat() -> None:
    a_rack(52, heat="H 1")
    a_rack(52, heat="H 2", paper="DN 2")
    port = accepted(boat_name_and_station=PORT)
    starboard = accepted(boat_name_and_station=STARBOARD)
    assert shaft_of(port).piece != shaft_of(starboard).piece
    a_rack(144, heat="H 3", paper="DN 3")
    made = bar_plan()
    assert made.metals[0].now.score.apart == 1
    services.hold_as_planned(seen=made.seen, by=a_member())
    assert {shaft_of(one).piece.heat for one in (port, starboard)} == {"H 3"}  # type: ignore[union-attr]


def test_a_plan_that_is_stale_moves_nothing() -> None:
    a_rack(144)
    quote = accepted()
    a_remnant("52")
    made = bar_plan()
    accepted()
    with pytest.raises(Overtaken):
        services.hold_as_planned(seen=made.seen, by=a_member())
    assert shaft_of(quote).piece is not None
    assert shaft_of(quote).piece.kind == "bar"  # type: ignore[union-attr]


def test_a_drop_is_said_with_what_to_ask(machinist: Client) -> None:
    a_rack(60)
    accepted()
    text = page(machinist, "bars")
    assert "scrap" in text
    assert "move the length an eighth either way?" in text
    assert "<svg" in text


def test_the_plan_costs_the_same_however_many_wait(
    machinist: Client, django_assert_num_queries: Any
) -> None:
    for bars in (1, 3):
        a_rack(*[144] * bars, paper=f"DN {bars}")
        for _ in range(bars):
            accepted()
        page(machinist, "bars")
        with django_assert_num_queries(7):
            page(machinist, "bars")


# --- What is to be ordered ----------------------------------------------------------------


def test_shafts_without_a_bar_are_ordered_as_new_bars_with_the_reason(machinist: Client) -> None:
    a_rack(20)
    quotes = [accepted() for _ in range(3)]
    (row,) = [one for one in reorder_rows() if one.code == BAR]
    assert (row.on_hand, row.quantity) == (1, 2)  # two of them fit on one new bar
    assert [quote.number in why for quote, why in zip(quotes, row.why, strict=True)] == [True] * 3
    assert quotes[0].number in page(machinist, "reorder")
    table = machinist.get(reverse("reorder-csv")).content.decode()
    assert table.splitlines()[0] == "code,what,quantity,on_hand,held,why"
    assert f"{BAR}," in table


def test_a_part_at_its_reorder_point_is_on_the_list_and_above_it_not() -> None:
    part = Part.objects.get(code="CP40C-1000")
    ReorderPoint.objects.create(part=part, at=part.on_hand or 0, to=20)
    (row,) = reorder_rows()
    assert (row.code, row.quantity) == (part.code, 20 - (part.on_hand or 0))
    ReorderPoint.objects.update(at=(part.on_hand or 0) - 1)
    assert reorder_rows() == []
    accepted()  # holds one of them: so many fewer are free
    assert [row.code for row in reorder_rows()] == [part.code]


def test_what_has_come_is_held_for_who_waits(machinist: Client) -> None:
    Part.objects.filter(code="CP40C-1000").update(on_hand=0)
    quote = accepted()
    assert [row.code for row in reorder_rows()] == ["CP40C-1000"]
    Part.objects.filter(code="CP40C-1000").update(on_hand=2)
    answer = machinist.post(reverse("reorder-hold"), follow=True)
    assert "1 held now" in answer.content.decode()
    assert quote.holds.get(line="CP40C-1000").state == "held"


def test_a_manager_sets_a_reorder_point_with_a_reason() -> None:
    manager = logged_in(a_member("percival", "manager"))
    said = {"part": "bh-1000", "at": "3", "to": "8", "why": "spring"}
    text = manager.post(reverse("reorder-point"), said, follow=True).content.decode()
    assert "BH-1000: written down." in text
    assert Change.objects.get(record="reorder point").why == "spring"
    wrong = manager.post(reverse("reorder-point"), {**said, "to": "3"})
    assert (wrong.status_code, "more than the number" in wrong.content.decode()) == (422, True)
    manager.post(reverse("reorder-point"), {**said, "at": "", "to": ""})
    assert not ReorderPoint.objects.exists()


def test_goods_in_serve_everybody_who_waits_in_one_request(machinist: Client) -> None:
    """Also where five wait, and where five move to other pieces at once."""
    a_rack(20)
    quotes = [accepted() for _ in range(5)]
    said = {"paper": "DN 9", "line": "1", "part": BAR, "lengths": "5 x 60 in", "heat": "H 9"}
    answer = machinist.post(reverse("goods-in"), said, follow=True)
    assert "In the rack now" in answer.content.decode()
    assert {shaft_of(quote).state for quote in quotes} == {"held"}
    remnants = [a_remnant("52") for _ in range(5)]
    answer = machinist.post(reverse("bars-hold"), {"seen": bar_plan().seen}, follow=True)
    assert "held as planned" in answer.content.decode()
    assert {shaft_of(quote).piece for quote in quotes} == set(remnants)
    machinist.post(reverse("reorder-hold"), follow=True)


def test_a_bar_is_cut_by_its_picture_to_scale(machinist: Client) -> None:
    a_rack(144)
    accepted()
    text = page(machinist, "bars")
    assert "left over: 94 7/16 in" in text
    assert "kept as a remnant" in text
