"""The length to cut to: the desk's usual step, or a finer one where that alone spoils the fit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from catalog.domain.lengths import Length
from intake.domain.diameter import Size
from intake.domain.explain import Explanation, fit_by_what_can_show, honest_fit
from intake.domain.fit import Band, fit_probability, rounded
from intake.domain.limits import Limits


class Cut(NamedTuple):
    """A length to cut to, the gap it should leave, and the chance that this gap is fair.

    ``by_noise``: were no slip possible. ``honest``: every slip included. ``that_can_show``: of
    slips that a second look could show, by which one is asked for.
    """

    length: Length
    gap: Length
    by_noise: float
    honest: float
    that_can_show: float

    @property
    def surest(self) -> float:
        """What both noise and slips leave: neither may call for a question."""
        return min(self.by_noise, self.that_can_show)


@dataclass(frozen=True, slots=True)
class Chances:
    """What chance of a fair gap each length to cut has, by all that explains the sheet.

    ``witnessed``: two routes or more; one alone decides without what no reading could show.
    """

    exact: Length
    u_nm: float
    band: Band
    explained: tuple[Explanation, ...]
    witnessed: bool

    def of(self, length: Length) -> Cut:
        """This length with its chances."""
        gap = Length(self.band.goal.nm + length.nm - self.exact.nm)
        noise = fit_probability(gap.nm, self.u_nm, self.band)
        honest = showing = honest_fit(self.explained, gap.nm, self.band)
        if not self.witnessed:
            showing = fit_by_what_can_show(self.explained, gap.nm, self.band)
        return Cut(length, gap, noise, honest, showing)


def choose_cut(chances: Chances, size: Size, known_good: Length | None, limits: Limits) -> Cut:
    """The usual step; where it is not quite sure and a finer one near it is surer, that one.

    A small shaft's band is narrow: there an eighth is worth more than the customer's whole tape.
    And of two witnesses that differ a little, a length between them may suit both. No question
    to the customer mends either.
    """
    inch = size.system == "inch"
    step = limits.rounding_inch if inch else limits.rounding_metric
    usual = chances.of(rounded(chances.exact, step, known_good))
    proven = usual.length == known_good and usual.surest >= limits.fit_ask
    if proven or usual.surest >= limits.fit_sure:
        return usual
    fine = limits.rounding_fine if inch else limits.rounding_fine_metric
    best = max(_near(chances, fine, limits), key=lambda cut: (cut.surest, cut.length))
    worth = best.surest >= limits.fit_ask and best.surest - usual.surest >= limits.fine_worth
    return best if worth else usual


def _near(chances: Chances, step: Length, limits: Limits) -> list[Cut]:
    """Every length of that step within reach of the exact one."""
    nearest = rounded(chances.exact, step)
    reach = limits.cut_reach.nm // step.nm + 1
    return [chances.of(Length(nearest.nm + step.nm * n)) for n in range(-reach, reach + 1)]
