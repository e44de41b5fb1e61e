"""The form for the day a shaft goes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from django.utils import timezone

from quotes.domain.packing import PackingFacts
from quotes.models import Quote
from quotes.sending.services import facts_of, reckoned

LABELS = {
    "day": "Day it went",
    "carrier": "Who carries it",
    "tracking": "Tracking number",
    "weight": "Weight as weighed, lb",
}


@dataclass(frozen=True)
class ParcelForm:
    """What stands in the boxes, with what was typed and what was wrong."""

    quote: Quote
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def day(self) -> str:
        return self.typed.get("day") or timezone.localdate().isoformat()

    @property
    def carrier(self) -> str:
        return self.typed.get("carrier", "")

    @property
    def tracking(self) -> str:
        return self.typed.get("tracking", "")

    @property
    def weight(self) -> str:
        return self.typed.get("weight", "")

    @property
    def day_error(self) -> str:
        return self.errors.get("day", "")

    @property
    def carrier_error(self) -> str:
        return self.errors.get("carrier", "")

    @property
    def weight_error(self) -> str:
        return self.errors.get("weight", "")

    @property
    def listed_errors(self) -> list[dict[str, str]]:
        """What must be put right, for the list at the top."""
        return [
            {"id": f"send-{name}", "label": LABELS[name], "message": words}
            for name, words in self.errors.items()
        ]


@dataclass(frozen=True)
class SendForm(ParcelForm):
    """The same for a shaft in its tube, whose weight can be worked out."""

    @cached_property
    def facts(self) -> PackingFacts:
        return facts_of(self.quote)

    @property
    def worked_out(self) -> str:
        """The weight that is taken where nothing is typed."""
        return str(reckoned(self.quote)[1])
