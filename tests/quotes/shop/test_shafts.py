"""A shaft from stage to stage: each step once, stopped where the acceptance does not stand."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from catalog.domain.lengths import Length, inches
from intake.models import Submission
from quotes import services as quotes
from quotes.domain.shop_stages import Stage
from quotes.inspecting import selectors as inspections
from quotes.inspecting import services as inspecting
from quotes.inspecting.models import Inspection, Release, Signature
from quotes.models import Quote
from quotes.sending import selectors as sendings
from quotes.sending import services as sending
from quotes.sending.models import Shipment
from quotes.services import Overtaken
from quotes.shop import selectors, services
from quotes.shop.models import ShopMove
from quotes.shop.signals import shipped
from quotes.stock.models import Hold
from quotes.stock.selectors import held_for
from tests.quotes.given import (
    a_metric_submission,
    a_quoter,
    an_accepted,
    correct,
    stock_the_shelf,
    ticked,
)
from tests.quotes.paper.papers import texts
from tests.quotes.shop.shafts import TRUE, a_made, a_packed, a_sent, inspected
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def bronagh() -> User:
    """At the bench."""
    return a_member("bronagh", "machinist")


@pytest.fixture
def second() -> User:
    """At the other lathe."""
    return a_member("cadoc", "machinist")


@pytest.fixture
def maud() -> User:
    """At the counter."""
    return a_member("maud", "counter")


def page_of(client: Client, quote: Quote) -> str:
    answer = client.get(reverse("shop-shaft", args=[quote.submission.reference]))
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def press(client: Client, name: str, quote: Quote, **sent: Any) -> str:
    address = reverse(name, args=[quote.submission.reference])
    return " ".join(client.post(address, sent, follow=True).content.decode().split())


# --- Stages -------------------------------------------------------------------------------


def test_from_the_bar_to_the_van_with_who_and_when(bronagh: User, second: User) -> None:
    quote = a_sent(bronagh, second)
    moves = selectors.moves_of(quote)
    assert [move.now for move in moves] == ["sawn", "made", "inspected", "packed", "shipped"]
    assert {move.by for move in moves} == {bronagh}
    assert selectors.stage_of(quote) == Stage.SHIPPED
    assert sendings.shipped_on(quote) == timezone.localdate()
    assert sendings.shipped_days([quote.pk]) == {quote.pk: timezone.localdate()}
    assert inspections.made_length(quote) == inches(49)
    gap = inspections.predicted_gap(quote)
    assert gap is not None
    assert gap[0] == inches("3/4")


def test_sawing_takes_the_bar(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    assert services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)
    held = held_for(quote)
    assert held is not None
    assert held.state in ("taken", "to_order")


def test_a_press_on_the_list_moves_it_on(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    client = logged_in(bronagh)
    assert "Bar sawn" in client.get(reverse("shop")).content.decode()
    said = press(client, "shop-move", quote, to="sawn", **{"from": "list"})
    assert "Shaft made" in said
    assert press(client, "shop-move", quote, to="sawn").count("sawn") > 0
    assert ShopMove.objects.count() == 1, "pressed twice, written once"


def test_no_stage_is_leapt_over(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    with pytest.raises(Overtaken):
        services.move_on(quote=quote, to=Stage.MADE, by=bronagh)
    assert not ShopMove.objects.exists()
    client = logged_in(bronagh)
    assert "Please press one of the buttons" in press(client, "shop-move", quote, to="shipped")


@pytest.mark.parametrize("to", [Stage.SAWN, Stage.MADE])
def test_a_voided_acceptance_stops_every_button_and_says_why(bronagh: User, to: Stage) -> None:
    quote = an_accepted(days_ago=0)
    if to == Stage.MADE:
        services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)
    correct(quote.submission, face_to_strut_aft={"text": "45 1/8", "method": "rod"},
            old_length_face_to_thread={"text": "50", "method": "tape"})  # fmt: skip
    with pytest.raises(services.Stopped) as stopped:
        services.move_on(quote=quote, to=to, by=bronagh)
    assert stopped.value.reasons
    page = page_of(logged_in(bronagh), quote)
    assert "Nothing may be done with this shaft now" in page or "No shaft to make" in page
    assert ">Bar sawn<" not in page
    assert ">Shaft made<" not in page


def test_an_open_question_stops_measuring_signing_and_sending(bronagh: User, second: User) -> None:
    quote = a_made(bronagh)
    row = inspected(quote, bronagh)
    Submission.objects.update(status="needs_call")
    for do in (
        lambda: inspected(quote, bronagh),
        lambda: inspecting.sign(quote=quote, number=row.number, by=second),
        lambda: sending.send(quote=quote, by=bronagh, day="", carrier="Van"),
    ):
        with pytest.raises(services.Stopped, match="Cut nothing"):
            do()


def test_a_wrong_press_is_taken_back_with_its_reason(bronagh: User) -> None:
    quote = a_made(bronagh)
    client = logged_in(bronagh)
    assert "Please write why" in press(client, "shop-back", quote, seen="made", why=" ")
    press(client, "shop-back", quote, seen="made", why="wrong shaft")
    assert selectors.stage_of(quote) == Stage.SAWN
    assert ShopMove.objects.latest("pk").why == "wrong shaft"
    with pytest.raises(services.Stopped, match="cannot be taken back"):
        services.take_back(quote=quote, seen=Stage.SAWN, by=bronagh, why="x")


def test_the_desk_calls_a_shaft_off_once_and_with_a_reason(bronagh: User, maud: User) -> None:
    quote = an_accepted(days_ago=0)
    counter = logged_in(maud)
    assert "Please write why" in press(counter, "shop-call-off", quote, why="")
    press(counter, "shop-call-off", quote, why="boat sold")
    press(counter, "shop-call-off", quote, why="boat sold")
    assert ShopMove.objects.count() == 1
    assert selectors.stage_of(quote) == Stage.CANCELLED
    held = held_for(quote)
    assert held is None or held.state in ("given_back", "to_order")
    assert "Tern" not in logged_in(bronagh).get(reverse("shop")).content.decode()
    with pytest.raises(services.Stopped):
        services.call_off(quote=quote, by=maud, why=" ")


def test_what_has_left_or_was_called_off_is_no_longer_looked_for(
    bronagh: User, second: User, maud: User
) -> None:
    sent, off, here = a_sent(bronagh, second), an_accepted(days_ago=0), an_accepted(days_ago=0)
    services.call_off(quote=off, by=maud, why="boat sold")
    assert set(Quote.objects.filter(is_here=False)) == {sent, off}
    assert [one.pk for one in selectors.shafts_to_make().quotes] == [here.pk]


def test_what_has_gone_is_off_the_list(bronagh: User, second: User) -> None:
    a_sent(bronagh, second)
    page = logged_in(bronagh).get(reverse("shop")).content.decode()
    assert "No accepted shaft waits to be made." in page


# --- Measuring ----------------------------------------------------------------------------


def test_a_look_shows_the_gap_and_stores_nothing(bronagh: User) -> None:
    quote = a_made(bronagh)
    said = press(
        logged_in(bronagh), "shop-inspect", quote, do="look", **{**TRUE, "length": "49 1/16"}
    )
    assert "0.813 in (20.64 mm)" in said
    assert "Ring the desk" in said
    assert "99.9 %" in said
    assert "Nothing is stored by looking" in said
    assert not Inspection.objects.exists()


def test_a_stored_inspection_keeps_what_was_typed_and_what_it_said(bronagh: User) -> None:
    quote = a_made(bronagh)
    said = press(logged_in(bronagh), "shop-inspect", quote, do="keep", seen="0",
                 **{**TRUE, "length": "49 3/16"})  # fmt: skip
    assert "The inspection is stored" in said
    row = Inspection.objects.get()
    assert row.typed == {**TRUE, "length": "49 3/16"}
    assert Length(row.length_nm) == inches("49 3/16")
    assert row.verdict == "shorten"
    assert row.found[0]["check"] == "as-made-length"
    assert row.by == bronagh
    assert "0.188 in (4.76 mm) faced off" in said


def test_what_cannot_be_read_is_shown_again_with_its_sentence(bronagh: User) -> None:
    quote = a_made(bronagh)
    said = press(logged_in(bronagh), "shop-inspect", quote, do="keep", length="four nine", face="3")
    assert 'value="four nine"' in said
    assert 'href="#made-length"' in said
    assert "write it like 0.003, 3 thou" in said
    assert not Inspection.objects.exists()


def test_a_correction_is_a_new_row_and_the_old_one_stays(bronagh: User) -> None:
    quote = a_made(bronagh)
    inspected(quote, bronagh, length="49 3/16")
    inspected(quote, bronagh)
    rows = inspections.inspections_of(quote)
    assert [(row.number, row.verdict) for row in rows] == [(2, "pass"), (1, "shorten")]


def test_a_double_click_stores_one_and_another_person_is_told(bronagh: User, second: User) -> None:
    quote = a_made(bronagh)
    first = inspecting.keep_inspection(quote=quote, typed=TRUE, seen=0, by=bronagh)
    assert inspecting.keep_inspection(quote=quote, typed=TRUE, seen=0, by=bronagh) == first
    with pytest.raises(Overtaken):
        inspecting.keep_inspection(quote=quote, typed=TRUE, seen=0, by=second)
    assert Inspection.objects.count() == 1


def test_before_it_is_made_there_is_nothing_to_inspect(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    with pytest.raises(services.Stopped, match="is not made yet"):
        inspecting.keep_inspection(quote=quote, typed=TRUE, seen=0, by=bronagh)


# --- Signing and letting go ---------------------------------------------------------------


def test_another_person_signs_not_oneself(bronagh: User, second: User) -> None:
    quote = a_made(bronagh)
    row = inspected(quote, bronagh)
    assert "waits for a second person" in page_of(logged_in(bronagh), quote)
    assert "signed by somebody else" in press(logged_in(bronagh), "shop-sign", quote, seen="1")
    assert not Signature.objects.exists()
    press(logged_in(second), "shop-sign", quote, seen="1")
    assert Signature.objects.get().by == second
    assert not inspecting.sign(quote=quote, number=row.number, by=second), "once"
    assert "Inspected, on to packing" in page_of(logged_in(bronagh), quote)


def test_a_signature_does_not_pass_on_to_a_newer_inspection(bronagh: User, second: User) -> None:
    quote = a_made(bronagh)
    inspecting.sign(quote=quote, number=inspected(quote, bronagh).number, by=second)
    inspected(quote, bronagh, contact="75")
    assert inspections.may_not_leave(quote)
    with pytest.raises(Overtaken):
        inspecting.sign(quote=quote, number=1, by=second)


def test_past_ring_the_desk_only_the_desk_lets_it_go_with_a_reason(
    bronagh: User, second: User, maud: User
) -> None:
    quote = a_made(bronagh)
    row = inspected(quote, bronagh, length="49 1/16")
    inspecting.sign(quote=quote, number=row.number, by=second)
    with pytest.raises(services.Stopped, match="Ring the desk"):
        services.move_on(quote=quote, to=Stage.INSPECTED, by=bronagh)
    assert inspections.waiting_for_the_desk() == [row]
    day = logged_in(maud).get(reverse("quotes-today")).content.decode()
    assert "Shafts that ring the desk" in day
    assert reverse("shop-shaft", args=[quote.submission.reference]) in day
    address = reverse("shop-release", args=[quote.submission.reference])
    assert logged_in(bronagh).post(address, {"seen": "1", "why": "x"}).status_code == 403
    counter = logged_in(maud)
    assert "Please write why it may go" in press(counter, "shop-release", quote, seen="1", why="")
    press(counter, "shop-release", quote, seen="1", why="told Mr Tarpley: 13/16")
    assert Release.objects.get().by == maud
    assert inspections.waiting_for_the_desk() == []
    assert services.move_on(quote=quote, to=Stage.INSPECTED, by=bronagh)


@pytest.mark.parametrize("length", ["49 3/16", "48 13/16", "49"])
def test_what_is_to_be_shortened_or_scrapped_or_has_passed_is_not_let_go(
    bronagh: User, maud: User, length: str
) -> None:
    quote = a_made(bronagh)
    row = inspected(quote, bronagh, length=length)
    with pytest.raises(services.Stopped):
        inspecting.release(quote=quote, number=row.number, by=maud, why="please")
    assert not Release.objects.exists()


# --- Sending ------------------------------------------------------------------------------


def test_it_goes_once_and_says_so_inside_the_transaction(bronagh: User, second: User) -> None:
    quote, heard = a_packed(bronagh, second), []

    def hear(quote: Quote, day: object, **_rest: object) -> None:
        heard.append((quote.pk, day, connection.in_atomic_block))

    shipped.connect(hear)
    try:
        client = logged_in(bronagh)
        page = press(client, "shop-send", quote, day="", carrier="", weight="heavy")
        assert "Please write who carries it" in page
        assert "Please write the weight in pounds" in page
        assert heard == []
        press(client, "shop-send", quote, carrier="Long parcels", tracking="LP 1", weight="14,5")
        press(client, "shop-send", quote, carrier="Long parcels", tracking="LP 1")
    finally:
        shipped.disconnect(hear)
    assert heard == [(quote.pk, timezone.localdate(), True)]
    row = Shipment.objects.get()
    assert (row.carrier, row.tracking, str(row.weight_lb)) == ("Long parcels", "LP 1", "14.5")
    assert Length(row.tube_nm or 0) == inches(53)  # 49 in and 4 in (common practice)


@pytest.mark.parametrize("days", [1, -15])
def test_a_day_that_is_to_come_or_long_gone_is_refused(
    bronagh: User, second: User, days: int
) -> None:
    quote = a_packed(bronagh, second)
    day = (timezone.localdate() + timedelta(days=days)).isoformat()
    with pytest.raises(sending.NotSent) as refused:
        sending.send(quote=quote, by=bronagh, day=day, carrier="Van")
    assert "within the last two weeks" in refused.value.errors["day"]


def test_an_inspection_after_packing_was_begun_holds_it(bronagh: User, second: User) -> None:
    quote = a_packed(bronagh, second)
    services.take_back(quote=quote, seen=Stage.PACKED, by=bronagh, why="look again")
    inspected(quote, bronagh, runout_taper="8 thou")
    with pytest.raises(services.Stopped, match="Ring the desk"):
        services.move_on(quote=quote, to=Stage.PACKED, by=bronagh)


def test_the_page_takes_as_many_queries_for_one_inspection_as_for_five(
    bronagh: User, second: User, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    quote, client = a_made(bronagh), logged_in(bronagh)
    inspected(quote, bronagh)
    page_of(client, quote)
    with CaptureQueriesContext(connection) as one:
        page_of(client, quote)
    for contact in ("71", "72", "73", "74"):
        inspected(quote, second, contact=contact)
    with django_assert_max_num_queries(len(one)):
        page_of(client, quote)


# --- What no table gives ------------------------------------------------------------------


def a_metric_accepted() -> Quote:
    """A shaft of 40 mm, whose propeller end no row gives."""
    quote = quotes.issue_quote(
        submission_id=a_metric_submission().pk, by=a_quoter("iolo"), prices={"KEY": Decimal(9)}
    )
    quotes.accept_quote(quote=quote, name="Odile Marsh", confirmations=ticked(quote))
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def test_a_metric_end_is_cut_only_by_the_desks_own_word(bronagh: User, maud: User) -> None:
    quote = a_metric_accepted()
    with pytest.raises(services.Stopped, match="length of the taper"):
        services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)
    page = page_of(logged_in(bronagh), quote)
    assert "Not known: the propeller end" in page
    assert "Give the shop this word" not in page, "that is the desk's to say"
    counter = logged_in(maud)
    assert "Give the shop this word" in page_of(counter, quote)
    assert "Please write the dimensions" in press(counter, "shop-word", quote, words=" ")
    press(counter, "shop-word", quote, words="taper 95 mm, old shaft in hand")
    assert "taper 95 mm, old shaft in hand" in page_of(logged_in(bronagh), quote)
    drawn = services.draw_cut_sheet(quote_id=quote.pk)
    assert drawn is not None
    assert "The desk says: taper 95 mm, old shaft in hand (maud)" in texts(bytes(drawn.content))[0]
    with pytest.raises(services.Stopped, match="drawn already"):
        services.give_word(quote=quote, by=maud, words="taper 96 mm")
    assert services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)


def test_the_desk_has_no_word_to_give_where_nothing_is_missing(maud: User) -> None:
    with pytest.raises(services.Stopped, match="Nothing is missing"):
        services.give_word(quote=an_accepted(days_ago=0), by=maud, words="taper 2 in")


def test_the_accepted_alloy_is_what_the_page_and_the_sheet_say(bronagh: User) -> None:
    """The order is read with the choice that was kept with the quote."""
    quote = an_accepted(days_ago=0)
    inputs = {**quote.inputs, "choice": {"alloy": "S31600", "options": []}}
    Quote.objects.filter(pk=quote.pk).update(inputs=inputs)
    quote = Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)
    assert "UNS S31600" in services.facts_of(quote).bar
    assert "UNS S31600" in page_of(logged_in(bronagh), quote)


def test_the_sheet_says_what_the_rack_holds(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    held = held_for(quote)
    piece = services.facts_of(quote).piece
    assert piece == ("ring: no piece held" if held is None else piece)
    assert held is None or held.piece_words in piece
    Hold.objects.filter(quote=quote).delete()
    assert services.facts_of(quote).piece == "ring: no piece held"


# --- Two at once --------------------------------------------------------------------------


def at_once(*tries: Callable[[], object]) -> tuple[list[object], list[str]]:
    """Do things in threads at the same moment: what came out, and which errors."""
    ready, done, wrong = threading.Barrier(len(tries)), [], []

    def one(do: Callable[[], object]) -> None:
        try:
            ready.wait(timeout=20)
            done.append(do())
        except Exception as error:  # told in the test's own thread
            wrong.append(type(error).__name__)
        finally:
            connection.close()

    threads = [threading.Thread(target=one, args=(do,)) for do in tries]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return done, wrong


@pytest.mark.django_db(transaction=True)
def test_a_double_click_on_each_stage_writes_each_step_once() -> None:
    bronagh, second = a_member("bronagh", "machinist"), a_member("cadoc", "machinist")
    quote = an_accepted(days_ago=0)

    def twice(to: Stage) -> None:
        def move() -> object:
            return services.move_on(quote=quote, to=to, by=bronagh)

        done, wrong = at_once(move, move)
        assert wrong == []
        assert sorted(map(bool, done)) == [False, True]

    twice(Stage.SAWN)
    twice(Stage.MADE)

    def inspect() -> object:
        return inspecting.keep_inspection(quote=quote, typed=TRUE, seen=0, by=bronagh)

    done, wrong = at_once(inspect, inspect)
    assert wrong == []
    assert done[0] == done[1]

    def other(who: User) -> Callable[[], object]:
        typed = {**TRUE, "contact": "90"}
        return lambda: inspecting.keep_inspection(quote=quote, typed=typed, seen=1, by=who)

    done, wrong = at_once(other(bronagh), other(second))
    assert (len(done), wrong) == (1, ["Overtaken"]), "two inspections at once: one is stored"
    last = inspections.newest(quote)
    assert last is not None
    signer = second if last.by_id == bronagh.pk else bronagh
    inspecting.sign(quote=quote, number=last.number, by=signer)
    twice(Stage.INSPECTED)
    twice(Stage.PACKED)

    def send() -> object:
        return sending.send(quote=quote, by=bronagh, day="", carrier="Van")

    done, wrong = at_once(send, send)
    assert wrong == []
    assert sorted(map(bool, done)) == [False, True]
    assert Shipment.objects.count() == 1
    assert ShopMove.objects.count() == 5
