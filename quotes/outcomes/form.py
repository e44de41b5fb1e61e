"""The form that asks whether it fitted: what stands in its boxes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.functional import Promise

from quotes.outcomes.models import FITTED


@dataclass(frozen=True, slots=True)
class FitForm:
    """Asked so many days after it left us, with what was typed and what was wrong with it."""

    after_days: int
    typed: Mapping[str, str]
    errors: Mapping[str, str]

    @property
    def choices(self) -> list[tuple[str, str | Promise, bool]]:
        """Code, words, chosen. "Not yet" is no answer: it is asked again."""
        return [(code, words, code == self.typed.get("fitted")) for code, words in FITTED]

    @property
    def gap(self) -> str:
        """The gap, as typed."""
        return self.typed.get("gap", "")

    @property
    def different(self) -> str:
        """The words, as typed."""
        return self.typed.get("different", "")

    @property
    def fitted_error(self) -> str:
        """What is wrong with the choice."""
        return self.errors.get("fitted", "")

    @property
    def gap_error(self) -> str:
        """What is wrong with the number."""
        return self.errors.get("gap", "")

    @property
    def different_error(self) -> str:
        """What is missing in words."""
        return self.errors.get("different", "")

    @property
    def is_wrong(self) -> bool:
        """Whether anything is."""
        return bool(self.fitted_error or self.gap_error or self.different_error)
