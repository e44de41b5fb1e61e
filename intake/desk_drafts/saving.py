"""Saving a call: keep it, store it once, and say what stands against it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from intake.access import counter_required
from intake.desk_drafts import page, services
from intake.desk_drafts.answers import an_ident, call_page, the_draft, user_of
from intake.desk_drafts.boxes import texts_in
from intake.desk_drafts.going_on import services as going_on
from intake.desk_drafts.going_on.overtaken import overtaken_context
from intake.desk_drafts.merging import Sent
from intake.desk_drafts.services import Busy, Kept
from intake.domain.lifecycle import MoveError
from intake.domain.sheet import SheetErrors
from intake.models import Submission
from intake.services import Overtaken


@counter_required
@require_POST
def save(request: HttpRequest, ident: str) -> HttpResponse:
    """Keep what the page says, then store it as a request, or as a new sheet of one."""
    sent, refused = page.sent_by(request.POST, user_of(request), whole=True)
    kept = services.keep(ident=an_ident(ident), sent=sent, by=user_of(request))
    if kept.elsewhere:
        return redirect("desk-draft", ident=kept.elsewhere.ident)
    if kept.closed:
        return _saved_before(request, kept, kept.closed, sent)
    if refused or kept.conflicts or kept.draft is None:
        return _not_yet(request, ident, kept, refused)
    return _stored(request, ident)


def _stored(request: HttpRequest, ident: str) -> HttpResponse:
    """Store what is kept; where that cannot be, the page says why, and all stands as typed."""
    try:
        if not _set_onto(request, ident):
            return _overtaken(request, ident)
        saved = services.save(ident=ident, by=user_of(request))
    except going_on.MustChoose:
        return _overtaken(request, ident, unchosen=True)
    except SheetErrors as error:
        return _again(request, ident, error.errors, status=400)
    except Overtaken:
        return _overtaken(request, ident)
    except MoveError as error:
        return _again(request, ident, {"": [str(error)]}, status=409)
    except Busy as error:
        return _again(request, ident, {"": [str(error)]}, status=503)
    return redirect("submission", reference=saved.reference)


def _set_onto(request: HttpRequest, ident: str) -> bool:
    """Set the draft onto the newer sheet that its writer was shown, as they chose."""
    onto = page.number_in(request.POST.get("onto", ""))
    if not onto:
        return True
    chosen: dict[str, set[str]] = {"mine": set(), "theirs": set()}
    for name, whose in request.POST.items():
        if name.startswith("choice.") and whose in chosen:
            chosen[whose].add(name.removeprefix("choice."))
    return going_on.go_on_from(ident=ident, number=onto, by=user_of(request), **chosen)


def _saved_before(request: HttpRequest, kept: Kept, saved: Submission, sent: Sent) -> HttpResponse:
    """It was saved already: that request. What this page says otherwise becomes its correction."""
    if not kept.late:
        return redirect("submission", reference=saved.reference)
    by = user_of(request)
    try:
        goes_on = going_on.take_up(submission=saved, by=by)
    except MoveError as error:
        texts = {**page.kept_texts(kept.draft), **sent.texts}
        told = {"ident": services.new_ident(), "texts": texts, "errors": {"": [str(error)]}}
        return call_page(request, saved=saved, status=409, **told)
    late = page.only(sent, kept.late)
    again = services.keep(ident=goes_on.ident, sent=late, by=by)
    return call_page(
        request,
        ident=goes_on.ident,
        texts={**page.kept_texts(again.draft), **_mine(again)},
        draft=again.draft,
        conflicts=again.conflicts,
        saved=saved,
        late=True,
        status=409,
    )


def _mine(kept: Kept) -> dict[str, str]:
    """My texts stand in the boxes that somebody else changed too; theirs beside them."""
    return {conflict.name: conflict.mine for conflict in kept.conflicts}


def _not_yet(request: HttpRequest, ident: str, kept: Kept, refused: dict[str, str]) -> HttpResponse:
    """Somebody else typed into the same box, or a box cannot be kept: shown, with both texts."""
    errors = {page.key_of(name): [said] for name, said in refused.items()}
    if kept.draft is None and not refused:
        errors[""] = [_("Nothing is typed yet.")]
    unkept = {name: text for name, text in texts_in(request.POST).items() if name in refused}
    return call_page(
        request,
        ident=ident,
        texts={**page.kept_texts(kept.draft), **_mine(kept), **unkept},
        draft=kept.draft,
        errors=errors,
        conflicts=kept.conflicts,
        status=409 if kept.conflicts else 400,
    )


def _again(
    request: HttpRequest, ident: str, errors: dict[str, list[str]], status: int
) -> HttpResponse:
    """The page once more with everything as typed, and what is wrong with it."""
    found = the_draft(ident)
    texts = page.kept_texts(found)
    return call_page(request, ident=ident, texts=texts, draft=found, errors=errors, status=status)


def _overtaken(request: HttpRequest, ident: str, *, unchosen: bool = False) -> HttpResponse:
    """The request has a newer sheet: every answer that differs, to choose from.

    A newer sheet that says the same in every answer needs nobody to choose.
    """
    told = overtaken_context(the_draft(ident))
    if not told["asked"] and "onto" not in request.POST:
        going_on.go_on_from(
            ident=ident, number=told["current"].number, mine=(), theirs=(), by=user_of(request)
        )
        return _stored(request, ident)
    told["unchosen"] = unchosen
    return render(request, "intake/desk_drafts/overtaken.html", told, status=409)
