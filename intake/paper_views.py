"""The papers a customer prints: the measuring sheet and the gauges. Public, and quick."""

from __future__ import annotations

import re
from functools import lru_cache

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils import formats, timezone, translation
from django.utils.cache import patch_vary_headers
from django.utils.translation import gettext as _
from django.views.decorators.http import conditional_page, require_safe

from intake.hand_over.models import HandedDraft
from intake.hand_over.selectors import handed_draft
from intake.measuring_sheet import sheet_facts
from intake.paper.sheet_facts import Code, SheetFacts

_TOKEN = re.compile(r"[A-Za-z0-9_-]{22}")  # what a hand-over's name looks like; nothing else asks
_KEPT = "public, max-age=86400"


@require_safe
@conditional_page
def gauges(request: HttpRequest) -> HttpResponse:
    """Three pages of gauges, the same bytes for everybody of one language."""
    pdf = _gauges(_size(request), translation.get_language() or "en")
    return _paper(pdf, "gauges", _KEPT)


@lru_cache(maxsize=16)
def _gauges(size: str, language: str) -> bytes:
    from intake.paper.gauges import gauges_pdf  # here: a process that makes no paper starts sooner

    return gauges_pdf(shop=_("Otterhithe Shaft Desk"), size=size, say=_, language=language)


@require_safe
@conditional_page
def measuring_sheet(request: HttpRequest) -> HttpResponse:
    """The sheet, empty; or filled with a handed-over draft, for its bearer alone."""
    asked = request.GET.get("draft", "")
    draft = handed_draft(asked) if _TOKEN.fullmatch(asked) else None
    language = translation.get_language() or "en"
    link = request.build_absolute_uri(reverse("guided"))
    if draft is None:
        pdf = _empty(_size(request), language, link)
        return _paper(pdf, "measuring-sheet", "no-store" if asked else _KEPT)
    facts = sheet_facts(draft.draft["values"], _code(draft, link))
    pdf = _sheet(facts, _size(request), language)
    return _paper(pdf, "measuring-sheet", "private, no-store")


@lru_cache(maxsize=64)
def _empty(size: str, language: str, link: str) -> bytes:
    code = Code(link, (_("Point a camera here to fill it in on a phone"),))
    return _sheet(sheet_facts({}, code), size, language)


def _sheet(facts: SheetFacts, size: str, language: str) -> bytes:
    from intake.paper.sheet import sheet_pdf

    return sheet_pdf(facts, size=size, language=language)


def _code(draft: HandedDraft, link: str) -> Code:
    ends = formats.date_format(timezone.localtime(draft.expires_at), "DATETIME_FORMAT")
    words = (
        _("Point a camera here to go on with this draft"),
        _("Until {day}. Who has this code can read the draft.").format(day=ends),
    )
    return Code(f"{link}#h={draft.token}", words)


def _size(request: HttpRequest) -> str:
    """Letter when asked for, else A4."""
    return "letter" if request.GET.get("size") == "letter" else "a4"


def _paper(pdf: bytes, name: str, kept: str) -> HttpResponse:
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    answer["Cache-Control"] = kept
    answer["Content-Language"] = translation.get_language() or "en"
    patch_vary_headers(answer, ["Accept-Language", "Cookie"])
    return answer
