"""Pages of the rack: what stands there, what came, one piece and what was corrected of it."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from catalog.pieces import selectors, services
from catalog.pieces.forms import CorrectForm, GoodsInForm
from catalog.pieces.models import Piece
from catalog.pieces.services import TRAIL, Received
from catalog.pieces.tables import write_pieces
from catalog.selectors import PAGE
from staff.access import needs
from staff.errors import Refused
from staff.trail.selectors import changes_of

may_look = needs("catalog.view_piece")
may_receive = needs("catalog.view_piece", "catalog.add_piece")
may_correct = needs("catalog.view_piece", "catalog.change_piece")


@may_look
@require_safe
def pieces(request: HttpRequest) -> HttpResponse:
    """The rack by diameter and alloy."""
    said = request.GET
    part, show, after = said.get("part", ""), said.get("show", ""), said.get("after", "")
    show = show if show in selectors.FILTERS else ""
    part = part.replace("\x00", "")
    key = int(after) if after.isdecimal() and after.isascii() and len(after) < 19 else None
    page = selectors.pieces_page(part=part, show=show, after=key)
    context = {"page": page, "part": part, "show": show, "first": key is None}
    context |= {"filters": selectors.FILTERS.items(), "parts": selectors.receivable()}
    return render(request, "catalog/pieces.html", context)


@may_look
@require_safe
def pieces_csv(request: HttpRequest) -> HttpResponse:
    """Every piece, also those that are gone."""
    rows = write_pieces(selectors.every_piece())
    answer = HttpResponse(rows, content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = 'attachment; filename="pieces.csv"'
    return answer


@may_receive
@require_http_methods(["GET", "HEAD", "POST"])
def goods_in(request: HttpRequest) -> HttpResponse:
    """One line of a delivery paper goes into the rack."""
    form = GoodsInForm(selectors.receivable(), request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        try:
            came = services.receive_goods(part=form.chosen, goods=form.goods, by=_me(request))
        except Refused as refused:
            form.add_error(None, str(refused))
        else:
            messages.success(request, _came(came))
            return redirect(f"{reverse('pieces')}?part={form.chosen.code}")
    return _page(request, "catalog/goods_in.html", form)


def _came(came: Received) -> str:
    labels = ", ".join(f"{one.label} ({one.length.both()})" for one in came.pieces)
    if not came.new:
        return f"This line was received before; nothing was added. It was {labels}."
    listed = (
        f" {came.listed} that were only counted so far are listed now too, heat not known."
        if came.listed
        else ""
    )
    return f"In the rack now: {labels}. Paint the numbers on their ends.{listed}"


@may_look
@require_safe
def piece(request: HttpRequest, piece: int) -> HttpResponse:
    """One piece, what it was cut from and what was left, and its trail."""
    found = _find(piece)
    context = {
        "piece": found,
        "cut_off": selectors.cut_off(found),
        "changes": list(changes_of(TRAIL, found.pk)[:PAGE]),
    }
    return render(request, "catalog/piece.html", context)


@may_correct
@require_http_methods(["GET", "HEAD", "POST"])
def correct(request: HttpRequest, piece: int) -> HttpResponse:
    """What is true of a piece is written down, with a reason."""
    found = _find(piece)
    form = CorrectForm(found, request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            services.correct_piece(
                piece=found,
                seen=said["seen"],
                to=form.facts,
                by=_me(request),
                why=said["why"],
                certificate=said["certificate"],
            )
        except Refused as refused:
            form.add_error(None, str(refused))
        else:
            messages.success(request, f"{found.label} is corrected.")
            return redirect("piece", piece=found.pk)
    return _page(request, "catalog/piece_correct.html", form, piece=found)


@may_look
@require_safe
def certificate(request: HttpRequest, piece: int) -> HttpResponse:
    """The mill's paper as it came, to be kept by who asks, never shown as a page of ours."""
    kept = selectors.certificate_of(_find(piece).pk)
    if kept is None:
        raise Http404
    kind = {"pdf": "application/pdf", "jpeg": "image/jpeg"}[kept.kind]
    answer = HttpResponse(bytes(kept.content), content_type=kind)
    answer["Content-Disposition"] = (
        f'attachment; filename="certificate-{kept.sha256[:8]}.{kept.kind}"'
    )
    answer["X-Content-Type-Options"] = "nosniff"
    return answer


def _page(
    request: HttpRequest, template: str, form: GoodsInForm | CorrectForm, **more: object
) -> HttpResponse:
    status = 422 if form.errors else 200
    return render(request, template, {"form": form, **more}, status=status)


def _find(pk: int) -> Piece:
    found = selectors.piece(pk) if pk < 2**63 else None
    if found is None:
        raise Http404
    return found


def _me(request: HttpRequest) -> User:
    return cast(User, request.user)
