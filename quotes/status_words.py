"""Where a submission stands, in a word and a sentence for its customer."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from intake.domain.lifecycle import Status
from quotes.domain.shop_stages import Stage

Words = str | Promise

# Word beside the verdict's shape, and what happens next.
STATE: dict[Status, tuple[Words, Words]] = {
    Status.RECEIVED: (_("Received"), _("We are reading your numbers.")),
    Status.NEEDS_CALL: (
        _("A question"),
        _("Something is open, and we will ring you to settle it."),
    ),
    Status.READY: (_("Adds up"), _("Your numbers agree. The quote is being made.")),
    Status.QUOTED: (_("Quoted"), _("Your numbers agree, and your quote is here.")),
    Status.ACCEPTED: (_("Accepted"), _("Thank you. We make it to the quote you accepted.")),
    Status.DECLINED: (_("Declined"), _("You declined the quote. Nothing will be made.")),
    Status.LAPSED: (_("Run out"), _("The quote has run out. Ring us, and we make a new one.")),
    Status.WITHDRAWN: (_("Withdrawn"), _("This request is closed. Nothing will be made.")),
}
BY_HAND: Words = _("Your numbers agree. A price is still to come; we finish the quote by hand.")
ANSWER_HERE: Words = _("Something is open. You may settle it below, without a call.")
ONCE_MORE: Words = _("Your numbers are here. One reading more may settle it at once.")
# After a yes: how far it is here, and what is said once it has left us or did not fit.
IN_THE_SHOP: dict[Stage, Words] = {
    Stage.SAWN: _("Thank you. It is being made to the quote you accepted."),
    Stage.MADE: _("It is made. We measure it before it leaves us."),
    Stage.INSPECTED: _("It is made and measured. It is packed next."),
    Stage.PACKED: _("It is packed, and leaves us next."),
}
PUT_RIGHT: Words = _("You told us that it does not fit. We are putting it right with you.")
CALL_OF = {Status.NEEDS_CALL: "ask", Status.RECEIVED: "ask", Status.WITHDRAWN: "stop"}
# Why a quote was declined; the code is stored with the customer's own words.
WHYS: tuple[tuple[str, Words], ...] = (
    ("price", _("the price")),
    ("time", _("it takes too long")),
    ("plans", _("my plans changed")),
    ("elsewhere", _("I have it made elsewhere")),
    ("repaired", _("the old shaft can stay")),
    ("numbers", _("the numbers are not right")),
    ("other", _("something else")),
)
