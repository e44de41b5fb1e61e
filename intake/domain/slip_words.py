"""What to ask about each slip: open questions that never give away the expected number."""

from __future__ import annotations

from intake.domain.case import Case
from intake.domain.explain import by_cause
from intake.domain.slips import OK

_START = "Which mark did you hold at the start, and did you take it off afterwards?"
_HOOK = "What exactly was the hook of the tape touching at the forward end?"
_AFT = "At the strut, which point did you read the tape at: metal or rubber, and which end of it?"
_LINE = "How did the tape lie between the two ends: along the shaft, level, or over something?"
_OLD_ENDS = "On the old shaft, from which point to which point did you measure?"
_GAP = "When you took the gap, what was bolted up, and what exactly did you measure between?"
_AGAIN = "Could you read the long measurement to me once more, mark by mark, from the start?"
_CHANGED = "Since that shaft went in, what has been changed or moved?"
_BOAT = "Which boat and which side did each of these numbers come from?"

ASK_ABOUT: dict[str, str] = {
    "R-BURN-X": _START,
    "R-BURN-O": _START,
    "R-TWICE": _START,
    "R-TEN": "Which printed number was against the flange?",
    "R-WHOLE": _AGAIN,
    "R-FLIP": _AGAIN,
    "R-DECFRAC": "Which mark past the whole inch was it: can you count the small marks for me?",
    "R-CASE": "When you pushed the tape case against the far side, where did you read from?",
    "R-FTIN": "How many whole feet, and then how many inches, did the tape show?",
    "R-SWAP": _AGAIN,
    "D-GBACK": _HOOK,
    "D-CBACK": _HOOK,
    "D-HUB": _HOOK,
    "D-REAR": "Which side of the gearbox was your tape against?",
    "D-OPEN": "Were the two coupling faces together as you measured, and what did the hook touch?",
    "D-FWD": _AFT,
    "D-MID": _AFT,
    "D-RUB": _AFT,
    "D-SLOPE": _LINE,
    "D-SAG": _LINE,
    "D-PIN": "Past the last thread, what is there, and where did you stop?",
    "D-TAPER": _OLD_ENDS,
    "D-END": _OLD_ENDS,
    "G-ASSUME": _GAP,
    "G-BLADE": "Which part of the propeller did your rule touch?",
    "G-SLID": _GAP,
    "P-RULE": "How long is the propeller's hub from its front face to its back face?",
    "B-MOVED": _CHANGED,
    "I-OTHER": _BOAT,
    "X": _HOOK,
}

_SHOWN = 3


def likely_slips(case: Case) -> tuple[tuple[str, float], ...]:
    """The likeliest slips of this sheet with their probabilities; "no slip" is not named."""
    found = by_cause(case.explained)
    return tuple((cause, share) for cause, share in found if cause != OK)[:_SHOWN]


def share_of(case: Case, *causes: str) -> float:
    """How likely it is that one of these slips, or forms of no slip, explains the sheet."""
    return sum(one.probability for one in case.explained if one.cause in causes)
