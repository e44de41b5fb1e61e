"""The page of the card: everything beside the question, and what somebody else wrote meanwhile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from intake.calling import selectors
from intake.calling.answers import slugs_for
from intake.calling.blind import Compared, has_first, unit_of
from intake.calling.card import CallCard, finding_of
from intake.calling.find import user_of
from intake.calling.models import CallClaim
from intake.calling.show import label_of
from intake.desk_drafts.presence.selectors import others_here, request_place
from intake.desk_fields import Field
from intake.desk_show import told
from intake.desk_words import Words
from intake.domain.lifecycle import OPEN
from intake.models import Submission
from intake.photos.selectors import photos_of


@dataclass(frozen=True, slots=True)
class Row:
    """One question of the card: its boxes, and what a blind reading of it came to."""

    field: Field
    slug: str
    can_compare: bool
    compared: Compared | None


@dataclass(frozen=True, slots=True)
class Clash:
    """One answer somebody may have changed: what was typed here, what stands there now."""

    label: Words
    mine: str
    now: str
    changed: bool


@dataclass(frozen=True, slots=True)
class Overtaken:
    """Who wrote the version that counts now, when, and what of it meets what was typed here."""

    by: str
    at: datetime
    clashes: Sequence[Clash]


def show_card(
    request: HttpRequest,
    found: Submission,
    card: CallCard,
    *,
    status: int = 200,
    refused: str = "",
    compared: Compared | None = None,
) -> HttpResponse:
    """The whole page. ``refused``: why nothing was written down, where no entry is at fault."""
    user, place = user_of(request), request_place(found.reference)
    claim = selectors.claim_of(found)
    context = {
        "submission": found,
        "card": card,
        "rows": card_rows(card, compared),
        "photos": photos_of(found, hidden=card.hidden),
        "claim": claim,
        "is_mine": _is_mine(claim, user),
        "may_override": user.has_perm("intake.override_stop"),
        "refused": refused,
        "unfinished": found.status in OPEN,
        "overtaken": _overtaken(card) if card.overtaken else None,
        "place": place,
        "here": others_here(place, user),
    }
    return render(request, "intake/calling/card.html", context, status=status)


def _is_mine(claim: CallClaim | None, user: User) -> bool:
    return claim is not None and claim.by_id == user.pk


def card_rows(card: CallCard, compared: Compared | None = None) -> list[Row]:
    """Each question; its numbers are shown only where this page has typed the second already."""
    return [_row(card, field, compared) for field in card.fields]


def _row(card: CallCard, field: Field, compared: Compared | None) -> Row:
    slug = field.key.removeprefix("answers.")
    known = known_readings(card, slug)
    if compared and compared.slug == slug:
        shown: Compared | None = compared
    else:
        shown = compared_of(card, slug) if known else None
    can_compare = has_first(card.sheet, slug) and field.key.startswith("answers.")
    return Row(field, slug, can_compare, shown)


def known_readings(card: CallCard, slug: str) -> int:
    """How many blind readings of an answer the page has shown already."""
    told_known = card.data.get(f"known.{slug}", "")
    is_number = told_known.isascii() and told_known.isdigit() and len(told_known) < 6
    return int(told_known) if is_number else 0


def compared_of(card: CallCard, slug: str, errors: Sequence[str] = ()) -> Compared:
    """The readings kept of one answer of the version that counts."""
    rows = selectors.blind_readings(card.sheet, slug)
    return Compared(slug, label_of(slug), unit_of(card.sheet, slug), rows, errors)


def _overtaken(card: CallCard) -> Overtaken:
    now = selectors.newest_version(card.submission)
    return Overtaken(str(now.made_by or now.said_by), now.made_at, _clashes(card))


def _clashes(card: CallCard) -> list[Clash]:
    """What was asked about then, as typed here and as it stands; unchanged numbers stay unseen."""
    seen = card.seen_number and selectors.version(card.submission, card.seen_number)
    if not seen:
        return []
    asked = finding_of(seen, card.check_id, card.data.get("answer", ""))
    then, now = seen.body.get("answers", {}), card.before
    typed = replace(card, finding=asked).new_answers()
    return [
        Clash(
            label_of(slug),
            told(typed.get(slug), slug),
            told(now.get(slug), slug) if then.get(slug) != now.get(slug) else "",
            then.get(slug) != now.get(slug),
        )
        for slug in slugs_for(asked)
        if slug in typed or then.get(slug) != now.get(slug)
    ]
