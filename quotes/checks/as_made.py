"""The checks of a finished shaft: its length, how true it runs, how the propeller seats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches
from intake.checks.base import COMMON_PRACTICE, Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check
from quotes.domain.as_made import PLACES, Made
from quotes.domain.thousandths import off, small

ARMY_TAPER = "US Army TM 55-1905-221-14-3 has less than 0.003 in at either taper"


@dataclass(frozen=True, slots=True)
class LengthLimits:
    """``length_off``: as made against accepted. ``fit``: beyond that, the chance of a fair gap
    with which it may still go, and the customer is told (both common practice)."""

    length_off: Length = inches("1/32")
    fit: float = 0.97


@dataclass(frozen=True, slots=True)
class RunoutLimits:
    """Total indicator readings: ``per_foot`` of the shaft's length, ``most`` at any journal,
    ``face`` of the coupling faced on the shaft (all common practice)."""

    per_foot: Length = inches("0.002")
    most: Length = inches("0.005")
    face: Length = inches("0.002")

    def at(self, length: Length) -> Length:
        """What a shaft of this length may run out: per foot, and never beyond the most.

        >>> from catalog.domain.lengths import inches
        >>> [RunoutLimits().at(inches(long)).mm_text for long in (24, 49)]
        ['0.101600', '0.127000']
        """
        return min(self.most, Length(self.per_foot.nm * length.nm // inches(12).nm))


@dataclass(frozen=True, slots=True)
class SeatLimits:
    """``contact``: least share by marking compound, in per cent, heavier at the large end.
    ``seat_off``: where the hub seats, against calculated (both common practice)."""

    contact: int = 70
    seat_off: Length = inches("1/16")


@check(
    "as-made-length",
    Severity.STOP,
    LengthLimits(),
    ask="What does it measure face to thread end, and with what?",
    source=COMMON_PRACTICE,
)
def length_as_made(found: Made, limits: LengthLimits) -> Iterator[Mismatch]:
    """The finished shaft is longer or shorter than accepted by more than a thirty-second.

    The saw or the facing slipped. The chance of a fair gap is reckoned anew before anybody
    decides between scrap and shipping.
    """
    by = found.longer
    if abs(by) <= limits.length_off:
        return
    word = "longer" if by.nm > 0 else "shorter"
    words = f"It came out {off(by)} {word} than accepted; {off(limits.length_off)} is allowed."
    yield Mismatch(("length",), words)


@check(
    "runout",
    Severity.STOP,
    RunoutLimits(),
    ask="Where along the bar is the high spot, and how high?",
    source=COMMON_PRACTICE,
)
def how_true_it_runs(found: Made, limits: RunoutLimits) -> Iterator[Mismatch]:
    """The shaft runs out more than it may, or the coupling's face does.

    A bend, or it was chucked out of true. It is straightened, or faced again on the shaft.
    """
    most = limits.at(found.made.length)
    for name, size in (found.made.runout or {}).items():
        if size > most:
            words = f"It runs out {small(size)} at the {PLACES[name]}; {small(most)} is allowed."
            yield Mismatch((f"runout_{name}",), words)
    face = found.made.face
    if face is not None and face > limits.face:
        words = f"The coupling's face runs out {small(face)}; {small(limits.face)} is allowed."
        yield Mismatch(("face",), words)


@check(
    "trial-seat",
    Severity.ASK,
    SeatLimits(),
    ask="How does the old propeller mark up on its old taper?",
    source=COMMON_PRACTICE,
)
def how_it_seats(found: Made, limits: SeatLimits) -> Iterator[Mismatch]:
    """The propeller or gauge touches too little of the taper, or seats away from where it should.

    The bore is off the standard, or our taper is.
    """
    contact = found.made.contact
    if contact is not None and contact < limits.contact:
        words = f"The taper touches over {contact} %; {limits.contact} % is wanted."
        yield Mismatch(("contact",), words)
    moved = found.seat_moves
    if abs(moved) > limits.seat_off:
        way = "aft" if moved.nm > 0 else "forward"
        box = "seat" if found.made.seat is not None else "small_end"
        words = (
            f"The hub seats {off(moved)} further {way} than calculated; {off(limits.seat_off)} "
            "is allowed."
        )
        yield Mismatch((box,), words)
