"""Wear at the strut: what is changed while the shaft is out, and a strut that has moved."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity

_HOURS = re.compile(r"\D{0,12}?(\d{1,6})(?:[.,]\d+)?\s*(?:h|hrs?|hours?)?\.?", re.IGNORECASE)


@check(
    "bearing-with-shaft",
    Severity.NOTE,
    ask="How many hours or seasons has this bearing run?",
    holds=("shaft",),
    inputs=DIAMETER | {"dia_journal"},
    needs=("bearing_hours|dia_journal",),
    likely={"O-OLDBEARING": 1},
)
def an_old_bearing_is_changed_with_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The shaft comes out, its bearing is old or has worn the shaft, and no bearing is ordered.

    It is often forgotten; fitting one later costs a second withdrawal.
    """
    sheet, limits = case.sheet, case.limits
    if "bearing" in sheet.wants:
        return
    hours = hours_in(sheet.part("bearing_hours", "text") or "")
    worn = journal_wear_nm(case)
    if hours is not None and hours > limits.bearing_old_hours:
        yield Mismatch(("bearing_hours",), _OFFER)
    elif worn is not None and worn[0] > max(
        limits.two_spots_worn.nm, limits.two_spots_note_u * worn[1]
    ):
        yield Mismatch(("dia_journal",), _OFFER)


_OFFER = "The bearing is worth changing while the shaft is out, and none is ordered."


@check(
    "bearing-play",
    Severity.NOTE,
    ask="How far does the shaft lift at the strut?",
    holds=("shaft", "bearing"),
    needs=("bearing_play",),
    likely={"O-OLDBEARING": 10, "B-STRUT": 2},
)
def the_shaft_sits_in_its_bearing(case: Case) -> Iterator[Mismatch]:
    """The shaft lifts in its bearing by more than a sound bearing lets it.

    Wear; the bearing is to be replaced and the strut's alignment looked at.
    """
    if lifts(case):
        words = "The shaft lifts far in its bearing: the bearing is due and the strut worth a look."
        yield Mismatch(("bearing_play",), words)


@check(
    "strut-moved",
    Severity.ASK,
    ask="Where on the bearing is the rubber thin?",
    holds=("shaft",),
    inputs=("bearing_play",),
    needs=("reason|bearing_wear",),
    likely={"B-STRUT": 5, "B-MOVED": 1},
)
def the_strut_stands_where_it_stood(case: Case) -> Iterator[Mismatch]:
    """The strut may have moved: a strike, or a bearing worn on one side.

    A bent strut wears the next bearing and the new shaft; the yard sights it before it is cut.
    """
    sheet = case.sheet
    struck = sheet.choices.get("reason") == "strike"
    if sheet.choices.get("bearing_wear") == "one_side":
        words = "The bearing is worn on one side, so the strut may stand out of line."
        yield Mismatch(("bearing_wear",), words)
    elif struck and lifts(case):
        words = "After a strike the shaft lifts far in its bearing, so the strut may be bent."
        yield Mismatch(("reason", "bearing_play"), words)
    elif struck:
        words = "After a strike the yard sights the strut before the shaft is fitted."
        yield Mismatch(("reason",), words, severity=Severity.NOTE)


def lifts(case: Case) -> bool:
    """True where the shaft's play in the strut is past what a sound bearing has."""
    play = case.sheet.length("bearing_play")
    return play is not None and play > case.limits.play_worn


def journal_wear_nm(case: Case) -> tuple[int, float] | None:
    """Clean stretch less journal, and the standard uncertainty of that, in nanometres."""
    clean = case.sheet.readings.get("dia_clean")
    journal = case.sheet.readings.get("dia_journal")
    if clean is None or journal is None:
        return None
    u = (clean.u_nm**2 + journal.u_nm**2) ** 0.5
    return clean.length.nm - journal.length.nm, u


@lru_cache(maxsize=1024)
def hours_in(text: str) -> int | None:
    """Hours where the text is a number of hours; None for seasons and other words.

    >>> hours_in("about 350 h"), hours_in("three seasons"), hours_in("4 seasons")
    (350, None, None)
    """
    found = _HOURS.fullmatch(text.strip())
    return int(found[1]) if found else None


CHECKS = (
    an_old_bearing_is_changed_with_the_shaft,
    the_shaft_sits_in_its_bearing,
    the_strut_stands_where_it_stood,
)
