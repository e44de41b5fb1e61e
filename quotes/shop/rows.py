"""One line of the shop's list, from what was stored with the accepted quote."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from quotes.domain.cut_ends import not_known
from quotes.domain.cut_words import stored_chain
from quotes.domain.order import Shaft, alloy_words, read_order
from quotes.domain.words import both
from quotes.models import Quote


@dataclass(frozen=True)
class ShopRow:
    """An accepted shaft as the list shows it."""

    quote: Quote

    @cached_property
    def shaft(self) -> Shaft | None:
        """What is to be made."""
        return read_order(self.quote.sheet.body, self.quote.sheet.outcome).shaft

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
        """Coupling face to end of threads."""
        return both(self.shaft.length, self.shaft.system) if self.shaft else ""

    @cached_property
    def missing(self) -> str:
        """What is not known yet, so that nothing can be cut; "" where all is known."""
        sheet = self.quote.sheet
        made = stored_chain(sheet.body, sheet.outcome)
        return "; ".join(not_known(self.shaft, made)) if self.shaft and made else ""
