"""The card of one question: ask it, read the number again blind, write down what came of it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from intake import selectors
from intake.access import counter_required
from intake.calling import services
from intake.calling.blind import Compared
from intake.calling.card import CallCard, card_for
from intake.calling.claims.services import Claimed
from intake.calling.find import find, to_card, user_of
from intake.calling.page import compared_of, known_readings, show_card
from intake.calling.reading import CallErrors
from intake.calling.show import key_of, next_open
from intake.domain.lifecycle import MoveError, Status
from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.services import Overtaken


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def record_call(request: HttpRequest, reference: str) -> HttpResponse:
    """The card; POST writes the call down, and the next question comes at once."""
    found = find(reference)
    if request.method != "POST":
        card = card_for(found, request.GET)
        return show_card(request, found, card) if card.is_named else to_card(found)
    if "take_over" in request.POST:
        return _take_over(request, found)
    card = card_for(found, request.POST)
    if card.overtaken:
        return show_card(request, found, card, status=409)
    if not card.is_valid():
        return show_card(request, found, card, status=400)
    return _write_down(request, found, card)


def _write_down(request: HttpRequest, found: Submission, card: CallCard) -> HttpResponse:
    entry = card.entry()
    try:
        now = services.record_call(submission=found, by=user_of(request), **entry)
    except (SheetErrors, CallErrors) as error:
        return show_card(request, found, card.with_errors(error.errors), status=400)
    except Overtaken:
        again = find(found.reference)
        return show_card(request, again, card_for(again, request.POST), status=409)
    except (MoveError, Claimed) as error:
        return show_card(request, found, card, status=409, refused=str(error))
    return _go_on(request, now, entry["outcome"], (card.check_id, card.answer_slug))


def _go_on(
    request: HttpRequest, now: Submission, outcome: str, done: tuple[str, str]
) -> HttpResponse:
    """The next question while they are on the line; else where the request stands now."""
    following = next_open(selectors.fresh_sheet(now), done)
    if outcome == "not_reached" or now.status != Status.NEEDS_CALL or following is None:
        messages.success(request, _("Written down."))
        to_queue = outcome in ("not_reached", "withdrawn")
        return redirect("call-queue") if to_queue else redirect("submission", now.reference)
    if outcome == "cannot_measure" and key_of(following) == done:
        messages.warning(request, _("Written down. It stays open: release over it, or put it off."))
        return redirect("submission", now.reference)
    messages.success(request, _("Written down. The checks have run again; this is still open."))
    _keep_claim(request, now)
    return to_card(now, *key_of(following))


def _keep_claim(request: HttpRequest, now: Submission) -> None:
    """The call goes on, so it stays theirs; whoever was quicker has it, and the card says so."""
    try:
        services.claim(submission=now, by=user_of(request))
    except Claimed as error:
        messages.warning(request, str(error))


def _take_over(request: HttpRequest, found: Submission) -> HttpResponse:
    """The call is theirs now; what they typed stands as it stood."""
    refused = ""
    try:
        services.take_over(submission=found, by=user_of(request))
    except (Claimed, MoveError) as error:
        refused = str(error)
    card = card_for(found, request.POST, bound=False)
    return show_card(request, found, card, refused=refused, status=409 if refused else 200)


@counter_required
@require_POST
def blind_reading(request: HttpRequest, reference: str) -> HttpResponse:
    """Keep the second number, then show both: a fragment for htmx, else the whole card."""
    found = find(reference)
    card = card_for(found, request.POST, bound=False)
    is_part = request.headers.get("HX-Request") == "true"
    slug = request.GET.get("compare") or request.POST.get("compare", "")
    if card.overtaken or slug not in card.slugs:
        return _moved_on(request, found, card, is_part=is_part)
    try:
        compared = _compare(request, card, slug)
    except Overtaken:
        again = find(reference)
        moved = card_for(again, request.POST, bound=False)
        return _moved_on(request, again, moved, is_part=is_part)
    if is_part:
        return render(request, "intake/calling/_blind.html", {"compared": compared})
    return show_card(
        request, found, card, compared=compared, status=400 if compared.errors else 200
    )


def _compare(request: HttpRequest, card: CallCard, slug: str) -> Compared:
    typed = card.new_answers().get(slug)
    if typed is None:
        needed = _("Type the number they read now; then the first one is shown beside it.")
        return Compared(slug, "", "", (), (needed,))
    try:
        services.read_blind(
            submission=card.submission,
            sheet_number=card.sheet.number,
            by=user_of(request),
            answer=slug,
            now=typed,
            known=known_readings(card, slug),
        )
    except SheetErrors as refused:
        return Compared(
            slug, "", "", (), [each for said in refused.errors.values() for each in said]
        )
    return compared_of(card, slug)


def _moved_on(
    request: HttpRequest, found: Submission, card: CallCard, *, is_part: bool
) -> HttpResponse:
    """The sheet is another one by now: nothing is compared with what nobody asked about."""
    if not is_part:
        return show_card(request, found, card, status=409)
    said = _("Somebody changed this sheet meanwhile. Write it down: both will be shown.")
    compared = Compared("", "", "", (), (said,))
    return render(request, "intake/calling/_blind.html", {"compared": compared}, status=200)
