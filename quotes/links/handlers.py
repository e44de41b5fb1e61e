"""Work for later of links and mails: an id goes in, one service is called. It may run twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from intake.jobs import chore, handler
from quotes.links import services


@handler("renew_link")
def renew_link(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """Somebody asked for a new link: is it the customer?"""
    return services.prepare_renewal(
        submission_id=payload["submission_id"], digests=payload["digests"]
    )


@handler("send_mail")
def send_mail(payload: Mapping[str, Any]) -> Callable[[], object] | None:
    """One mail leaves, outside any transaction; that it left is written in the closure."""
    return services.prepare_sending(mail_id=payload["mail_id"], go=payload["go"])


@chore
def remind() -> None:
    """Who has waited long enough is reminded, once."""
    services.remind()
