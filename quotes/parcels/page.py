"""A parcel of parts as the list and its own page show it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from quotes.domain.packing import PackingFacts
from quotes.domain.shop_stages import BUTTONS, PARCEL, PARCEL_WORDS, Stage
from quotes.models import Quote
from quotes.parcels.services import facts_of
from quotes.sending.models import Shipment
from quotes.sending.page import ParcelForm
from quotes.sending.selectors import shipment_of
from quotes.shop import selectors
from quotes.shop.models import ShopMove
from quotes.shop.shaft_page import Step


@dataclass(frozen=True)
class ParcelRow:
    """An accepted order of parts as the shop's list shows it."""

    quote: Quote

    @property
    def stage(self) -> Stage:
        """Where it stands; one nobody has touched waits."""
        order = getattr(self.quote, "shop_order", None)
        return Stage(order.stage) if order else Stage.WAITING

    @property
    def stage_words(self) -> str:
        """The same in words."""
        return PARCEL_WORDS[self.stage]

    @property
    def button(self) -> str:
        """The words on the button where a press is enough; "" where its page has a form."""
        return BUTTONS[Stage.PACKED] if self.stage == Stage.WAITING else ""

    @property
    def lines(self) -> Sequence[tuple[str, str]]:
        """How many of what goes into it, as it was quoted; work and sums are no things."""
        return [(one.quantity, one.text) for one in facts_of(self.quote).things]


@dataclass(frozen=True)
class ParcelPage:
    """One parcel. ``typed``: what was just typed of its going and is not stored."""

    quote: Quote
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def facts(self) -> PackingFacts:
        return facts_of(self.quote)

    @cached_property
    def stage(self) -> Stage:
        return selectors.stage_of(self.quote)

    @cached_property
    def reasons(self) -> tuple[str, ...]:
        """Why every button is stopped; nothing stops what has left us or was called off."""
        over = self.stage in (Stage.SHIPPED, Stage.CANCELLED)
        return () if over else selectors.order_stands_not(self.quote)

    @property
    def steps(self) -> list[Step]:
        """The line of stages with the one it stands at."""
        if self.stage == Stage.CANCELLED:
            return [Step(PARCEL_WORDS[self.stage], is_now=True, is_done=False)]
        at = PARCEL.index(self.stage)
        return [Step(PARCEL_WORDS[one], n == at, n < at) for n, one in enumerate(PARCEL)]

    @property
    def may_pack(self) -> bool:
        return self.stage == Stage.WAITING and not self.reasons

    @property
    def is_packed(self) -> bool:
        return self.stage == Stage.PACKED and not self.reasons

    @property
    def may_call_off(self) -> bool:
        return self.stage in (Stage.WAITING, Stage.PACKED)

    @property
    def sending(self) -> ParcelForm | None:
        """The form for the day it goes; None before it is packed."""
        return ParcelForm(self.quote, self.typed, self.errors) if self.is_packed else None

    @cached_property
    def shipment(self) -> Shipment | None:
        return shipment_of(self.quote)

    @cached_property
    def moves(self) -> list[ShopMove]:
        return selectors.moves_of(self.quote)
