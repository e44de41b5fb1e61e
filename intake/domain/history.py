"""What is known of a boat besides its sheet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from catalog.domain.lengths import Length
from intake.domain.batch import Alike
from intake.domain.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Misfit:
    """A shaft that came out with its gap outside the band: how far off, and on which side.

    ``off``: gap as fitted minus the gap that was aimed at; None where it was not told.
    """

    station: str
    off: Length | None = None


@dataclass(frozen=True, slots=True)
class History:
    """Facts from earlier requests. With no arguments: nothing is known.

    ``same_open``: references of open requests of the same contact, boat and side (45 days).
    ``settled``: (check id, fingerprint of its answers) pairs that a person asked about and had
    confirmed. ``last_length`` (coupling face to thread end), ``last_diameter``, ``last_alloy``
    and ``fitted_gap``: the last shaft supplied for this side, as it was fitted; ``last_month``
    is the month it was sent ("2026-04"). ``last_by_side``: the last length of each side of this
    boat, as it should have been by the gap it was fitted with. ``misfit``: an earlier shaft for
    this boat or by this contact did not fit. ``family_lengths``: lengths for other boats of the
    same build. ``sister``: the other side's current sheet, and ``sister_station`` its side.
    ``today``: the day the request is judged.
    ``fitted_orders``: how many shafts of this contact are known to have fitted. ``batch``: open
    requests of the same customer for other boats.
    """

    same_open: tuple[str, ...] = ()
    settled: frozenset[tuple[str, str]] = frozenset()
    last_length: Length | None = None
    fitted_gap: Length | None = None
    last_diameter: Length | None = None
    last_alloy: str = ""
    last_month: str = ""
    last_by_side: tuple[tuple[str, Length], ...] = ()
    misfit: Misfit | None = None
    family_lengths: tuple[Length, ...] = ()
    sister: Sheet | None = None
    sister_station: str = ""
    today: date | None = None
    fitted_orders: int = 0
    batch: tuple[Alike, ...] = ()
