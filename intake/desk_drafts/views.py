"""The call page: typed, kept as it is typed, put away, taken up again."""

from __future__ import annotations

import json
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake.access import counter_required
from intake.customers.selectors import boxes_for
from intake.desk_check import judge
from intake.desk_drafts import page, selectors, services
from intake.desk_drafts.answers import an_ident, call_page, the_draft, user_of
from intake.desk_drafts.drawn import label_of
from intake.desk_drafts.merging import Sent
from intake.desk_drafts.services import Kept


@counter_required
@require_safe
def desk(request: HttpRequest) -> HttpResponse:
    """A call nobody has typed yet; nothing is stored.

    ``?boat=`` or ``?customer=``: what is known of them stands in the boxes already.
    """
    asked = request.GET
    known = boxes_for(customer=asked.get("customer", ""), boat=asked.get("boat", ""))
    return call_page(request, ident=services.new_ident(), texts={**page.START, **known})


@counter_required
@require_safe
def draft(request: HttpRequest, ident: str) -> HttpResponse:
    """A call as it was kept; one that was saved says where it went."""
    found = the_draft(ident)
    here = selectors.others_here(selectors.draft_place(ident), user_of(request))
    texts = page.kept_texts(found)
    return call_page(
        request, ident=ident, texts=texts, draft=found, saved=found.saved_as, here=here
    )


@counter_required
@require_POST
def keep(request: HttpRequest, ident: str) -> HttpResponse:
    """Keep the boxes that changed, say what others changed, and judge the whole."""
    by = user_of(request)
    sent, refused = page.sent_by(request.POST, by, whole=False)
    try:
        kept = services.keep(ident=an_ident(ident), sent=sent, by=by)
    except services.Busy as error:
        return HttpResponse(str(error), status=503)  # the page has it still, and tries again
    here = services.look(place=selectors.draft_place(ident), by=by) if kept.draft else []
    body, newer = page.body_now(kept.draft, page.kept_texts(kept.draft))
    context = {
        "judged": judge(body),
        "newer": newer,
        "fragment": True,
        "refused": [(label_of(name), said) for name, said in refused.items()],
        "kept": kept,
    }
    answer = render(request, "intake/desk_drafts/_kept.html", context)
    told = _told(kept, sent) | {"refused": sorted(refused), "here": here, "newer": newer}
    answer["HX-Trigger"] = json.dumps({"desk:kept": told})
    return answer


def _told(kept: Kept, sent: Sent) -> dict[str, Any]:
    """What the page's script acts on."""
    boxes: dict[str, str] = {}
    revision = sent.seen
    if kept.draft and not kept.closed:
        boxes, revision = page.news(kept.draft, sent, kept.conflicts)
    return {
        "revision": revision,
        "at": f"{timezone.localtime():%H:%M:%S}",
        "boxes": boxes,
        "conflicts": [page.told(conflict) for conflict in kept.conflicts],
        "closed": kept.closed.reference if kept.closed else "",
        "elsewhere": kept.elsewhere.ident if kept.elsewhere else "",
    }


@counter_required
@require_POST
def put_away(request: HttpRequest, ident: str) -> HttpResponse:
    """Close a call without saving it; it is kept, and stands in the list."""
    by = user_of(request)
    sent, _refused = page.sent_by(request.POST, by, whole=True)
    if sent.texts:
        services.keep(ident=an_ident(ident), sent=sent, by=by)
    found = services.put_away(ident=an_ident(ident), by=by)
    if found is not None and found.saved_as is not None:
        return redirect("submission", reference=found.saved_as.reference)
    messages.success(request, _("Put away, not saved. It can be taken up again below."))
    return redirect("desk")


@counter_required
@require_POST
def reopen(request: HttpRequest, ident: str) -> HttpResponse:
    """Take up a call again that was put away."""
    found = services.reopen(ident=an_ident(ident), by=user_of(request))
    if found is None:
        raise Http404
    return redirect("desk-draft", ident=found.ident)
