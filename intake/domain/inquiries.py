"""Questions that could still make the length surer: what each would show up, and its trouble.

An inquiry is asked of a sheet whose answer to it is missing or weak. How likely it is to bring a
slip to light, and how much trouble it is to the customer, is common practice, no source.
"""

from __future__ import annotations

import fnmatch
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from intake.domain.case import Case
from intake.domain.explain import Explanation
from intake.domain.methods import uncertainty_nm
from intake.domain.sheet import Sheet

ROD = (
    "With the shaft drawn, could you pass a rod through strut and log to the flange, mark it at "
    "the strut's aft end, and measure the rod on a bench?"
)
AGAIN = (
    "Could you measure it once more from the start, holding another mark of the tape at the "
    "flange, and tell me both numbers you read?"
)


@dataclass(frozen=True, slots=True, eq=False)
class Inquiry:
    """One question, of one answer.

    ``minutes``: the customer's trouble. ``shows``: how likely it brings a slip to light, by
    "cause@reading" pattern. ``surer``: reading -> method that takes its place. ``again``: the
    reading that is read a second time. ``ask``: words of its own; empty: the question's.
    """

    answer: str
    minutes: float
    shows: Mapping[str, float]
    surer: tuple[str, str] | None = None
    again: str = ""
    ask: str = ""
    second_route: bool = False
    open_: Callable[[Sheet], bool] = field(default=lambda sheet: True)

    def shown(self, one: Explanation, least_seen_nm: float) -> float:
        """The chance that asking brings this explanation's slip to light."""
        chance = _told_by(self, one.cause, one.moves)
        if self.second_route and chance:
            # Two routes can only show what stands out of their common noise.
            far = (abs(one.mean_nm) - least_seen_nm) / (least_seen_nm / 2 * math.sqrt(2.0))
            chance *= 0.5 * (1 + math.erf(far))
        return chance


@lru_cache(maxsize=4096)
def _told_by(inquiry: Inquiry, cause: str, moves: tuple[tuple[str, float], ...]) -> float:
    """The greatest chance that any of its patterns gives for this slip."""
    chance = 0.0
    for pattern, share in inquiry.shows.items():
        wanted, _, reading = pattern.partition("@")
        touched = not reading or any(name == reading for name, _ in moves)
        if touched and fnmatch.fnmatchcase(cause, wanted):
            chance = max(chance, share)
    return chance


def _unread(slug: str) -> Callable[[Sheet], bool]:
    return lambda sheet: not sheet.has(slug) and slug not in sheet.states


def _unasked(slug: str) -> Callable[[Sheet], bool]:
    return lambda sheet: not sheet.has(slug)


def _read_once(slug: str) -> Callable[[Sheet], bool]:
    return lambda sheet: slug in sheet.readings and sheet.readings[slug].again is None


def _not_by(slug: str, *methods: str) -> Callable[[Sheet], bool]:
    def weak(sheet: Sheet) -> bool:
        reading = sheet.readings.get(slug)
        return slug not in sheet.states and (reading is None or reading.method not in methods)

    return weak


def _by(slug: str, *methods: str) -> Callable[[Sheet], bool]:
    return lambda sheet: slug in sheet.readings and sheet.readings[slug].method in methods


def _not_again_by(slug: str, method: str) -> Callable[[Sheet], bool]:
    def other(sheet: Sheet) -> bool:
        again = sheet.readings[slug].again if slug in sheet.readings else None
        return again is None or again.method != method

    return other


def _both(*conditions: Callable[[Sheet], bool]) -> Callable[[Sheet], bool]:
    return lambda sheet: all(condition(sheet) for condition in conditions)


def _has(slug: str) -> Callable[[Sheet], bool]:
    return lambda sheet: sheet.has(slug)


# Ways that measure the whole distance in one go.
_WHOLE = ("rod", "tape_helper", "tape_one_hand", "tape")
_STRUT, _OLD = "face_to_strut_aft", "old_length_face_to_thread"

INQUIRIES: tuple[Inquiry, ...] = (
    Inquiry(
        _STRUT,
        1.5,
        {"R-*@strut": 0.98, "D-*@strut": 0.75},
        again="strut",
        ask=AGAIN,
        open_=_both(_read_once(_STRUT), _by(_STRUT, *_WHOLE)),
    ),
    # Pieces and papers are no better for being read twice: another way is asked for.
    Inquiry(
        _STRUT,
        4.0,
        {"R-*@strut": 0.98, "D-*@strut": 0.75},
        surer=("strut", "rod"),
        ask=ROD,
        open_=_both(_has(_STRUT), _not_by(_STRUT, *_WHOLE), _not_again_by(_STRUT, "rod")),
    ),
    Inquiry(
        _OLD,
        1.5,
        {"R-*@old": 0.98, "D-*@old": 0.75},
        again="old",
        ask=AGAIN.replace("at the flange", "at the coupling face"),
        open_=_read_once(_OLD),
    ),
    Inquiry(
        "forward_datum",
        1.0,
        {"D-GBACK": 0.75, "D-CBACK": 0.75, "D-HUB": 0.75, "D-REAR": 0.75},
        open_=_both(_unasked("forward_datum"), _has(_STRUT)),
    ),
    Inquiry("pin_end", 0.5, {"D-PIN@old": 1.0, "D-PIN@tail": 0.75}, open_=_unasked("pin_end")),
    Inquiry(
        "coupling_state",
        0.5,
        {"G-SLID": 0.7},
        open_=_both(_unasked("coupling_state"), _has("gap_now")),
    ),
    Inquiry(
        "gap_now",
        1.5,
        {"G-ASSUME": 0.95, "G-SLID": 0.8, "G-BLADE": 0.8},
        surer=("gap", "drill_shank"),
        open_=_not_by("gap_now", "drill_shank"),
    ),
    Inquiry(
        "hub_length",
        1.5,
        {"P-RULE": 1.0, "G-*@gap": 0.9, "D-PIN@tail": 1.0},
        surer=("hub", "caliper"),
        open_=_not_by("hub_length", "caliper"),
    ),
    Inquiry(
        _OLD,
        5.0,
        {"R-*@strut": 1.0, "D-*@strut": 1.0, "P-RULE": 1.0},
        second_route=True,
        open_=_both(_unread(_OLD), _has(_STRUT), _has("gap_now")),
    ),
    Inquiry(
        _STRUT,
        6.0,
        {"R-*@old": 1.0, "D-*@old": 1.0, "G-*": 1.0, "B-MOVED": 1.0},
        second_route=True,
        open_=_unread(_STRUT),
    ),
    Inquiry(
        "changed_since_shaft",
        0.5,
        {"B-MOVED": 0.75},
        open_=_both(_unasked("changed_since_shaft"), _has(_OLD)),
    ),
    Inquiry(
        "face_to_strut_fwd",
        3.0,
        {"D-FWD": 0.9, "D-MID": 0.9},
        open_=_both(_unread("face_to_strut_fwd"), _has(_STRUT), _has("strut_barrel")),
    ),
    Inquiry(
        "strut_barrel",
        1.5,
        {"D-FWD": 0.9, "D-MID": 0.9},
        open_=_both(_unread("strut_barrel"), _has("face_to_strut_fwd")),
    ),
    Inquiry(
        "shaft_angle",
        1.0,
        {"D-SLOPE": 0.75},
        open_=_both(_unasked("shaft_angle"), _has(_STRUT)),
    ),
)


def better_u(case: Case, inquiry: Inquiry) -> dict[str, float]:
    """What the readings would move the best length by, if this were answered; only what changes."""
    if case.routes is None or case.routes.best is None:
        return {}
    moves = case.routes.best.moves
    if inquiry.again:
        now = moves.get(inquiry.again, 0.0)
        return {inquiry.again: now / math.sqrt(2.0)} if now else {}
    if inquiry.surer is None:
        return {}
    name, method = inquiry.surer
    then = uncertainty_nm(inquiry.answer, method)
    if name == "hub" and "rule" in moves:
        return {"rule": 0.0, "hub": then}
    units = dict(case.routes.units)
    now, unit = moves.get(name, 0.0), units.get(name, 0.0)
    return {name: now * then / unit} if unit > then and now else {}
