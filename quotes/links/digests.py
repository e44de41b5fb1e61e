"""Digests of what must not be kept or compared as it is: a link, an address, a phone number."""

from __future__ import annotations

import hashlib

from django.core import signing
from django.utils.crypto import constant_time_compare, salted_hmac

from intake.domain.known_by import email_key, phone_key
from intake.models import Submission

_QUIET = "quotes.links.quiet"


def token_digest(token: str) -> str:
    """What an old link is known by. A link is 256 random bits, so a plain digest is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def contact_digests(typed: str) -> dict[str, str]:
    """An address or a number as it was typed, read both ways, each by its digest."""
    return {"email": _digest(email_key(typed)), "phone": _digest(phone_key(typed))}


def is_theirs(submission: Submission, digests: dict[str, str]) -> bool:
    """Whether one of the digests is of what this customer gave us. An empty one never is."""
    own = {
        "email": email_key(submission.contact_email),
        "phone": phone_key(submission.contact_phone),
    }
    same = [
        constant_time_compare(_digest(key), digests.get(name, "")) and bool(key)
        for name, key in own.items()
    ]
    return any(same)


def _digest(key: str) -> str:
    return salted_hmac("quotes.links.contact", key, algorithm="sha256").hexdigest()


def quiet_token(submission: Submission) -> str:
    """What stands in the address that switches reminders off: signed, so it cannot be guessed."""
    return signing.Signer(salt=_QUIET).sign(str(submission.pk))


def submission_of_quiet(token: str) -> int | None:
    """The submission whose reminders such an address switches off."""
    try:
        return int(signing.Signer(salt=_QUIET).unsign(token))
    except (signing.BadSignature, ValueError):
        return None
