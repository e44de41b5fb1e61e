"""What became of some of the demo shop's quotes: accepted, made, sent, and one that comes back."""

from __future__ import annotations

from datetime import timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.models import Submission
from quotes import services as quotes
from quotes.demo.measured import AS_MADE
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.shop_stages import Stage
from quotes.inspecting import services as inspecting
from quotes.models import Quote
from quotes.outcomes.services import tell_outcome
from quotes.sending import services as sending
from quotes.shop import services as shop

# Boat and shaft, how far it has come, and how many days ago it left us.
LIVES = (
    ("Corncrake", "port", Stage.MADE, 0),
    ("Corncrake", "starboard", Stage.WAITING, 0),
    ("Thimble", "single", Stage.SHIPPED, 9),
    ("Soup Ladle", "single", Stage.SHIPPED, 12),
)
CAME_BACK = "Soup Ladle"


def live_on(*, bronagh: User, percival: User) -> int:
    """Take some quotes on their way; how many. Once: where one is accepted, nothing is done."""
    if Quote.objects.filter(status=QuoteStatus.ACCEPTED).exists():
        return 0
    done = 0
    for boat, station, to, days_ago in LIVES:
        found = Submission.objects.filter(boat_name=boat, station=station).first()
        if found is not None:
            _one_life(found, to, days_ago, bronagh, percival)
            done += 1
    return done


@transaction.atomic
def _one_life(
    submission: Submission, to: Stage, days_ago: int, bronagh: User, percival: User
) -> None:
    quote = _accepted(submission, days_ago)
    line = list(Stage)
    if line.index(to) >= line.index(Stage.MADE):
        for stage in (Stage.SAWN, Stage.MADE):
            shop.move_on(quote=quote, to=stage, by=bronagh)
    if to == Stage.SHIPPED:
        _sent(quote, days_ago, bronagh, percival)
        if submission.boat_name == CAME_BACK:
            words = "the hub stands far out"
            tell_outcome(quote=quote, after_days=7, fitted="no", gap="1 3/8", different=words)


def _accepted(submission: Submission, days_ago: int) -> Quote:
    quote = quotes.issue_quote(submission_id=submission.pk)
    name = submission.contact_name or "the customer"
    ticks = list(quotes.statements(quote.sheet))
    quotes.accept_quote(quote=quote, name=name, confirmations=ticks, told_from="the demo")
    said_yes = timezone.now() - timedelta(days=days_ago + 10 if days_ago else 1)
    Quote.objects.filter(pk=quote.pk).update(accepted_at=said_yes)
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def _sent(quote: Quote, days_ago: int, bronagh: User, percival: User) -> None:
    """Measured as it should be, signed by a second, packed and gone."""
    wanted = inspecting.promised(quote)
    typed = {**AS_MADE, "length": f"{wanted.length.inch_text} in"}
    if wanted.middle:
        typed["small_end"] = f"{wanted.middle.mm_text} mm"
    seen = inspecting.keep_inspection(quote=quote, typed=typed, seen=0, by=bronagh)
    inspecting.sign(quote=quote, number=seen.number, by=percival)
    for stage in (Stage.INSPECTED, Stage.PACKED):
        shop.move_on(quote=quote, to=stage, by=bronagh)
    day = timezone.localdate() - timedelta(days=days_ago)
    sending.send(quote=quote, by=bronagh, day=f"{day:%Y-%m-%d}", carrier="the Tuesday van")
