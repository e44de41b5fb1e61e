"""The length to cut to: the desk's usual step, or a finer one where that alone spoils the fit."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length
from intake.domain.diameter import Size
from intake.domain.explain import Explanation, fit_by_what_can_show, honest_fit
from intake.domain.fit import Band, fit_probability, rounded
from intake.domain.limits import Limits


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

    def gap_of(self, cut: Length) -> Length:
        """The gap that this length is expected to leave."""
        return Length(self.band.goal.nm + cut.nm - self.exact.nm)

    def by_noise(self, cut: Length) -> float:
        """The chance by noise alone, were no slip possible."""
        return fit_probability(self.gap_of(cut).nm, self.u_nm, self.band)

    def stated(self, cut: Length) -> float:
        """The honest chance, every slip included."""
        return honest_fit(self.explained, self.gap_of(cut).nm, self.band)

    def deciding(self, cut: Length) -> float:
        """The chance, of slips that something could show, by which a second look is asked for."""
        if self.witnessed:
            return self.stated(cut)
        return fit_by_what_can_show(self.explained, self.gap_of(cut).nm, self.band)

    def surest(self, cut: Length) -> float:
        """What both noise and slips leave: neither may call for a question."""
        return min(self.by_noise(cut), self.deciding(cut))


def choose_cut(chances: Chances, size: Size, known_good: Length | None, limits: Limits) -> Length:
    """The usual step; where it is not sure enough and a finer one near it is, that one.

    A small shaft's band is narrow: there an eighth is worth more than the customer's whole tape.
    And of two witnesses that differ a little, a length between them may suit both. No question
    to the customer mends either.
    """
    inch = size.system == "inch"
    usual = rounded(
        chances.exact, limits.rounding_inch if inch else limits.rounding_metric, known_good
    )
    if chances.surest(usual) >= limits.fit_ask:
        return usual
    step = limits.rounding_fine if inch else limits.rounding_fine_metric
    nearest = rounded(chances.exact, step)
    reach = (limits.cut_reach.nm // step.nm) + 1
    near = [Length(nearest.nm + step.nm * times) for times in range(-reach, reach + 1)]
    best = max(near, key=lambda cut: (chances.surest(cut), cut))
    return best if chances.surest(best) >= limits.fit_ask else usual
