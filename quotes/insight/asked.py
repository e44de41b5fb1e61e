"""What a manager looks at: which months, under which circumstances. Read from an address."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Asked:
    """Months first to last ("2026-04"), both included; "" filters by nothing.

    ``part`` is one of the letters s, c, b.
    """

    first: str
    last: str
    channel: str = ""
    method: str = ""
    layout: str = ""
    role: str = ""
    part: str = ""
