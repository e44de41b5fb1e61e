"""One line of the shop's list, from what was stored with the accepted quote."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from quotes.domain.cut_ends import not_known
from quotes.domain.cut_words import stored_chain
from quotes.domain.order import Shaft, alloy_words
from quotes.domain.packing import left_long_words
from quotes.domain.shop_stages import BUTTONS, WORDS, Stage, after
from quotes.domain.words import both
from quotes.making import order_of
from quotes.models import Quote
from quotes.shop.waiting import NOTHING, Waits


@dataclass(frozen=True)
class ShopRow:
    """An accepted shaft as the list shows it."""

    quote: Quote
    waits: Waits = NOTHING

    @cached_property
    def shaft(self) -> Shaft | None:
        """What is to be made."""
        return order_of(self.quote).shaft

    @property
    def diameter(self) -> str:
        """The bar's nominal diameter."""
        return both(self.shaft.diameter, self.shaft.system) if self.shaft else ""

    @property
    def alloy(self) -> str:
        """The bar's alloy."""
        return alloy_words(self.shaft.alloy) if self.shaft else ""

    @property
    def length(self) -> str:
        """Coupling end to end of threads, as it leaves us."""
        if self.shaft is None:
            return ""
        return f"{both(self.shaft.sent, self.shaft.system)}{left_long_words(self.shaft)}"

    @cached_property
    def missing(self) -> str:
        """What is not known yet, so that nothing can be cut; "" where all is known."""
        sheet = self.quote.sheet
        made = stored_chain(sheet.body, sheet.outcome)
        return "; ".join(not_known(self.shaft, made)) if self.shaft and made else ""

    @property
    def stage(self) -> Stage:
        """Where it stands; one nobody has touched waits."""
        order = getattr(self.quote, "shop_order", None)
        return Stage(order.stage) if order else Stage.WAITING

    @property
    def stage_words(self) -> str:
        """The same in words."""
        return WORDS[self.stage]

    @property
    def button(self) -> tuple[str, str] | None:
        """The next step that needs nothing but a press: its stage and the words on the button."""
        to = after(self.stage)
        if to not in (Stage.SAWN, Stage.MADE, Stage.PACKED):
            return None
        drawn = getattr(self.quote, "drawn", False)
        if to == Stage.SAWN and (self.waits.saw_waits or (self.missing and not drawn)):
            return None  # its own page says what is to be had first
        return to.value, BUTTONS[to]

    @property
    def to_do(self) -> str:
        """What comes next where a press is not enough."""
        return {Stage.MADE: "Inspect", Stage.PACKED: "Send"}.get(self.stage, "Open")
