"""One case for an order, step by step: nothing is lost, nothing happens twice, all is told."""

from __future__ import annotations

import html
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from catalog.domain.lengths import inches
from intake.calling.services import record_call
from quotes import services as quotes
from quotes.cases import selectors, services
from quotes.cases.models import Case, CaseCost, CaseEvent
from quotes.cases.services import Agreement, CaseError, Coded, Cost
from quotes.models import Quote
from quotes.outcomes.services import tell_outcome
from staff.trail.selectors import changes_of
from tests.quotes.given import a_quote, a_submission, an_accepted, stock_the_shelf, ticked
from tests.quotes.outcomes.given import a_sent
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
CODED = Coded("S-LENGTH", ("K-SKIPPED",), "measured 49 1/2", "Bronagh", "at_fitting", "shop")


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def maud() -> User:
    return a_member("maud")


def a_case(by: User, **told: Any) -> Case:
    return services.open_case(a_sent(days_ago=12), why="it sticks out", by=by, **told)


# --- Opening --------------------------------------------------------------------------


def test_one_case_is_open_for_an_order_and_what_is_told_again_is_added(maud: User) -> None:
    case = a_case(maud)
    again = services.open_case(case.quote, why="the yard rang too", by=maud)
    services.open_case(case.quote, why="the yard rang too", by=maud)  # a second click
    assert again.pk == case.pk
    words = list(CaseEvent.objects.values_list("words", flat=True))
    assert words == ["it sticks out", "the yard rang too"]


def test_a_closed_case_makes_room_for_another_with_the_next_number(maud: User) -> None:
    case = a_case(maud)
    services.code_cause(case=case, coded=CODED, by=maud)
    services.close_without(case=case, why="they like it so", by=maud)
    other = services.open_case(case.quote, why="it rubs after all", by=maud)
    assert [one[-4:] for one in (case.number, other.number)] == ["0001", "0002"]


def test_any_time_after_the_acceptance_and_not_before(maud: User) -> None:
    with pytest.raises(CaseError, match="accepted"):
        services.open_case(a_quote(), why="too early", by=maud)
    yard = {"contact": {"name": "Odile Marsh", "phone": "+1 202 555 0177"}}
    still_here = an_accepted(days_ago=1, top=yard)
    assert services.open_case(still_here, stage="before_ship", why="cut short", by=maud).pk


def test_what_fitted_by_luck_becomes_a_misfit_when_they_say_no() -> None:
    quote = a_sent(days_ago=40)
    tell_outcome(quote=quote, after_days=7, fitted="yes", gap="15/16")
    assert Case.objects.get().opened_as == "shift"
    tell_outcome(quote=quote, after_days=30, fitted="no", gap="1 1/4", different="it moved aft")
    case = Case.objects.get()
    assert case.opened_as == "no"
    assert case.gap_nm == inches("1 1/4").nm
    assert case.events.count() == 2


# --- Why ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "box"),
    [
        ({"cause": "Q-NONE"}, "cause"),
        ({"contributing": ("X", "D-PIN", "D-SAG")}, "also_1"),
        ({"contributing": ("S-LENGTH",)}, "also_1"),
        ({"evidence": ""}, "evidence"),
        ({"found_by": ""}, "found_by"),
        ({"found": "yesterday"}, "found"),
        ({"born": ""}, "born"),
    ],
)
def test_a_cause_is_coded_whole_or_not_at_all(maud: User, change: dict[str, Any], box: str) -> None:
    told = {name: getattr(CODED, name) for name in CODED.__dataclass_fields__}
    with pytest.raises(CaseError) as refused:
        services.code_cause(case=a_case(maud), coded=Coded(**(told | change)), by=maud)
    assert set(refused.value.errors) == {box}
    assert Case.objects.get().cause == ""


def test_whether_a_check_had_asked_and_was_released_over_is_kept(maud: User) -> None:
    manager = a_member("percival", "manager")
    quote = a_released_over(manager)
    case = services.open_case(quote, why="too long", by=maud)
    services.code_cause(case=case, coded=CODED, by=maud)
    kept = Case.objects.get()
    assert "route-boat-vs-old" in kept.fired
    assert "route-boat-vs-old" in kept.overridden
    assert set(kept.overridden) <= set(kept.fired)


def a_released_over(by: User) -> Quote:
    """An order that was made although the old shaft spoke against it."""
    submission = a_submission(old_length_face_to_thread={"text": "50", "method": "tape"})
    sheet = submission.current
    for finding in sheet.outcome["findings"]:
        if finding["severity"] != "note":
            submission = record_call(
                submission=submission, sheet_number=submission.current.number, by=by,
                check_id=finding["check"], outcome="overridden", said_by="",
                note="the yard is sure of the boat",
            )  # fmt: skip
            submission.refresh_from_db()
    quote = quotes.issue_quote(submission_id=submission.pk, by=by)
    return quotes.accept_quote(quote=quote, name="Tarpley", confirmations=ticked(quote))


# --- What is done, and what it costs --------------------------------------------------


def test_who_pays_is_decided_with_a_reason(maud: User) -> None:
    case = a_case(maud)
    for wrong, box in (
        (Agreement("swap", "us", ""), "why"),
        (Agreement("swap", "", "so"), "payer"),
        (Agreement("", "us", "so"), "kind"),
        (Agreement("shorten", "us", "so"), "by_length"),
        (Agreement("shorten", "us", "so", -inches(1)), "by_length"),
    ):
        with pytest.raises(CaseError) as refused:
            services.agree(case=case, agreement=wrong, by=maud)
        assert set(refused.value.errors) == {box}
    assert Case.objects.get().state == "open"


def test_two_who_move_a_case_at_once_one_comes_first(maud: User) -> None:
    case = a_case(maud)
    mine, theirs = selectors.fresh_case(case.pk), selectors.fresh_case(case.pk)
    services.agree(case=mine, agreement=Agreement("swap", "us", "ours"), by=maud)
    with pytest.raises(CaseError, match="Somebody else changed this case"):
        services.agree(case=theirs, agreement=Agreement("remake", "us", "ours"), by=maud)


def test_it_goes_back_a_step_with_a_reason_and_forward_again(maud: User) -> None:
    case = a_case(maud)
    services.agree(case=case, agreement=Agreement("swap", "us", "ours"), by=maud)
    services.begin(case=case, by=maud)
    with pytest.raises(CaseError):
        services.reopen(case=case, why="", by=maud)
    services.reopen(case=case, why="wrong bearing", by=maud)
    services.reopen(case=case, why="it is the coupling", by=maud)
    assert Case.objects.get().state == "open"


def test_a_cost_is_booked_once_and_taken_back_with_a_minus(maud: User) -> None:
    case = a_case(maud)
    line = Cost("labour", "half a day", Decimal("165.00"))
    assert services.book_cost(case=case, cost=line, once="a", by=maud)
    assert not services.book_cost(case=case, cost=line, once="a", by=maud)
    services.book_cost(case=case, cost=Cost("desk", "calls", None, 20), once="b", by=maud)
    back = Cost("labour", "half a day was another case", Decimal("-165.00"))
    services.book_cost(case=case, cost=back, once="c", by=maud)
    assert selectors.total_of(case) == Decimal("14.33")
    assert CaseCost.objects.get(kind="desk").minutes == 20
    with pytest.raises(CaseError, match="which line"):
        services.book_cost(case=case, cost=Cost("labour", "", Decimal(-1)), once="d", by=maud)


def test_the_usual_costs_are_booked_once_and_marked_invented(maud: User) -> None:
    case = a_case(maud)
    with pytest.raises(CaseError, match="no usual costs"):
        services.book_usual(case=case, by=maud)
    services.agree(case=case, agreement=Agreement("remake", "us", "ours"), by=maud)
    assert services.book_usual(case=case, by=maud) == 5
    assert services.book_usual(case=case, by=maud) == 0
    assert selectors.total_of(case) == 470
    assert not CaseCost.objects.filter(invented=False).exists()


def test_every_decision_is_in_the_trail(maud: User) -> None:
    case = a_case(maud)
    services.code_cause(case=case, coded=CODED, by=maud)
    services.agree(case=case, agreement=Agreement("swap", "us", "our slip"), by=maud)
    services.book_cost(case=case, cost=Cost("material", "bearing", Decimal(38)), once="a", by=maud)
    changed = [set(one.what) for one in changes_of("case", case.number)]
    assert {"cost"} in changed
    assert {"state"} in changed
    assert any("cause" in names for names in changed)
    assert any("payer" in names for names in changed)


# --- Pages ----------------------------------------------------------------------------


@pytest.fixture
def desk(maud: User) -> Client:
    return logged_in(maud)


def test_what_is_typed_wrong_is_said_and_shown_again(desk: Client, maud: User) -> None:
    case = a_case(maud)
    address = reverse("case", args=[case.number])
    answer = desk.post(address, {"do": "agree", "kind": "shorten", "by_length": "wide"})
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert 'href="#agree-by_length"' in said
    assert 'value="wide"' in said
    answer = desk.post(address, {"do": "cost", "cost_kind": "labour", "amount": "much"})
    assert "Write an amount like 41 or 12.50." in html.unescape(answer.content.decode())
    assert desk.post(address, {"do": "dance"}).status_code == 404


def test_what_does_not_fit_is_written_down_by_the_desk(desk: Client, maud: User) -> None:
    case = a_case(maud)
    typed = {"do": "size", "part": "shaft", "gap": "", "excess": "2", "way": "short"}
    page = desk.post(reverse("case", args=[case.number]), typed, follow=True)
    assert Case.objects.get().excess_nm == -inches(2).nm
    assert "make it anew, 51 in long" in html.unescape(page.content.decode())
    typed = {"do": "size", "part": "bearing", "gap": "", "excess": ""}
    page = desk.post(reverse("case", args=[case.number]), typed, follow=True)
    assert "Swap the bearing" in html.unescape(page.content.decode())


def test_the_machinist_reads_a_case_and_changes_nothing(maud: User) -> None:
    case = a_case(maud)
    bronagh = logged_in(a_member("bronagh", "machinist"))
    address = reverse("case", args=[case.number])
    assert "Code the cause" not in bronagh.get(address).content.decode()
    assert bronagh.post(address, {"do": "begin"}).status_code == 403


def test_a_case_is_opened_by_hand_from_the_request(desk: Client) -> None:
    quote = a_sent(days_ago=2)
    address = reverse("open-case", args=[quote.submission.reference])
    assert desk.post(address, {"why": " "}).status_code == 400
    answer = desk.post(address, {"why": "the bearing is loose"}, follow=True)
    assert "the bearing is loose" in answer.content.decode()
    assert Case.objects.get().opened_as == "staff"


def test_the_list_takes_as_many_queries_for_one_as_for_three(
    maud: User, django_assert_num_queries: Any
) -> None:
    for number in range(3):
        contact = {"name": "Odile Marsh", "phone": f"+1 202 555 01{number:02d}"}
        boat = {"name": f"Boat {number}", "station": "single"}
        quote = an_accepted(days_ago=3, top={"contact": contact}, boat_name_and_station=boat)
        services.open_case(quote, why="too long", by=maud)
    with django_assert_num_queries(1):
        page = selectors.some_cases("open", size=2)
        assert [case.quote.submission.boat_name for case in page.cases] == ["Boat 0", "Boat 1"]
    rest = selectors.some_cases("open", after=page.after, size=2)
    assert [case.quote.submission.boat_name for case in rest.cases] == ["Boat 2"]
    assert selectors.some_cases("closed").cases == []
    assert len(selectors.some_cases("cause").cases) == 3
