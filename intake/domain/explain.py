"""What explains a sheet: no slip, or which; and the honest chance that the gap will be fair.

Every slip is weighed by how often it happens and by how well it goes with every difference the
sheet could have shown it in. Normal noise, linear in the readings (JCGM 100); the mixture over
slips is Bayes' rule. The differences are first made independent of each other, so that one slip
costs a handful of multiplications.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from intake.domain.fit import Band, fit_probability
from intake.domain.slips import FAR, OK, Slip

# An explanation less likely than this, against the likeliest, changes no figure that is shown.
_NEGLIGIBLE = -10.0

Moves = tuple[tuple[str, float], ...]


class Explanation(NamedTuple):
    """One explanation of the sheet: its cause ("OK": no slip) and probability.

    ``mean_nm`` and ``sd_nm``: how far the gap would lie from the predicted one, and how surely.
    ``moves`` says which readings the slip would have moved.
    """

    cause: str
    moves: Moves
    probability: float
    mean_nm: float
    sd_nm: float

    def in_band(self, gap_nm: float, band: Band) -> float:
        """The chance that a gap predicted at ``gap_nm`` lands in the band, if this is it."""
        return fit_probability(gap_nm + self.mean_nm, self.sd_nm, band)


_SQRT2 = math.sqrt(2.0)


# A sheet has at most three differences: two tails, and two witnesses against the first route.
_MOST_DIFFERENCES = 3


class _Term(NamedTuple):
    """A slip as it stands before the differences are seen: see `_term` for the algebra.

    ``pull``: what its posterior mean is made of, by itself and by each difference. ``score``: its
    log likelihood without the differences, and what the pull's square adds. ``stands``: cause,
    readings, how much of the pull stays in the best length, and the spread of that.
    """

    pull: tuple[float, float, float, float]
    score: tuple[float, float]
    stands: tuple[str, Moves, float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """All that does not depend on the differences' values, made once for a kind of sheet.

    Slip by slip in columns: this is gone through for every sheet there is.
    """

    pulls: tuple[tuple[float, float, float, float], ...]
    scores: tuple[tuple[float, float], ...]
    stand: tuple[tuple[str, Moves, float, float], ...]
    mixing: tuple[tuple[float, ...], ...]
    regression: tuple[float, ...]


def prepare(
    best: Moves, differences: tuple[Moves, ...], units: Moves, slips: Sequence[Slip], ok: float
) -> Frame:
    """Prepare the weighing of ``slips`` against no slip at all, whose weight is ``ok``.

    ``best`` and each difference are (reading, nanometres that one u of it moves) pairs, with
    independent readings; ``units`` gives the u of each reading in nanometres.
    """
    free, mixing = _independent([dict(moves) for moves in differences])
    best_moves = dict(best)
    variances = [_dot(moves, moves) for moves in free]
    regression = [_dot(best_moves, moves) / v for moves, v in zip(free, variances, strict=True)]
    left = _dot(best_moves, best_moves) - sum(
        share * share * v for share, v in zip(regression, variances, strict=True)
    )
    noise = _Noise(free, variances, regression, best_moves, dict(units), max(left, 1.0))
    no_slip = Slip(OK, (), 0.0, 0.0, ok)
    pulls, scores, stand = zip(*(_term(slip, noise) for slip in (no_slip, *slips)), strict=True)
    return Frame(pulls, scores, stand, tuple(map(tuple, mixing)), tuple(regression))


@dataclass(frozen=True, slots=True)
class _Noise:
    """The differences made independent, their variances, and what they tell of the best length.

    ``left`` is the variance of the best length that they tell nothing of.
    """

    free: Sequence[Mapping[str, float]]
    variances: Sequence[float]
    regression: Sequence[float]
    best: Mapping[str, float]
    units: Mapping[str, float]
    left: float


def _independent(
    differences: list[dict[str, float]],
) -> tuple[list[dict[str, float]], list[list[float]]]:
    """Differences made independent one after the other, and what was taken off each."""
    free: list[dict[str, float]] = []
    mixing: list[list[float]] = []
    for moves in differences:
        taken = []
        rest = dict(moves)
        for earlier in free:
            share = _dot(moves, earlier) / _dot(earlier, earlier)
            taken.append(share)
            for name, move in earlier.items():
                rest[name] = rest.get(name, 0.0) - share * move
        free.append(rest)
        mixing.append(taken)
    return free, mixing


def _dot(one: Mapping[str, float], other: Mapping[str, float]) -> float:
    return sum(move * other.get(name, 0.0) for name, move in one.items())


def _term(slip: Slip, noise: _Noise) -> _Term:
    """The slip s ~ N(m, sigma^2) moves difference i by a_i s and the best length by b s.

    With differences d of variance v the slip's posterior has precision tau = 1/sigma^2 + sum
    a^2/v and mean (m/sigma^2 + sum a d/v)/tau; the log likelihood against no slip is
    (mean^2 tau - m^2/sigma^2 - log(1 + sigma^2 sum a^2/v)) / 2; and of the slip, c = b - sum
    (regression a) of it stays in the best length.
    """
    moved = [_moved_by(slip, moves, noise.units) for moves in noise.free]
    in_best = _moved_by(slip, noise.best, noise.units)
    stays = in_best - sum(r * a for r, a in zip(noise.regression, moved, strict=True))
    pulls = [a / v for a, v in zip(moved, noise.variances, strict=True)]
    seen = sum(a * pull for a, pull in zip(moved, pulls, strict=True))
    one, two, three = (*pulls, *(0.0,) * (_MOST_DIFFERENCES - len(pulls)))
    sigma2 = max(slip.spread_nm**2, 1.0)
    tau = 1 / sigma2 + seen
    log_weight = math.log(slip.weight)
    log_weight -= 0.5 * (slip.mean_nm**2 / sigma2 + math.log1p(sigma2 * seen))
    return _Term(
        pull=(slip.mean_nm / sigma2, one, two, three),
        score=(log_weight, 0.5 / tau),
        stands=(slip.cause, slip.moves, stays / tau, math.sqrt(noise.left + stays * stays / tau)),
    )


def _moved_by(slip: Slip, moves: Mapping[str, float], units: Mapping[str, float]) -> float:
    """How far a length with these moves goes when the slip is one nanometre."""
    return sum(times * moves[name] / units[name] for name, times in slip.moves if name in moves)


def explain(made: Frame, differences: Sequence[float]) -> tuple[Explanation, ...]:
    """The explanations worth naming with their probabilities (which add up to one), unranked.

    ``differences``: the values in nanometres, in the order in which they were prepared.
    """
    free = list(differences)
    for place, taken in enumerate(made.mixing):
        for share, earlier in zip(taken, free, strict=False):
            free[place] -= share * earlier
    base = sum(share * d for share, d in zip(made.regression, free, strict=True))
    one, two, three = (*free, *(0.0,) * (_MOST_DIFFERENCES - len(free)))
    pulls = [by_itself + a * one + b * two + c * three for by_itself, a, b, c in made.pulls]
    scores = [
        score + pull * pull * half for pull, (score, half) in zip(pulls, made.scores, strict=True)
    ]
    top = max(scores)
    least = top + _NEGLIGIBLE
    kept = [
        (math.exp(score - top), pull, stands)
        for score, pull, stands in zip(scores, pulls, made.stand, strict=True)
        if score > least
    ]
    total = sum([likelihood for likelihood, _, _ in kept])
    return tuple(
        [
            Explanation(cause, moves, likelihood / total, base + carries * pull, sd)
            for likelihood, pull, (cause, moves, carries, sd) in kept
        ]
    )


def honest_fit(found: Sequence[Explanation], gap_nm: float, band: Band) -> float:
    """The chance that a gap predicted at ``gap_nm`` lands in its band, slips included."""
    most, least = band.most.nm - gap_nm, band.least.nm - gap_nm
    erf = math.erf
    total = 0.0
    for _, _, probability, mean, sd in found:
        scale = sd * _SQRT2
        total += probability * (erf((most - mean) / scale) - erf((least - mean) / scale))
    return 0.5 * total


def fit_by_what_can_show(found: Sequence[Explanation], gap_nm: float, band: Band) -> float:
    """The honest fit without the slips that no measuring of this boat could ever show.

    Another boat's numbers, or what is on no list: a second reading cannot speak to them, so the
    question whether to ask for one leaves them out.
    """
    speaking = [one for one in found if one.cause not in FAR]
    total = sum(one.probability for one in speaking)
    return honest_fit(speaking, gap_nm, band) / total if total else 0.0


def by_cause(found: Sequence[Explanation]) -> list[tuple[str, float]]:
    """Probabilities by cause, likeliest first; a slip that can take two forms counts once."""
    shares: dict[str, float] = {}
    for one in found:
        shares[one.cause] = shares.get(one.cause, 0.0) + one.probability
    return sorted(shares.items(), key=lambda item: -item[1])
