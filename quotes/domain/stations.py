"""The stations of one shaft from the coupling face, x = 0, in exact lengths: what is cut where.

Two witnesses, never one: where a station stands is worked out from the finished length and the
published table; how long each piece between two stations is comes from the facts the accepted
sheet was stored with. ``cutsheet-chain`` (quotes/checks) sets one against the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from catalog.domain.ends import HUB_OVERHANG
from catalog.domain.lengths import Length, mm
from catalog.domain.standards import Confidence
from quotes.domain.end_rows import VERIFY, EndRows, end_rows

NOT_KNOWN = "not known: ring the desk"
ZERO = Length(0)
# Station keys, from forward to aft.
LEFT = "left"  # the end as it is cut, where the shaft is left long
FRONT, FACE, HUB_END, BEARING_FWD, BEARING_AFT, LARGE, SMALL, NUT, THREAD, TIP = (
    *("front", "face", "hub_end", "bearing_fwd", "bearing_aft"),
    *("large", "small", "nut", "thread", "tip"),
)
NAMES = {
    LEFT: "End as cut, left long",
    FRONT: "Front tip",
    FACE: "Coupling face: the datum",
    HUB_END: "End of the coupling's hub",
    BEARING_FWD: "Bearing, forward end",
    BEARING_AFT: "Bearing, aft end (strut)",
    LARGE: "Large end of the taper",
    SMALL: "Small end of the taper",
    NUT: "Nut face: back of the propeller's hub",
    THREAD: "End of the threads",
    TIP: "Tip of the cotter-pin nose",
}
_PIECES = {
    (LEFT, FACE): "left on",
    (FRONT, FACE): "front end",
    (FACE, HUB_END): "in the coupling",
    (BEARING_FWD, BEARING_AFT): "journal",
    (LARGE, SMALL): "taper",
    (SMALL, NUT): "overhang",
    (NUT, THREAD): "thread",
    (THREAD, TIP): "nose",
}


@dataclass(frozen=True, slots=True)
class Station:
    """A place along the shaft; ``x`` from the coupling face, positive aft, None: not known."""

    key: str
    x: Length | None
    source: str

    @property
    def name(self) -> str:
        """What the shop calls it."""
        return NAMES[self.key]


@dataclass(frozen=True, slots=True)
class Piece:
    """What lies between two neighbouring stations, by the stored facts."""

    start: str
    end: str
    length: Length

    @property
    def name(self) -> str:
        """What it is: taper, nose; what is nothing else is plain bar."""
        return _PIECES.get((self.start, self.end), "plain")


@dataclass(frozen=True, slots=True)
class Chain:
    """All stations from forward to aft, and the pieces between those whose place is known.

    ``length``: coupling face to the end of the threads; ``overall``: tip to tip; both as accepted.
    """

    stations: tuple[Station, ...]
    pieces: tuple[Piece, ...]
    length: Length
    overall: Length

    @property
    def known(self) -> tuple[Station, ...]:
        """The stations whose place is known."""
        return tuple(station for station in self.stations if station.x is not None)

    def at(self, key: str) -> Length | None:
        """Where a station stands, or None."""
        return next((one.x for one in self.stations if one.key == key), None)


def chain(
    stack: Mapping[str, Any], *, coupling: Length | None = None, bearing: Length | None = None
) -> Chain:
    """The chain of one stored stack-up. ``coupling``: face to the end of its hub, where that was
    measured; ``bearing``: the one bearing's length, where the strut's barrel was not.
    """
    length, overall = mm(stack["length"]), mm(stack.get("overall") or stack["length"])
    rows = end_rows(str(stack.get("system") or "inch"), mm(stack["nominal"]["mm"]))
    stations = (
        *_forward(stack, coupling),
        *_journal(stack, bearing),
        *_propeller_end(stack, length, rows),
    )
    known = [one.key for one in stations if one.x is not None]
    stored = _stored(stack, length, coupling, bearing)
    pieces = tuple(_piece(start, end, stored) for start, end in pairwise(known))
    return Chain(stations, pieces, length, overall)


def left_long(made: Chain, by: Length) -> Chain:
    """The same shaft as it is sent, longer at the coupling end by so much; x = 0 stays the face
    as the yard will make it, so that no other station moves."""
    if not by:
        return made
    first, *rest = made.stations
    overall = made.overall + by
    if first.key == FRONT and first.x is not None:
        front = Station(FRONT, first.x - by, f"{first.source}; left long")
        piece, *pieces = made.pieces
        longer = Piece(piece.start, piece.end, piece.length + by)
        return Chain((front, *rest), (longer, *pieces), made.length, overall)
    left = Station(LEFT, -by, "as chosen")
    pieces = [Piece(LEFT, FACE, by), *made.pieces]
    return Chain((left, *made.stations), tuple(pieces), made.length, overall)


def _forward(stack: Mapping[str, Any], coupling: Length | None) -> Iterator[Station]:
    if "pass_through" in str(stack.get("layout")):
        front = _stored_length(stack, "front_length")
        yield Station(FRONT, -front if front else None, "as measured")
    yield Station(FACE, ZERO, "the one datum")
    if coupling is not None and not _passes(stack):
        yield Station(HUB_END, coupling, "as measured")


def _journal(stack: Mapping[str, Any], bearing: Length | None) -> Iterator[Station]:
    """The bearing's place: for finish, nothing is cut by it. On a pass-through it is not known."""
    aft = None if _passes(stack) else _stored_length(stack, "x_strut_aft")
    if aft is None:
        return
    forward = _journal_front(stack, aft, bearing)
    if forward is not None and forward > ZERO:
        measured = _stored_length(stack, "x_strut_fwd") is not None
        source = "strut barrel" if measured else "bearing's length"
        yield Station(BEARING_FWD, forward, f"{source}; for finish")
    yield Station(BEARING_AFT, aft, "face to strut; for finish")


def _journal_front(stack: Mapping[str, Any], aft: Length, bearing: Length | None) -> Length | None:
    measured = _stored_length(stack, "x_strut_fwd")
    if measured is not None:
        return measured
    return aft - bearing if bearing else None


def _propeller_end(stack: Mapping[str, Any], length: Length, rows: EndRows) -> Iterator[Station]:
    """Backwards from the end of the threads, by the table's own values."""
    taper, threads = rows.length("taper_length_C"), rows.length("thread_length_G")
    small = length - threads if threads else None
    large = small - taper if small and taper else None
    g_unsure = f"; {VERIFY}" if rows.unsure("thread_length_G") else ""
    table = f"SAE J755{g_unsure}"
    yield Station(LARGE, large, table if large else NOT_KNOWN)
    yield Station(SMALL, small, table if small else NOT_KNOWN)
    yield Station(NUT, small + HUB_OVERHANG if small else None, table if small else NOT_KNOWN)
    yield Station(THREAD, length, "as accepted")
    nose = _table_nose(rows)
    if _stored_length(stack, "nose") and nose is not None:
        yield Station(TIP, length + nose, f"SAE J755{_nose_unsure(rows)}")


def _table_nose(rows: EndRows) -> Length | None:
    past_taper, threads = rows.length("extension_beyond_taper_H"), rows.length("thread_length_G")
    return past_taper - threads if past_taper and threads else None


def _nose_unsure(rows: EndRows) -> str:
    row = rows.row("extension_beyond_taper_H")
    return f"; {VERIFY}" if row is None or row.confidence != Confidence.SEEN else ""


def _stored(
    stack: Mapping[str, Any], length: Length, coupling: Length | None, bearing: Length | None
) -> dict[str, Length | None]:
    """Where each station stands by the stored facts alone, without looking into the table."""
    standoff, taper = _stored_length(stack, "nut_standoff"), _stored_length(stack, "taper_length")
    nut = length - standoff if standoff else None
    small = nut - HUB_OVERHANG if nut else None
    aft, front = _stored_length(stack, "x_strut_aft"), _stored_length(stack, "front_length")
    return {
        FRONT: -front if front else None,
        FACE: ZERO,
        HUB_END: coupling,
        BEARING_FWD: _journal_front(stack, aft, bearing) if aft else None,
        BEARING_AFT: aft,
        LARGE: small - taper if small and taper else None,
        SMALL: small,
        NUT: nut,
        THREAD: length,
        TIP: length + (_stored_length(stack, "nose") or ZERO),
    }


def _piece(start: str, end: str, stored: Mapping[str, Length | None]) -> Piece:
    """A piece as stored; one whose ends were not stored has no length, which the check refuses."""
    first, last = stored[start], stored[end]
    return Piece(start, end, last - first if first is not None and last is not None else ZERO)


def _passes(stack: Mapping[str, Any]) -> bool:
    return "pass_through" in str(stack.get("layout"))


def _stored_length(stack: Mapping[str, Any], key: str) -> Length | None:
    value = stack.get(key)
    return mm(value) if value not in (None, "") else None
