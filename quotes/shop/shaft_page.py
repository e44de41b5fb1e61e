"""The machinist's page of one shaft: where it stands, what to measure, what it will do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from django.contrib.auth.models import User

from intake.models import Submission
from quotes.domain.as_made import Accepted
from quotes.domain.as_made_limits import Limit, limits_of
from quotes.domain.cut_ends import not_known
from quotes.domain.cut_words import stored_chain
from quotes.domain.order import Order, alloy_words
from quotes.domain.packing import left_long_words
from quotes.domain.shop_stages import BUTTONS, WORDS, Stage, after, step_back
from quotes.domain.words import both
from quotes.inspecting.models import Inspection
from quotes.inspecting.page import InspectForm
from quotes.inspecting.selectors import inspections_of, why_not_leave
from quotes.inspecting.services import Looked, promised
from quotes.making import order_of
from quotes.models import Quote
from quotes.passport.models import Passport
from quotes.passport.selectors import passport_of
from quotes.sending.models import Shipment
from quotes.sending.page import SendForm
from quotes.sending.selectors import shipment_of
from quotes.shop import selectors
from quotes.shop.models import DeskWord, ShopMove
from quotes.shop.services import piece_words
from quotes.shop.waiting import (
    coupling_awaited,
    deposit_not_in,
    parts_awaited,
    saw_stopped,
)

# Stages in which a press is enough; the others have a form of their own.
_PRESSED = frozenset({Stage.SAWN, Stage.MADE, Stage.INSPECTED, Stage.PACKED})


@dataclass(frozen=True, slots=True)
class Step:
    """One stage in the line of stages."""

    words: str
    is_now: bool
    is_done: bool


@dataclass(frozen=True)
class ShaftPage:
    """One shaft as one person sees it. ``typed``: what was just typed and not stored."""

    quote: Quote
    person: User
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)
    looked: Looked | None = None
    send_typed: Mapping[str, str] = field(default_factory=dict)
    send_errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def submission(self) -> Submission:
        return self.quote.submission

    @cached_property
    def reasons(self) -> tuple[str, ...]:
        """Why every button is stopped; empty where none is."""
        return selectors.standing_now(self.quote)

    @cached_property
    def stage(self) -> Stage:
        return selectors.stage_of(self.quote)

    @property
    def steps(self) -> list[Step]:
        """The line of stages with the one it stands at."""
        line = [stage for stage in Stage if stage != Stage.CANCELLED]
        if self.stage == Stage.CANCELLED:
            return [Step(WORDS[Stage.CANCELLED], is_now=True, is_done=False)]
        at = line.index(self.stage)
        return [Step(WORDS[one], n == at, n < at) for n, one in enumerate(line)]

    # --- What it is -----------------------------------------------------------------------

    @cached_property
    def order(self) -> Order:
        return order_of(self.quote)

    @cached_property
    def wanted(self) -> Accepted:
        return promised(self.quote)

    @property
    def bar(self) -> str:
        shaft = self.order.shaft
        return f"{both(shaft.diameter, shaft.system)}, {alloy_words(shaft.alloy)}" if shaft else ""

    @property
    def piece(self) -> str:
        """What it is sawn from as the rack holds it now; a plan may change after the drawing."""
        return piece_words(self.quote)

    @property
    def length(self) -> str:
        return both(self.wanted.length, self.wanted.system)

    @property
    def left_long(self) -> str:
        """What is left on and to what the yard faces it; "" where nothing is."""
        shaft = self.order.shaft
        return left_long_words(shaft).removeprefix(", ") if shaft else ""

    @property
    def overall(self) -> str:
        return both(self.wanted.overall, self.wanted.system)

    @property
    def limits(self) -> tuple[Limit, ...]:
        """What it is held to, each with its source."""
        return limits_of(self.wanted)

    # --- What may be done -----------------------------------------------------------------

    @property
    def next_press(self) -> tuple[str, str] | None:
        """The next step that one press takes: its stage, and the button's words."""
        to = after(self.stage)
        if self.reasons or to not in _PRESSED or self.missing:
            return None
        return to.value, BUTTONS[to]

    @cached_property
    def not_known(self) -> tuple[str, ...]:
        """What no table gives of this shaft's ends."""
        made = stored_chain(self.quote.sheet.body, self.quote.sheet.outcome)
        shaft = self.order.shaft
        return not_known(shaft, made) if shaft and made else ()

    @cached_property
    def desk_word(self) -> DeskWord | None:
        """What the desk says of it."""
        return selectors.desk_word(self.quote) if self.not_known else None

    @property
    def asks_for_word(self) -> bool:
        """The desk must say something before the bar is sawn."""
        waits = self.stage == Stage.WAITING and not self.reasons
        return waits and bool(self.not_known) and self.desk_word is None

    @cached_property
    def missing(self) -> tuple[str, ...]:
        """What must be done before the next step."""
        to = after(self.stage)
        if to == Stage.INSPECTED:
            return (*why_not_leave(self.newest), *self.coupling)
        if to in (Stage.PACKED, Stage.SHIPPED):
            return why_not_leave(self.newest)
        if to == Stage.SAWN and not self.reasons:
            unknown = f"Not known: {'; '.join(self.not_known)}. Ring the desk."
            return (*((unknown,) * self.asks_for_word), *saw_stopped(self.quote))
        return ()

    @cached_property
    def coupling(self) -> tuple[str, ...]:
        """That the customer's own coupling is not here yet, while there is something to fit."""
        return coupling_awaited(self.quote) if self.is_here else ()

    @property
    def is_here(self) -> bool:
        """It stands, and has neither left us nor been called off."""
        return not self.reasons and self.stage not in (Stage.SHIPPED, Stage.CANCELLED)

    @cached_property
    def deposit(self) -> str:
        """What of the deposit is still to come."""
        return deposit_not_in(self.quote) if self.is_here else ""

    @property
    def parts_awaited(self) -> tuple[str, ...]:
        """What is on no shelf for it."""
        return parts_awaited(self.quote) if self.is_here else ()

    @property
    def may_inspect(self) -> bool:
        return not self.reasons and self.stage in (Stage.MADE, Stage.INSPECTED)

    @property
    def back(self) -> tuple[str, str] | None:
        """Where a wrong press is taken back to."""
        to = step_back(self.stage)
        return (self.stage.value, WORDS[to]) if to and not self.reasons else None

    @property
    def may_call_off(self) -> bool:
        return self.stage not in (Stage.SHIPPED, Stage.CANCELLED)

    # --- What was measured ----------------------------------------------------------------

    @cached_property
    def inspections(self) -> list[Inspection]:
        return inspections_of(self.quote)

    @property
    def newest(self) -> Inspection | None:
        return self.inspections[0] if self.inspections else None

    @property
    def seen(self) -> int:
        return self.newest.number if self.newest else 0

    @property
    def form(self) -> InspectForm:
        return InspectForm(self.wanted, self.typed, self.errors, self.looked)

    @property
    def may_sign(self) -> bool:
        """A second person may sign the newest inspection."""
        last = self.newest
        unsigned = last is not None and getattr(last, "signature", None) is None
        return unsigned and not self.reasons and last is not None and last.by_id != self.person.pk

    @property
    def may_release(self) -> bool:
        """The desk may let the newest inspection go."""
        last = self.newest
        waits = last is not None and last.verdict == "ring"
        return waits and getattr(last, "release", None) is None and not self.reasons

    # --- What leaves ----------------------------------------------------------------------

    @cached_property
    def shipment(self) -> Shipment | None:
        return shipment_of(self.quote)

    @property
    def sending(self) -> SendForm | None:
        """The form for the day it goes; None before it is packed."""
        if self.reasons or self.missing or self.stage != Stage.PACKED:
            return None
        return SendForm(self.quote, self.send_typed, self.send_errors)

    @cached_property
    def passport(self) -> Passport | None:
        return passport_of(self.quote)

    @cached_property
    def moves(self) -> list[ShopMove]:
        return selectors.moves_of(self.quote)
