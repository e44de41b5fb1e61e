"""An alarm as it is shown."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.insight.asked import Asked
from quotes.insight.filters import query
from quotes.insight.pages.base import cause_label
from quotes.models import CauseAlarm


@dataclass(frozen=True, slots=True)
class AlarmRow:
    """One alarm in words; ``behind``: what lists its requests. ``error``: why an answer was no
    answer.
    """

    alarm: CauseAlarm
    cause: str
    behind: str
    error: str = ""

    @classmethod
    def of(cls, alarm: CauseAlarm, refused: tuple[int, str] | None = None) -> AlarmRow:
        """From the row."""
        asked = Asked(f"{alarm.first_on:%Y-%m}", f"{alarm.last_on:%Y-%m}")
        error = refused[1] if refused and refused[0] == alarm.pk else ""
        behind = query(asked, of="mismatch", key=alarm.cause)
        return cls(alarm, cause_label(alarm.cause), behind, error)
