"""What a text is read as, and what its units and decimal places stand for."""

from __future__ import annotations

from typing import Literal, NamedTuple

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.refusals import LONGEST

Unit = Literal["in", "mm"]
Plausible = tuple[Length, Length]


class ReadLength(NamedTuple):
    """A text as read. ``unit`` is in, ft, mm, cm or m: as written, or else as assumed (in, mm);
    feet and inches together count as in. ``doubts`` are sentences to show beside the number.

    ``mark`` is the smallest mark that the way of writing implies: 1/8 in for ``58 5/8``, 1 in for
    ``58``, 0.1 mm for ``58.6 mm``; None where it would be finer than a nanometre. ``extra_u_nm``
    is a standard uncertainty in nanometres to add to that of the method: about, shy, two readings.
    """

    length: Length
    unit: str
    unit_written: bool
    doubts: tuple[str, ...] = ()
    mark: Length | None = None
    extra_u_nm: float = 0.0

    @property
    def system(self) -> str:
        """The system it was written in: in or mm."""
        return "in" if self.unit in ("in", "ft") else "mm"

    @property
    def spoken(self) -> str:
        """Read back as said on the phone, in the system it was written in."""
        return self.length.spoken(self.system)


NM = {"in": NM_PER_INCH, "ft": 12 * NM_PER_INCH, "mm": NM_PER_MM}
NM |= {"cm": 10 * NM_PER_MM, "m": 1000 * NM_PER_MM}
TEN = tuple(10**places for places in range(LONGEST + 1))


def _steps(nm: int) -> tuple[Length | None, ...]:
    """What the last decimal place stands for, by number of places."""
    return tuple(None if nm % ten else Length(nm // ten) for ten in TEN)


STEPS = {unit: _steps(nm) for unit, nm in NM.items()}
