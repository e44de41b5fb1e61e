"""The call page: typed, kept as it is typed, saved once."""

from __future__ import annotations

import json
import re
from typing import Any, cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from intake import selectors as requests
from intake.access import counter_required, staff_required
from intake.desk_check import judge
from intake.desk_drafts import page, selectors, services
from intake.desk_drafts.boxes import call_body
from intake.desk_drafts.overtaken import overtaken_context
from intake.desk_drafts.services import Kept
from intake.domain.lifecycle import MoveError
from intake.domain.sheet import SheetErrors
from intake.models import DeskDraft, Submission
from intake.services import Overtaken

_IDENT = re.compile(r"[A-Za-z0-9_-]{16,32}")
_PLACE = re.compile(r"(draft|request) [A-Za-z0-9_-]{1,40}")


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def desk(request: HttpRequest) -> HttpResponse:
    """A call nobody has typed yet; nothing is stored. POST saves one that was never kept."""
    if request.method == "POST":
        sent = request.POST.get("ident") or request.POST.get("idempotency_key", "")
        return _save(request, sent if _IDENT.fullmatch(sent) else services.new_ident())
    return _page(request, ident=services.new_ident(), texts=page.START)


@counter_required
@require_POST
def desk_check(request: HttpRequest) -> HttpResponse:
    """Judge what has been typed so far. Stores nothing; half a number is no hindrance."""
    judged = judge(call_body(request.POST))
    return render(request, "intake/_desk_panel.html", {"judged": judged, "fragment": True})


@counter_required
@require_GET
def draft(request: HttpRequest, ident: str) -> HttpResponse:
    """A call as it was kept; one that was saved says where it went."""
    found = _find(ident)
    here = selectors.others_here(selectors.draft_place(ident), _user(request))
    return _page(
        request,
        ident=ident,
        texts=page.kept_texts(found),
        draft=found,
        saved=found.saved_as,
        here=here,
    )


@counter_required
@require_POST
def keep(request: HttpRequest, ident: str) -> HttpResponse:
    """Keep the boxes that changed, say what others changed, and judge the whole."""
    by = _user(request)
    sent, refused = page.sent_by(request.POST, by, whole=False)
    kept = services.keep(ident=_ident(ident), sent=sent, by=by)
    texts = page.kept_texts(kept.draft)
    context = {
        "judged": judge(page.body_now(kept.draft, texts)),
        "fragment": True,
        "refused": [(page.label_of(name), said) for name, said in refused.items()],
        "kept": kept,
    }
    answer = render(request, "intake/desk_drafts/_kept.html", context)
    answer["HX-Trigger"] = json.dumps({"desk:kept": _told(kept, sent, refused, by)})
    return answer


def _told(kept: Kept, sent: page.Sent, refused: dict[str, str], by: User) -> dict[str, Any]:
    draft = kept.draft
    here = services.look(place=selectors.draft_place(draft.ident), by=by) if draft else []
    return {
        "revision": draft.revision if draft else 0,
        "at": f"{timezone.localtime():%H:%M:%S}",
        "boxes": {} if kept.closed else page.news(draft, sent, kept.conflicts),
        "conflicts": [page.told(conflict) for conflict in kept.conflicts],
        "refused": [{"name": name, "why": said} for name, said in refused.items()],
        "here": here,
        "closed": kept.closed.reference if kept.closed else "",
        "elsewhere": kept.elsewhere.ident if kept.elsewhere else "",
    }


@counter_required
@require_POST
def save(request: HttpRequest, ident: str) -> HttpResponse:
    """Keep what the page says, then store it as a request, or as a new sheet of one."""
    return _save(request, _ident(ident))


def _save(request: HttpRequest, ident: str) -> HttpResponse:
    by = _user(request)
    sent, refused = page.sent_by(request.POST, by, whole=True)
    kept = services.keep(ident=ident, sent=sent, by=by)
    if kept.closed:
        return _saved_before(request, kept, sent)
    if refused or kept.conflicts or kept.draft is None:
        return _not_yet(request, ident, kept, sent, refused)
    try:
        if not _goes_on(request, ident):
            return _overtaken(request, ident)
        saved = services.save(ident=ident, by=by)
    except SheetErrors as error:
        return _again(request, ident, error.errors, status=400)
    except Overtaken:
        return _overtaken(request, ident)
    except MoveError as error:
        return _again(request, ident, {"": [str(error)]}, status=409)
    return redirect("submission", reference=saved.reference)


def _goes_on(request: HttpRequest, ident: str) -> bool:
    """Set the draft onto the newer sheet that its writer was shown, as they chose."""
    onto = request.POST.get("onto", "")
    if not onto.isdigit():
        return True
    chosen = {
        name.removeprefix("choice."): request.POST[name]
        for name in request.POST
        if name.startswith("choice.")
    }
    try:
        return services.go_on_from(
            ident=ident,
            number=int(onto),
            mine=[key for key, whose in chosen.items() if whose == "mine"],
            theirs=[key for key, whose in chosen.items() if whose == "theirs"],
            by=_user(request),
        )
    except services.MustChoose:
        return False


def _saved_before(request: HttpRequest, kept: Kept, sent: page.Sent) -> HttpResponse:
    """It was saved already: that request; what this page says otherwise becomes a correction."""
    saved = cast(Submission, kept.closed)
    if not kept.late:
        return redirect("submission", reference=saved.reference)
    by = _user(request)
    try:
        goes_on = services.take_up(submission=saved, by=by)
    except MoveError as error:
        return _page(
            request,
            ident=services.new_ident(),
            texts={**page.kept_texts(kept.draft), **sent.texts},
            errors={"": [str(error)]},
            saved=saved,
            status=409,
        )
    late = page.only(sent, kept.late, seen=goes_on.revision)
    again = services.keep(ident=goes_on.ident, sent=late, by=by)
    return _page(
        request,
        ident=goes_on.ident,
        texts=page.kept_texts(again.draft),
        draft=again.draft,
        conflicts=again.conflicts,
        saved=saved,
        status=409,
    )


def _not_yet(
    request: HttpRequest, ident: str, kept: Kept, sent: page.Sent, refused: dict[str, str]
) -> HttpResponse:
    """Somebody else typed into the same box, or a box cannot be kept: shown, both texts with it."""
    errors = {page.key_of(name): [said] for name, said in refused.items()}
    if kept.draft is None and not refused:
        errors[""] = [_("Nothing is typed yet.")]
    mine = {conflict.name: conflict.mine for conflict in kept.conflicts}
    too_long = {name: text for name, text in page.texts_in(request.POST).items() if name in refused}
    return _page(
        request,
        ident=ident,
        texts={**page.kept_texts(kept.draft), **mine, **too_long},
        draft=kept.draft,
        errors=errors,
        conflicts=kept.conflicts,
        status=409 if kept.conflicts else 400,
    )


def _again(
    request: HttpRequest, ident: str, errors: dict[str, list[str]], status: int
) -> HttpResponse:
    """The page once more with everything as typed, and what is wrong with it."""
    found = _find(ident)
    return _page(
        request,
        ident=ident,
        texts=page.kept_texts(found),
        draft=found,
        errors=errors,
        status=status,
    )


def _overtaken(request: HttpRequest, ident: str) -> HttpResponse:
    """The request has a newer sheet: every answer that differs, to choose from."""
    found = _find(ident)
    return render(
        request, "intake/desk_drafts/overtaken.html", overtaken_context(found), status=409
    )


@counter_required
@require_POST
def put_away(request: HttpRequest, ident: str) -> HttpResponse:
    """Close a call without saving it; it is kept, and stands in the list."""
    by = _user(request)
    sent, _refused = page.sent_by(request.POST, by, whole=True)
    if sent.texts:
        services.keep(ident=_ident(ident), sent=sent, by=by)
    found = services.put_away(ident=_ident(ident), by=by)
    if found is not None and found.saved_as is not None:
        return redirect("submission", reference=found.saved_as.reference)
    messages.success(request, _("Put away. It stands below and can be taken up again."))
    return redirect("desk")


@counter_required
@require_POST
def reopen(request: HttpRequest, ident: str) -> HttpResponse:
    """Take up a call again that was put away."""
    found = services.reopen(ident=_ident(ident), by=_user(request))
    if found is None:
        raise Http404
    return redirect("desk-draft", ident=found.ident)


@counter_required
@require_POST
def take_up(request: HttpRequest, reference: str) -> HttpResponse:
    """Type on from a request that is stored; two clerks land on the same page."""
    try:
        found = requests.by_reference(reference)
        goes_on = services.take_up(submission=found, by=_user(request))
    except Submission.DoesNotExist as error:
        raise Http404 from error
    except MoveError as error:
        messages.error(request, str(error))
        return redirect("submission", reference=reference.strip().upper())
    return redirect("desk-draft", ident=goes_on.ident)


@staff_required
@require_POST
def here(request: HttpRequest) -> HttpResponse:
    """Say that I look at a page; answers who else does."""
    place = request.POST.get("place", "")
    if not _PLACE.fullmatch(place):
        raise Http404
    names = services.look(place=place, by=_user(request))
    return render(request, "intake/desk_drafts/_names.html", {"here": names})


def _page(request: HttpRequest, *, status: int = 200, **told: Any) -> HttpResponse:
    return render(request, "intake/desk.html", page.context(**told), status=status)


def _ident(ident: str) -> str:
    if not _IDENT.fullmatch(ident):
        raise Http404
    return ident


def _find(ident: str) -> DeskDraft:
    found = selectors.by_ident(_ident(ident))
    if found is None:
        raise Http404
    return found


def _user(request: HttpRequest) -> User:
    return cast(User, request.user)
