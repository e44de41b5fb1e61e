"""Rows of the pages of bars and shafts: facts in, words out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from django.utils.safestring import SafeString, mark_safe

from catalog.domain.lengths import Length
from catalog.pieces.models import Piece
from intake.domain.svg import to_svg
from quotes.checks.bars import BarFacts, nothing_is_wasted
from quotes.domain.bar_picture import bar_picture
from quotes.domain.nesting import KERF, SCRAP_UNDER, SPARE_FROM, SPARE_TO, Plan
from quotes.stock.models import HELD, Hold
from quotes.stock.planning import MetalPlan


def whose(hold: Hold) -> str:
    """The boat and side a shaft is for."""
    one = hold.quote.submission
    side = f", {one.station}" if one.station and one.station != "single" else ""
    return f"{one.boat_name or one.reference}{side}"


@dataclass(frozen=True)
class ShaftRow:
    """One waiting shaft: what it needs, what is held, what the plan says."""

    hold: Hold
    of: MetalPlan

    @property
    def whose(self) -> str:
        return whose(self.hold)

    @property
    def now(self) -> str:
        """What is held for it."""
        if self.hold.piece:
            return self.hold.piece.label
        if self.hold.state == HELD:
            return f"a whole bar of {self.hold.part_code}, by count"
        return "nothing: to be ordered"

    @cached_property
    def planned(self) -> Piece | None:
        """The piece the plan gives it."""
        number = self.of.shown.cuts.get(str(self.hold.pk))
        return self.of.piece(number) if number else None

    @property
    def is_apart(self) -> bool:
        """Whether the plan has it from another heat than the other shaft of its pair."""
        return str(self.hold.pk) in self.of.shown.apart

    @property
    def notes(self) -> list[str]:
        """What ``remnant-waste`` has to say of the plan for it."""
        left = self.of.shown.left.get(str(self.planned.pk)) if self.planned else None
        facts = BarFacts(
            needed=self.hold.needed,
            left=left,
            on_remnant=bool(self.planned and not self.planned.is_whole),
            remnants=tuple(self._remnants()),
        )
        return [found.message for found in nothing_is_wasted.found(facts)]

    def _remnants(self) -> list[Length]:
        """What the plan leaves of each remnant, and its own piece as it was for it."""
        left = self.of.shown.left
        own = self.planned.pk if self.planned else None
        return [
            left.get(str(one.pk), one.length) + (self.hold.needed if one.pk == own else Length(0))
            for one in self.of.pieces
            if not one.is_whole
        ]


@dataclass(frozen=True)
class PieceRow:
    """One piece the plan cuts: what from it, and what is left."""

    piece: Piece
    cuts: tuple[Hold, ...]
    left: Length
    longest: Length

    @property
    def left_words(self) -> str:
        """What is left and what becomes of it."""
        if not self.left:
            return "nothing"
        if self.left >= SCRAP_UNDER:
            return f"{self.left.both()}, kept as a remnant"
        fits_well = not self.piece.is_whole and SPARE_FROM <= self.left <= SPARE_TO
        return f"{self.left.both()}, {'the remnant is used up' if fits_well else 'scrap'}"

    @property
    def words(self) -> str:
        """The cuts from its left end, as they are read out."""
        parts = [f"{one.needed.both()} for {whose(one)}" for one in self.cuts]
        return f"{'; '.join(parts)}; left over: {self.left_words}."

    @property
    def picture(self) -> SafeString:
        """The same drawn to scale."""
        needs = [one.needed for one in self.cuts]
        title, length = f"{self.piece.label} cut", self.piece.length
        drawing = bar_picture(title, length, needs, self.words, self.longest)
        svg = to_svg(drawing, ident=f"piece-{self.piece.pk}")
        return mark_safe(svg)  # noqa: S308 - every text in it is escaped by to_svg


@dataclass(frozen=True)
class MetalRow:
    """One metal of the page."""

    of: MetalPlan

    @property
    def words(self) -> str:
        return self.of.metal.words

    @property
    def is_listed(self) -> bool:
        """Whether its bars are pieces, so that there is something to plan with."""
        return bool(self.of.pieces)

    @property
    def shafts(self) -> list[ShaftRow]:
        """Every shaft of this metal that waits, the longest accepted first."""
        return [ShaftRow(hold, self.of) for hold in self.of.holds]

    @property
    def pieces(self) -> list[PieceRow]:
        """The pieces the plan cuts."""
        left = self.of.shown.left
        cut = [piece for piece in self.of.pieces if str(piece.pk) in left]
        longest = max((piece.length for piece in cut), default=Length(0))
        return [
            PieceRow(piece, tuple(self._on(piece)), left[str(piece.pk)], longest) for piece in cut
        ]

    def _on(self, piece: Piece) -> Sequence[Hold]:
        cuts = self.of.shown.cuts
        return [hold for hold in self.of.holds if cuts.get(str(hold.pk)) == str(piece.pk)]

    @property
    def plan_costs(self) -> str:
        return costs(self.of.plan)

    @property
    def now_costs(self) -> str:
        return costs(self.of.now)

    @property
    def better(self) -> bool:
        return self.of.better

    @property
    def proven(self) -> str:
        return self.of.plan.words


def costs(made: Plan) -> str:
    """What a plan costs, in words: bars, scrap, what is not served, pairs apart."""
    score = made.score
    parts = [
        f"{score.opened} whole {_of(score.opened, 'bar')} cut into",
        f"{made.scrap.both()} lost as scrap",
    ]
    if score.apart:
        parts.append(f"{score.apart} {_of(score.apart, 'shaft')} not surely of its twin's heat")
    if score.unserved:
        parts.append(f"{score.unserved} {_of(score.unserved, 'shaft')} without a bar")
    return ", ".join(parts)


def _of(count: int, word: str) -> str:
    return word if count == 1 else f"{word}s"


ALLOWANCE = f"{KERF.both()} of saw cut and 1/16 in of facing at each end"
