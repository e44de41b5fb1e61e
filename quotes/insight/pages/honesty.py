"""Are our uncertainty and our probability honest?"""

from __future__ import annotations

from quotes.domain.charts.frame import Words
from quotes.domain.charts.histogram import Column, histogram
from quotes.domain.charts.reliability import Point
from quotes.domain.charts.reliability import reliability as drawn
from quotes.domain.insight.honesty import KEYS, FitBin, Uncertainty, reliability, uncertainty
from quotes.domain.insight.measures import Measure
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

_SHORT = ("< 90", "90–97", "97–98.5", "98.5–99.5", "≥ 99.5")  # the bins, in per cent, on an axis


def view(given: Given) -> View:
    """The histogram of deviations, and stated against true fit."""
    found, bins = uncertainty(given.counts), reliability(given.counts)
    figures = (
        base.figure("of fitted gaps within two uncertainties; 95 % is honest", found.within_two),
        Figure("how far gaps scatter; 1 is honest", _number(found.deviation)),
        Figure("how far they lie off on the average; 0 is honest", _number(found.mean)),
    )
    charts = (
        Chart("Fitted gap less predicted, in uncertainties", _histogram(found)),
        Chart("Stated fit against what came true", _reliability(bins)),
    )
    return View(figures, charts, (_fit_table(bins), _z_table(found)))


def _number(value: float | None) -> str:
    return "—" if value is None else f"{value:.2f}"


def _histogram(found: Uncertainty) -> str:
    columns = [
        Column(one.key.removesuffix(".0") if one.key.endswith(".0") else "", one.n, one.expected)
        for one in found.bins
    ]
    about = f"{found.within_two.hits} of {found.within_two.of} within two uncertainties."
    return histogram(columns, Words("z", "How often each deviation came", about))


def _reliability(bins: tuple[FitBin, ...]) -> str:
    points = [
        Point(
            _SHORT[at],
            one.stated,
            one.landed.rate or 0.0,
            one.landed.low,
            one.landed.high,
            one.landed.of,
        )
        for at, one in enumerate(bins)
        if one.stated is not None
    ]
    about = "; ".join(f"{one.words}: {base.rate(one.landed)}" for one in bins)
    return drawn(points, Words("reliability", "Stated fit against what came true", about))


def _fit_table(bins: tuple[FitBin, ...]) -> Table:
    rows = tuple(
        Row(
            (
                one.words,
                str(one.landed.of),
                base.percent(one.stated),
                base.rate(one.landed),
                base.span(one.landed),
                {True: "inside", False: "outside", None: ""}[one.is_honest],
            ),
            (Measure.FIT_STATED.value, str(at)),
        )
        for at, one in enumerate(bins)
    )
    columns = (
        "Stated fit",
        "Heard of",
        "Stated, mean",
        "Came true",
        "May be",
        "Stated is",
    )
    return Table("Stated fit, bin by bin", columns, rows)


def _z_table(found: Uncertainty) -> Table:
    rows = tuple(
        Row((bin_words(one.key), str(one.n), f"{one.expected:.1f}"), (Measure.Z.value, one.key))
        for one in found.bins
    )
    return Table("Deviations, bin by bin", ("Uncertainties off", "How many", "Expected"), rows)


def is_bin(key: str) -> bool:
    """Whether a key names a bin of deviations."""
    return key in KEYS


def bin_words(key: str) -> str:
    """A bin of deviations by its edges."""
    if key == "-inf":
        return "below -4"
    return "4 and more" if key == "inf" else f"{float(key):g} to {float(key) + 0.5:g}"


QUESTION = Question(
    "honesty",
    "Are our uncertainty and our probability honest?",
    "Of shafts that fitted with no mistake known: the gap as fitted less the predicted one, over "
    "its standard uncertainty. And of all that were heard of: the fit that was stated as a shaft "
    "left, against how many did fit.",
    (Measure.Z, Measure.Z_SQUARED, Measure.FIT_STATED, Measure.FIT_LANDED),
    view,
)
