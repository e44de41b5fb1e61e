"""Searching the best way to cut the shafts of one metal: branch and bound from a greedy start."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from catalog.domain.lengths import Length
from quotes.domain.nesting_facts import Demand, Plan, Rod, Score, scrap_of

_NOWHERE = -1
_NOTHING = (1 << 31, 0, 0, 0, 0)
_Five = tuple[int, int, int, int, int]


class Search:
    """Branch and bound over one metal: the longest shaft first, the promising piece first."""

    def __init__(self, demands: list[Demand], rods: list[Rod], steps: int) -> None:
        # Shafts of a pair stand together, so that being apart shows early.
        longest: dict[str, int] = {}
        for one in demands:
            longest[_pair(one)] = max(longest.get(_pair(one), 0), one.length.nm)
        self.demands = sorted(
            demands, key=lambda d: (-longest[_pair(d)], _pair(d), -d.length.nm, d.job)
        )
        self.rods = sorted(rods, key=lambda r: (r.whole, r.length.nm, r.heat, r.piece))
        self.needs = [one.length.nm for one in self.demands]
        self.free = [rod.length.nm for rod in self.rods]
        self.on: list[int] = []
        self.cuts = [0] * len(self.rods)
        self.opened = 0
        self.worth = -sum(nm * nm for nm in self.free)
        self.steps = steps
        self.best: tuple[_Five, list[int]] = (_NOTHING, [])

    def plan(self) -> Plan:
        """Greedy first: it is often the best already, and always there when steps run out."""
        self._greedy()
        proven = self._try(0, 0)
        score, on = self.best
        return self._told(Score(*score), on, proven)

    def as_given(self, cuts: Mapping[str, str]) -> Plan:
        """No search: each shaft on the piece it is said to be on."""
        names = {rod.piece: at for at, rod in enumerate(self.rods)}
        unserved = apart = 0
        for at, one in enumerate(self.demands):
            rod = names.get(cuts.get(one.job, ""), _NOWHERE)
            self._put(rod if rod != _NOWHERE and self.needs[at] <= self.free[rod] else _NOWHERE)
            unserved += self.on[-1] == _NOWHERE
            apart += self._apart_now()
        score, on = self._score(unserved, apart), list(self.on)
        while self.on:
            self._back()
        return self._told(Score(*score), on, proven=False)

    # -- the state, one cut forward and back ----------------------------------------------

    def _put(self, rod: int) -> None:
        nm = self.needs[len(self.on)]
        self.on.append(rod)
        if rod == _NOWHERE:
            return
        free = self.free[rod]
        self.worth += free * free - (free - nm) * (free - nm)
        self.free[rod] = free - nm
        self.opened += self.rods[rod].whole and not self.cuts[rod]
        self.cuts[rod] += 1

    def _back(self) -> None:
        rod = self.on.pop()
        if rod == _NOWHERE:
            return
        nm, free = self.needs[len(self.on)], self.free[rod]
        self.cuts[rod] -= 1
        self.opened -= self.rods[rod].whole and not self.cuts[rod]
        self.worth -= (free + nm) * (free + nm) - free * free
        self.free[rod] = free + nm

    def _apart_now(self) -> bool:
        """Whether the shaft put last is of another heat than its pair's."""
        last = len(self.on) - 1
        return _is_apart(self.demands, self.rods, self.on, last)

    # -- searching ------------------------------------------------------------------------

    def _greedy(self) -> None:
        unserved = apart = 0
        for at in range(len(self.demands)):
            _score, rod = min(self._after(at, rod, unserved, apart) for rod in self._choices(at))
            self._put(rod)
            unserved += rod == _NOWHERE
            apart += self._apart_now()
        self.best = (self._score(unserved, apart), list(self.on))
        while self.on:
            self._back()

    def _after(self, at: int, rod: int, unserved: int, apart: int) -> tuple[_Five, int]:
        """The score if the shaft were put there, to be compared with its other places."""
        self._put(rod)
        score = self._score(unserved + (rod == _NOWHERE), apart + self._apart_now())
        self._back()
        return score, rod

    def _score(self, unserved: int, apart: int) -> _Five:
        scrap = sum(
            scrap_of(rod, self.free[at]) for at, rod in enumerate(self.rods) if self.cuts[at]
        )
        return unserved, apart, self.opened, scrap, self.worth

    def _try(self, unserved: int, apart: int) -> bool:
        """Every way from here that could be better than the best; False when steps ran out."""
        at = len(self.on)
        if at == len(self.demands):
            score = self._score(unserved, apart)
            if score < self.best[0]:
                self.best = (score, list(self.on))
            return True
        for rod in self._choices(at):
            if self.steps <= 0:
                return False
            self.steps -= 1
            self._put(rod)
            lost, other = unserved + (rod == _NOWHERE), apart + self._apart_now()
            done = self._hopeless(lost, other) or self._try(lost, other)
            self._back()
            if not done:
                return False
        return True

    def _hopeless(self, unserved: int, apart: int) -> bool:
        """No way on from here can beat the best: each of the five can only grow."""
        rest, longest = self.needs[len(self.on) :], max(self.free, default=0)
        fitting = [nm for nm in rest if nm <= longest]
        unserved += len(rest) - len(fitting)
        opened = self.opened + self._bars_at_least(fitting)
        # A cut of n from f takes n(2f - n) off the squares, so n squared at least.
        worth = self.worth + sum(nm * nm for nm in fitting)
        return (unserved, apart, opened, self._scrap_at_least(fitting), worth) >= self.best[0]

    def _scrap_at_least(self, rest: list[int]) -> int:
        """What is lost already: ends that none of the rest fits on any more."""
        shortest = min(rest, default=0)
        ends = [at for at, times in enumerate(self.cuts) if times and self.free[at] < shortest]
        return sum(scrap_of(self.rods[at], self.free[at]) for at in ends)

    def _bars_at_least(self, rest: list[int]) -> int:
        """Whole bars these need for their inches alone, if all of them are to be served."""
        begun = sum(
            self.free[at] for at, rod in enumerate(self.rods) if not rod.whole or self.cuts[at]
        )
        more, longest = sum(rest) - begun, 0
        for at, rod in enumerate(self.rods):
            if rod.whole and not self.cuts[at]:
                longest = max(longest, self.free[at])
        return -(-more // longest) if more > 0 and longest else 0

    def _choices(self, at: int) -> Iterator[int]:
        """Pieces that have room, of several just alike only the first; nowhere comes last.

        Of two shafts just alike the second goes no further forward than the first.
        """
        twin = at and _alike(self.demands[at - 1], self.demands[at])
        from_rod = self.on[-1] if twin else 0
        if from_rod == _NOWHERE:
            yield _NOWHERE
            return
        seen = set()
        for rod in range(from_rod, len(self.rods)):
            looks = (self.free[rod], self.rods[rod].heat, self.rods[rod].whole)
            if self.needs[at] > self.free[rod] or (looks in seen and not self.cuts[rod]):
                continue
            if not self.cuts[rod]:
                seen.add(looks)
            yield rod
        yield _NOWHERE

    # -- telling --------------------------------------------------------------------------

    def _told(self, score: Score, on: list[int], proven: bool) -> Plan:
        left = {rod: self.free[rod] for rod in on if rod != _NOWHERE}
        for at, rod in enumerate(on):
            if rod != _NOWHERE:
                left[rod] -= self.needs[at]
        jobs = [one.job for one in self.demands]
        return Plan(
            cuts={jobs[at]: self.rods[r].piece for at, r in enumerate(on) if r != _NOWHERE},
            left={self.rods[rod].piece: Length(nm) for rod, nm in left.items()},
            unserved=tuple(jobs[at] for at, rod in enumerate(on) if rod == _NOWHERE),
            apart=tuple(
                jobs[at] for at in range(len(on)) if _is_apart(self.demands, self.rods, on, at)
            ),
            score=score,
            proven=proven,
        )


def _pair(one: Demand) -> str:
    return f"pair {one.pair}" if one.pair else f"job {one.job}"


def _alike(one: Demand, other: Demand) -> bool:
    alone = not (one.pair or other.pair)
    return alone and one.length == other.length and one.heat == other.heat


def _is_apart(demands: Sequence[Demand], rods: Sequence[Rod], on: Sequence[int], at: int) -> bool:
    """Whether this shaft is not surely of one heat with the first of its pair, or with ``heat``.

    What nothing was found for counts as unserved alone.
    """
    me, rod = demands[at], on[at]
    if rod == _NOWHERE:
        return False
    if me.heat and rods[rod].heat != me.heat:
        return True
    if not me.pair:
        return False
    others = [on[i] for i in range(at) if demands[i].pair == me.pair and on[i] != _NOWHERE]
    return bool(others) and not _one_heat(rods, others[0], rod)


def _one_heat(rods: Sequence[Rod], one: int, other: int) -> bool:
    return one == other or bool(rods[one].heat and rods[one].heat == rods[other].heat)
