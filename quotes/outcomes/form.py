"""The form that asks whether it fitted: what stands in its boxes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from quotes.outcomes.models import FITTED, NOT_YET

Words = str | Promise
BOXES = ("fitted", "gap", "sure", "different", "ask_on", "told_by")
_AGAIN = timedelta(days=14)


def typed_in(post: Mapping[str, str]) -> dict[str, str]:
    """The boxes of this form out of everything that was sent."""
    return {box: post.get(box, "") for box in BOXES}


def thanks_for(typed: Mapping[str, str]) -> str:
    """What is said to an answer that was stored."""
    if typed.get("fitted") == NOT_YET[0]:
        return _("Thank you. We ask again that day.")
    if typed.get("fitted") == "no":
        return _("Thank you for telling us. We look into it and ring you.")
    return _("Thank you. It helps the next boat.")


@dataclass(frozen=True, slots=True)
class FitForm:
    """Asked so many days after it left us, with what was typed and what was wrong with it.

    ``has_gap``: whether a shaft went, so that there is a gap to tell of.
    """

    after_days: int
    typed: Mapping[str, str]
    errors: Mapping[str, str]
    today: date = field(default_factory=timezone.localdate)
    has_gap: bool = True

    @property
    def choices(self) -> list[tuple[str, Words, bool]]:
        """Code, words, chosen."""
        return [
            (code, words, code == self.typed.get("fitted")) for code, words in (*FITTED, NOT_YET)
        ]

    @property
    def gap(self) -> str:
        """The gap, as typed."""
        return self.typed.get("gap", "")

    @property
    def different(self) -> str:
        """The words, as typed."""
        return self.typed.get("different", "")

    @property
    def told_by(self) -> str:
        """Who said so, as typed."""
        return self.typed.get("told_by", "")

    @property
    def ask_on(self) -> str:
        """The day to ask again: as typed, else two weeks from now."""
        return self.typed.get("ask_on") or f"{self.today + _AGAIN:%Y-%m-%d}"

    @property
    def earliest(self) -> str:
        """The first day that may be named."""
        return f"{self.today + timedelta(days=1):%Y-%m-%d}"

    @property
    def fitted_error(self) -> str:
        """What is wrong with the choice."""
        return self.errors.get("fitted", "")

    @property
    def gap_error(self) -> str:
        """What is wrong with the number."""
        return self.errors.get("gap", "")

    @property
    def doubt(self) -> str:
        """What is asked about the number before it is taken as it stands."""
        return self.errors.get("sure", "")

    @property
    def different_error(self) -> str:
        """What is missing in words."""
        return self.errors.get("different", "")

    @property
    def ask_on_error(self) -> str:
        """What is wrong with the day."""
        return self.errors.get("ask_on", "")

    @property
    def told_by_error(self) -> str:
        """What is wrong with the name."""
        return self.errors.get("told_by", "")

    @property
    def is_wrong(self) -> bool:
        """Whether anything is."""
        return any(self.errors.get(box) for box in BOXES)
