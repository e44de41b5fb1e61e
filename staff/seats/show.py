"""Logins as a page shows them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from staff.models import Seat
from staff.seats.browsers import in_words


def seat_rows(seats: Iterable[Seat], here: int | None) -> list[dict[str, Any]]:
    """Each login with its browser in plain words; ``here`` is the one that is looking."""
    return [
        {"seat": seat, "browser": in_words(seat.browser), "is_here": seat.pk == here}
        for seat in seats
    ]
