"""Held at acceptance, sawn once, given back once; nobody ever has more than there is."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection
from django.db.models import F

from catalog.domain.lengths import Length, inches
from catalog.models import Part
from catalog.pieces.models import Piece
from catalog.pieces.services import lay_out_pieces
from catalog.selectors import stock
from quotes.domain.nesting import bar_needed
from quotes.stock import services
from quotes.stock.models import Hold
from quotes.stock.selectors import held_for, left_over_of, parts_held_for
from tests.quotes.domain.orders import an_inch_shaft, an_order
from tests.quotes.given import a_quote, stock_the_shelf
from tests.quotes.stock.given import (
    BAR,
    NEEDED,
    a_rack,
    a_remnant,
    accept,
    accepted,
    counts,
    free_lengths,
    shaft_of,
)


@pytest.fixture(autouse=True)
def _shelf(request: pytest.FixtureRequest, db: None) -> None:
    stock_the_shelf()


# --- Acceptance -----------------------------------------------------------------------


def test_an_acceptance_holds_inches_of_a_bar_and_the_parts() -> None:
    a_rack(144)
    quote = accepted()
    hold = shaft_of(quote)
    assert (hold.state, hold.needed) == ("held", NEEDED)
    assert free_lengths() == [inches(144) - NEEDED]
    assert counts(BAR) == (1, 1)
    held = {one.line: (one.quantity, one.state) for one in parts_held_for(quote)}
    assert held["CP40C-1000"] == (1, "held")
    assert held["KY-1_4"] == (2, "held")
    assert not any(code.startswith("SV-") for code in held)


def test_what_is_promised_is_in_stock_for_nobody_else() -> None:
    a_rack(144)
    accepted()
    part = stock().part(BAR)
    assert part is not None
    assert (part.on_hand, part.held, part.in_stock) == (1, 1, False)


def test_a_bar_serves_as_many_shafts_as_fit_and_the_next_is_to_be_ordered() -> None:
    a_rack(144)
    states = [shaft_of(accepted()).state for _ in range(3)]
    assert states == ["held", "held", "to_order"]
    assert free_lengths() == [inches(144) - NEEDED - NEEDED]


def test_a_remnant_that_fits_well_comes_before_a_bar() -> None:
    a_rack(144)
    remnant = a_remnant("52")
    quote = accepted()
    assert shaft_of(quote).piece == remnant
    held = held_for(quote)
    assert held is not None
    assert (held.heat, held.left) == ("H 4471", inches("52") - NEEDED)
    assert held.piece_words.startswith(remnant.label)
    assert counts(BAR) == (1, 0)


def test_to_the_nanometre() -> None:
    a_rack(20)  # of no use; it says that this part is kept by piece
    exact = a_remnant("50")
    Piece.objects.filter(pk=exact.pk).update(length_nm=NEEDED.nm - 1, free_nm=NEEDED.nm - 1)
    assert shaft_of(accepted()).state == "to_order"
    Piece.objects.filter(pk=exact.pk).update(length_nm=NEEDED.nm, free_nm=NEEDED.nm)
    assert services.hold_what_waits() == 1
    assert free_lengths()[-1] == Length(0)


def test_a_twin_is_cut_from_the_heat_of_its_sister() -> None:
    """Though the other bar would leave more."""
    a_rack(144, heat="H 1")
    port = accepted(boat_name_and_station={"name": "Biscuit Barrel", "station": "port"})
    a_remnant("52", heat="H 2")
    starboard = accepted(boat_name_and_station={"name": "Biscuit Barrel", "station": "starboard"})
    other = accepted(boat_name_and_station={"name": "Ladle", "station": "starboard"})
    heats = [shaft_of(one).piece.heat for one in (port, starboard, other)]  # type: ignore[union-attr]
    assert heats == ["H 1", "H 1", "H 2"]


def test_a_shop_that_only_counts_its_bars_holds_a_whole_one() -> None:
    quote = accepted()
    assert (shaft_of(quote).piece, shaft_of(quote).state) == (None, "held")
    assert counts(BAR) == (9, 1)
    held = held_for(quote)
    assert held is not None
    assert held.piece_words == f"a whole bar of {BAR}, by count"


def test_listing_the_bars_gives_who_held_one_by_count_a_piece() -> None:
    quote = accepted()
    assert services.lay_out() == sum(
        part.on_hand or 0 for part in Part.objects.filter(kind__in=("bar", "blank"))
    )
    assert lay_out_pieces() == 0
    assert counts(BAR) == (9, 1)
    assert shaft_of(quote).piece is not None
    assert {piece.heat for piece in Piece.objects.all()} == {""}


def test_bars_that_come_go_to_who_waits_longest() -> None:
    a_rack(20)
    first, second = accepted(), accepted()
    a_rack(60, paper="DN 8812")
    assert (shaft_of(first).state, shaft_of(second).state) == ("held", "to_order")


# --- Giving back ----------------------------------------------------------------------


def test_what_is_given_back_is_free_once() -> None:
    a_rack(144)
    before = counts("CP40C-1000")
    quote = accepted()
    services.give_back(quote)
    services.give_back(quote)
    assert free_lengths() == [inches(144)]
    assert (counts(BAR), counts("CP40C-1000")) == ((1, 0), before)
    assert {hold.state for hold in Hold.objects.all()} == {"given_back"}


def test_what_was_sawn_is_not_given_back() -> None:
    a_rack(144)
    quote = accepted()
    services.take(quote)
    services.give_back(quote)
    assert shaft_of(quote).state == "taken"
    assert free_lengths() == [inches(144) - NEEDED]


# --- Sawing ---------------------------------------------------------------------------


def test_sawing_leaves_a_remnant_of_the_same_heat_once() -> None:
    a_rack(144)
    quote = accepted()
    before = counts("CP40C-1000")
    sawn = services.take(quote).sawn
    assert services.take(quote) == services.Taken()
    remnant = shaft_of(quote).remnant
    assert sawn is not None
    assert remnant is not None
    assert (remnant.kind, remnant.label[:2], remnant.heat) == ("remnant", "R-", "H 4471")
    assert remnant.length == inches(144) - NEEDED
    assert remnant.cut_from == sawn.piece
    assert counts(BAR) == (0, 0)
    assert counts("CP40C-1000") == ((before[0] or 0) - 1, 0)
    held = held_for(quote)
    assert held is not None
    assert (held.state, held.remnant, held.left) == ("taken", remnant.label, remnant.length)


def test_who_holds_some_of_the_same_bar_holds_it_of_what_is_left() -> None:
    a_rack(144)
    first, second = accepted(), accepted()
    services.take(first)
    assert shaft_of(second).piece == shaft_of(first).remnant
    assert free_lengths() == [inches(144) - NEEDED - NEEDED]
    services.give_back(second)
    assert free_lengths() == [inches(144) - NEEDED]


@pytest.mark.parametrize(("over", "is_kept"), [("1", True), ("63/64", False)])
def test_an_end_under_an_inch_is_no_piece(over: str, is_kept: bool) -> None:
    a_rack(20)
    piece = a_remnant("50")
    nm = NEEDED.nm + inches(over).nm
    Piece.objects.filter(pk=piece.pk).update(length_nm=nm, free_nm=nm)
    quote = accepted()
    sawn = services.take(quote).sawn
    assert sawn is not None
    assert (sawn.left, sawn.remnant is not None) == (inches(over), is_kept)


def test_a_shaft_that_has_no_bar_is_said_when_it_is_to_be_sawn() -> None:
    a_rack(20)
    quote = accepted()
    assert "49 9/16 in" in services.take(quote).not_there[0]
    assert shaft_of(quote).state == "to_order"


def test_who_counted_fewer_meanwhile_was_right() -> None:
    a_rack(144)
    quote = accepted()
    Part.objects.filter(code="CP40C-1000").update(on_hand=0)
    services.take(quote)
    assert counts("CP40C-1000") == (0, 0)


# --- What would be left ---------------------------------------------------------------


def test_what_would_be_left_of_the_best_piece() -> None:
    order = an_order(an_inch_shaft())
    assert order.shaft is not None
    needed = bar_needed(order.shaft.overall)
    assert left_over_of(order) is None
    a_rack(144)
    assert left_over_of(order) == inches(144) - needed
    a_remnant("60")
    assert left_over_of(order) == inches(60) - needed


# --- At once --------------------------------------------------------------------------


def at_once(*deeds: Callable[[], object]) -> list[object]:
    """Each in a thread of its own, all starting together; an exception is the answer."""
    ready, said = threading.Barrier(len(deeds)), []

    def do(deed: Callable[[], object]) -> None:
        try:
            ready.wait(timeout=30)
            said.append(deed())
        except Exception as error:  # the test looks at it
            said.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=do, args=(deed,)) for deed in deeds]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return said


@pytest.mark.django_db(transaction=True)
def test_twenty_who_accept_at_once_hold_no_more_than_the_last_bar_has() -> None:
    a_rack(144)
    Part.objects.filter(code="CP40C-1000").update(on_hand=3)
    quotes = [a_quote() for _ in range(20)]
    said = at_once(*(lambda one=one: accept(one) for one in quotes))
    assert [one for one in said if isinstance(one, Exception)] == []
    states = sorted(shaft_of(quote).state for quote in quotes)
    assert states == ["held"] * 2 + ["to_order"] * 18
    assert free_lengths() == [inches(144) - NEEDED - NEEDED]
    assert counts("CP40C-1000") == (3, 3)
    assert Hold.objects.filter(line="CP40C-1000", state="held").count() == 3


@pytest.mark.django_db(transaction=True)
def test_two_who_saw_at_once_make_one_remnant() -> None:
    a_rack(144)
    quote = accepted()
    said = at_once(*[lambda: services.take(quote)] * 3, lambda: services.give_back(quote))
    assert [one for one in said if isinstance(one, Exception)] == []
    remnants = Piece.objects.filter(kind="remnant").count()
    assert remnants == (1 if shaft_of(quote).state == "taken" else 0)
    assert free_lengths() in ([inches(144) - NEEDED], [inches(144)])


# --- What it costs ----------------------------------------------------------------------


def test_an_acceptance_holds_in_the_same_few_queries_however_full_the_rack_is(
    django_assert_num_queries: Any,
) -> None:
    for bars in (1, 30):
        a_rack(*[144] * bars, paper=f"DN {bars}")
        quote = accepted()
        Hold.objects.filter(quote=quote).delete()
        Piece.objects.update(free_nm=F("length_nm"))
        Part.objects.update(held=0)
        with django_assert_num_queries(15):
            services.hold_for(quote)
