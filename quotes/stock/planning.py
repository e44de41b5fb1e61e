"""Which bar for which shaft: the plan for all that wait, beside what is held now."""

from __future__ import annotations

import hashlib
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from itertools import groupby

from catalog.pieces import selectors as rack
from catalog.pieces.models import Piece
from quotes.domain.metal import Metal
from quotes.domain.nesting import Demand, Plan, judged, plan
from quotes.stock import selectors
from quotes.stock.models import Hold


@dataclass(frozen=True, slots=True)
class MetalPlan:
    """Shafts of one metal that wait, its pieces, the plan, and what is held now as such a plan.

    Without pieces the bars of this metal are not listed one by one: nothing is planned.
    """

    metal: Metal
    holds: tuple[Hold, ...]
    pieces: tuple[Piece, ...]
    plan: Plan
    now: Plan

    @property
    def better(self) -> bool:
        """Whether the plan saves something, and nobody who holds metal now would lose it."""
        keeps = self.now.cuts.keys() <= self.plan.cuts.keys()
        return bool(self.pieces) and keeps and self.plan.score < self.now.score

    @property
    def shown(self) -> Plan:
        """The plan where it is better, else what is held now."""
        return self.plan if self.better else self.now

    def piece(self, number: str) -> Piece:
        """The piece of this number."""
        return next(one for one in self.pieces if str(one.pk) == number)


@dataclass(frozen=True, slots=True)
class BarPlan:
    """The plan metal by metal; ``seen`` is the same text as long as nothing has changed."""

    metals: tuple[MetalPlan, ...]
    seen: str

    @property
    def moves(self) -> list[tuple[Hold, int]]:
        """Each shaft with the number of the piece it is to be held on, where that is better."""
        return [
            (hold, int(one.plan.cuts[str(hold.pk)]))
            for one in self.metals
            if one.better
            for hold in one.holds
            if str(hold.pk) in one.plan.cuts
        ]

    @property
    def better(self) -> bool:
        """Whether anything would be saved."""
        return any(one.better for one in self.metals)


def bar_plan() -> BarPlan:
    """The plan for every shaft that waits, in three queries."""
    holds = selectors.waiting_shafts()
    pieces = rack.bars_of({hold.diameter_nm for hold in holds if hold.diameter_nm})
    heats = {_pair(hold): hold.piece.heat for hold in selectors.taken_twins(holds) if hold.piece}
    by_metal = sorted(holds, key=lambda hold: selectors.metal_of(hold).key)
    metals = [
        _one(tuple(group), [p for p in pieces if selectors.piece_metal(p).key == key], heats)
        for key, group in groupby(by_metal, key=lambda hold: selectors.metal_of(hold).key)
    ]
    return BarPlan(tuple(sorted(metals, key=lambda one: one.metal)), _mark(holds, pieces))


def _one(holds: tuple[Hold, ...], pieces: Sequence[Piece], heats: dict[Hashable, str]) -> MetalPlan:
    """Planned as if nothing were held: all that is held is held for these."""
    demands = [_demand(hold, holds, heats) for hold in holds]
    rods = [selectors.as_rod(piece, piece.length) for piece in pieces]
    cuts = {str(hold.pk): str(hold.piece_id) for hold in holds if hold.piece_id}
    return MetalPlan(
        selectors.metal_of(holds[0]),
        holds,
        tuple(pieces),
        plan(demands, rods),
        judged(demands, rods, cuts),
    )


def _demand(hold: Hold, holds: Sequence[Hold], heats: dict[Hashable, str]) -> Demand:
    pair = _pair(hold)
    stations = {one.quote.submission.station for one in holds if pair and _pair(one) == pair}
    return Demand(
        job=str(hold.pk),
        length=hold.needed,
        metal=selectors.metal_of(hold).key,
        pair=str(pair) if len(stations) > 1 else "",
        heat=heats.get(pair, "") if pair else "",
    )


def _pair(hold: Hold) -> Hashable:
    """The boat and job of a shaft; nothing where it is not known whose it is."""
    one = hold.quote.submission
    return (one.customer_id, one.boat_key, one.job) if one.customer_id and one.boat_key else None


def _mark(holds: Sequence[Hold], pieces: Sequence[Piece]) -> str:
    facts = [(hold.pk, hold.state, hold.piece_id, hold.needed_nm) for hold in holds]
    racked = [(one.pk, one.length_nm, one.free_nm, one.heat) for one in pieces]
    return hashlib.sha256(repr((facts, racked)).encode()).hexdigest()[:20]
