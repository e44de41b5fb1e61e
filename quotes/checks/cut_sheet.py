"""The cut sheet's own check: its chain of stations adds up, or no paper leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from catalog.domain.lengths import Length, inches
from intake.checks.base import Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check
from quotes.domain.stations import FACE, FRONT, THREAD, TIP, ZERO, Chain


@dataclass(frozen=True, slots=True)
class ChainLimits:
    """``chain_off``: how far a chain may be off (arithmetic: nothing that adds up is off at all;
    this much is lost where somebody rounds to 0.01 in)."""

    chain_off: Length = inches("0.005")


@check(
    "cutsheet-chain",
    Severity.STOP,
    ChainLimits(),
    ask="Which station was changed last, and on whose word?",
    source="arithmetic",
)
def the_chain_adds_up(chain: Chain, limits: ChainLimits) -> Iterator[Mismatch]:
    """The stations of a cut sheet do not add up to the accepted length.

    A station was changed by itself, or the table has changed since the sheet was accepted.
    """
    yield from _order(chain, limits)
    yield from _pieces(chain, limits)
    yield from _sums(chain, limits)


def _order(chain: Chain, limits: ChainLimits) -> Iterator[Mismatch]:
    """The datum is zero, and every station lies aft of the one before it."""
    if chain.at(FACE) != ZERO:
        yield Mismatch((FACE,), "The coupling face is not at zero.")
    for before, after in pairwise(chain.known):
        if before.x is not None and after.x is not None and after.x + limits.chain_off < before.x:
            words = f"{after.name} lies {(before.x - after.x).both()} forward of {before.name}."
            yield Mismatch((before.key, after.key), words)


def _pieces(chain: Chain, limits: ChainLimits) -> Iterator[Mismatch]:
    for piece in chain.pieces:
        start, end = chain.at(piece.start), chain.at(piece.end)
        if start is None or end is None or _off(end - start, piece.length, limits):
            found = "nowhere" if start is None or end is None else (end - start).both()
            words = (
                f"{_named(chain, piece.end)}: the stations leave {found} for {piece.name}, "
                f"the accepted sheet has {piece.length.both()}."
            )
            yield Mismatch((piece.start, piece.end), words)


def _sums(chain: Chain, limits: ChainLimits) -> Iterator[Mismatch]:
    """The pieces from the face to the end of the threads, and from tip to tip."""
    keys = [piece.start for piece in chain.pieces]
    from_face = [*keys, THREAD].index(FACE) if FACE in keys else 0
    behind = [piece for piece in chain.pieces if piece.start == THREAD]
    to_thread = chain.pieces[from_face : len(chain.pieces) - len(behind)]
    sums = (
        (THREAD, to_thread, chain.length, "face to thread end"),
        (TIP if behind else FRONT if from_face else THREAD, chain.pieces, chain.overall, "overall"),
    )
    for key, pieces, wanted, name in sums:
        total = Length(sum(piece.length.nm for piece in pieces))
        if _off(total, wanted, limits):
            words = f"The pieces come to {total.both()} {name}, accepted is {wanted.both()}."
            yield Mismatch((key,), words)


def _off(length: Length, wanted: Length, limits: ChainLimits) -> bool:
    return abs(length - wanted) > limits.chain_off


def _named(chain: Chain, key: str) -> str:
    return next(one.name for one in chain.stations if one.key == key)
