"""A day of the desk: maud and iolo share the queue, and nothing falls between them.

One calls while the other would; a lease runs out; a number is read once more without the first;
two type on one call; a sheet is corrected while it is open elsewhere; and each released request is
quoted once for each of its sheets.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.models import BlindReading, CallClaim, CallRecord, Event, Submission
from quotes.models import Quote
from tests.intake.calling.given import a_record, a_waiting, card_of, first_open, page_of
from tests.intake.desk_drafts.given import GAP, HUB, CallPage, a_browser, a_typed_call, saved
from tests.intake.desk_given import stock_the_shelf

pytestmark = pytest.mark.django_db

NINE = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
STRUT = "answers.face_to_strut_aft.text"
Jobs = Callable[[], int]


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def now(submission: Submission) -> Submission:
    """The request as it stands at this moment."""
    return selectors.by_reference(submission.reference)


def take_up(client: Client, submission: Submission) -> CallPage:
    """Its sheet on the call page."""
    answer = client.post(reverse("take-up", args=[submission.reference]))
    return CallPage(client, answer["Location"].rstrip("/").split("/")[-1])


def quotes_of(submission: Submission) -> list[tuple[int, str]]:
    """Sheet number and status of each of its quotes, oldest first."""
    found = Quote.objects.filter(submission=submission).order_by("version")
    return [(quote.sheet.number, quote.status) for quote in found.select_related("sheet")]


def quote_state(client: Client, submission: Submission) -> str:
    return page_of(client, reverse("quote-state", args=[submission.reference]))


def test_a_call_passes_from_one_to_the_other_and_is_read_blind(do_jobs: Jobs) -> None:
    """Maud takes it and is called away; iolo settles it; what maud says late changes nothing."""
    with time_machine.travel(NINE, tick=False) as clock:
        waiting = a_waiting("Thimble")
        maud, iolo = a_browser("maud"), a_browser("iolo")
        mine = a_record(waiting, note="she said forty-five")
        maud.post(reverse("call-claim", args=[waiting.reference]))
        assert "maud" in page_of(iolo, reverse("call-queue"))

        refused = iolo.post(card_of(waiting), a_record(waiting, note="rang her too"))
        assert refused.status_code == 409
        for told in ("maud has this call until 09:20", "rang her too"):
            assert told in refused.content.decode()
        assert not CallRecord.objects.exists()

        clock.shift(timedelta(minutes=21))
        maud, iolo = a_browser("maud"), a_browser("iolo")  # both desks had locked themselves
        iolo.post(reverse("call-claim", args=[waiting.reference]))
        assert CallClaim.objects.get().by.username == "iolo"

        card = page_of(iolo, card_of(waiting, first_open(waiting)))
        assert "45 1/8" not in card
        again = {**a_record(waiting), "compare": "face_to_strut_aft"}
        both = iolo.post(reverse("blind-reading", args=[waiting.reference]), again)
        assert "45 1/8" in both.content.decode()
        kept = BlindReading.objects.get()
        assert (kept.first, kept.second, kept.by.username) == ("45 1/8", "44 1/8", "iolo")
        assert iolo.post(card_of(waiting), a_record(waiting)).status_code == 302

        late = maud.post(card_of(waiting), mine)
        assert late.status_code == 409
        assert "she said forty-five" in late.content.decode()

        settled = now(waiting)
        assert (settled.verdict, settled.status) == ("release", "ready")
        assert CallRecord.objects.get().by.username == "iolo"
        assert not CallClaim.objects.exists()
        assert waiting.reference not in page_of(maud, reverse("call-queue"))
        do_jobs()
    assert quotes_of(waiting) == [(2, "issued")]
    assert Quote.objects.get().number in quote_state(a_browser("maud"), waiting)


def test_two_type_on_one_call_and_it_is_stored_once(do_jobs: Jobs) -> None:
    """Maud types, iolo goes on with it; who is later in the same box is shown both texts."""
    maud, iolo = a_browser("maud"), a_browser("iolo")
    first = a_typed_call(maud)
    second = CallPage(iolo, first.ident)
    second.type(gap_now="13/16")
    told = first.keep({HUB: "3", GAP: "7/8"})
    [conflict] = told["conflicts"]
    assert (conflict["name"], conflict["mine"], conflict["theirs"]) == (GAP, "7/8", "13/16")
    assert conflict["by"] == "iolo"
    assert second.type(tail_to_thread="4 7/8")["boxes"] == {HUB: "3"}

    first.boxes |= {GAP: "13/16", HUB: "2 15/16"}
    first.keep({GAP: "13/16", HUB: "2 15/16"})
    request = saved(first.save())
    second.boxes |= {HUB: "2 15/16", "wants": first.boxes["wants"]}
    assert saved(second.save()) == request, "the second to save lands on the same request"
    assert Submission.objects.count() == 1
    answers = selectors.fresh_sheet(request).body["answers"]
    assert answers["gap_now"]["text"] == "13/16"
    assert answers["hub_length"]["text"] == "2 15/16"
    do_jobs()
    do_jobs()
    assert quotes_of(request) == [(1, "issued")]


def test_a_sheet_corrected_elsewhere_is_chosen_answer_by_answer(do_jobs: Jobs) -> None:
    """Maud has the sheet open while iolo's call-back corrects it: she sees both, and chooses."""
    maud, iolo = a_browser("maud"), a_browser("iolo")
    waiting = a_waiting("Thimble")
    open_here = take_up(maud, waiting)
    open_here.keep({STRUT: "44 1/4", GAP: "5/8"})

    assert iolo.post(card_of(waiting), a_record(waiting)).status_code == 302
    do_jobs()
    assert quotes_of(waiting) == [(2, "issued")]

    refused = open_here.save()
    assert refused.status_code == 409
    for told in ("44 1/4", "44 1/8"):
        assert told in refused.content.decode()
    assert selectors.fresh_sheet(waiting).number == 2, "nothing is overwritten unseen"

    chosen = {"onto": "2", "choice.answers.face_to_strut_aft": "theirs"}
    answer = maud.post(reverse("desk-save", args=[open_here.ident]), chosen)
    assert saved(answer) == waiting
    sheet = selectors.fresh_sheet(waiting)
    assert (sheet.number, str(sheet.made_by)) == (3, "maud")
    answers = sheet.body["answers"]
    assert answers["face_to_strut_aft"]["text"] == "44 1/8"
    assert answers["gap_now"]["text"] == "5/8"
    do_jobs()
    assert quotes_of(waiting) == [(2, "replaced"), (3, "issued")]
    ways = Event.objects.filter(submission=waiting).values_list("new_status", flat=True)
    assert list(ways) == ["needs_call", "ready", "quoted", "ready", "quoted"]


def test_a_second_call_about_the_same_boat_goes_on_from_her_sheet(do_jobs: Jobs) -> None:
    """Both take it up: one draft. It is released, quoted, and quoted anew when she is corrected."""
    maud, iolo = a_browser("maud"), a_browser("iolo")
    request = saved(a_typed_call(maud).save())
    do_jobs()
    mine, theirs = take_up(iolo, request), take_up(maud, request)
    assert mine.ident == theirs.ident
    mine.type(gap_now="13/16")
    assert saved(mine.save()) == request
    assert theirs.type(hub_length="3")["closed"] == request.reference
    assert selectors.fresh_sheet(request).number == 2
    do_jobs()
    assert quotes_of(request) == [(1, "replaced"), (2, "issued")]
