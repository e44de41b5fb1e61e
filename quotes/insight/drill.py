"""What a list behind a number is of, in words."""

from __future__ import annotations

from collections.abc import Callable

from quotes.domain.insight.honesty import FIT_WORDS
from quotes.domain.insight.measures import Measure
from quotes.insight.pages.base import FAMILIES, cause_label, check_label, question_label
from quotes.insight.pages.funnel import STAGES
from quotes.insight.pages.honesty import bin_words, is_bin

_BECAME = {"fitted": "fitted first time", "misfit": "did not fit", "silent": "nothing heard yet"}


def _fit(key: str) -> str:
    known = key in {str(at) for at in range(len(FIT_WORDS))}
    return FIT_WORDS[int(key)] if known else ""


_SAID: dict[str, tuple[str, Callable[[str], str]]] = {
    Measure.RECEIVED: ("Requests that came", lambda key: ""),
    Measure.FLAG: ("Held by a check", check_label),
    Measure.MISMATCH: ("With a mistake", lambda key: FAMILIES.get(key) or cause_label(key)),
    Measure.BORN: ("With a mistake in an answer", question_label),
    Measure.CAUGHT: ("Something was wrong", lambda key: STAGES.get(key, "")),
    Measure.SHIPPED: ("Orders that left", lambda key: _BECAME.get(key, "")),
    Measure.OVER: ("Released over a flag", str),
    Measure.LACKING: ("Asked for, and not in the catalogue", str),
    Measure.FIT_STATED: ("Left with a stated fit, and heard of", _fit),
    Measure.Z: (
        "Gap off by so many uncertainties",
        lambda key: bin_words(key) if is_bin(key) else "",
    ),
    Measure.BAR_USED: ("A bar was sawn for them", str),
}


def said(measure: str, key: str) -> str:
    """What the requests of a list have in common; "" for what is no number of ours.

    >>> said("shipped", "misfit"), said("z", "nan"), said("all", "")
    ('Orders that left: did not fit', 'Gap off by so many uncertainties', '')
    """
    words, about = _SAID.get(measure, ("", str))
    more = about(key) if words and key else ""
    return f"{words}: {more}" if more else words
