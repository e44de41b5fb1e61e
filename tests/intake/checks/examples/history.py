"""For `intake/checks/history.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from catalog.domain.lengths import inches
from intake.domain.batch import Alike
from intake.domain.history import History, Misfit
from tests.intake.checks.examples.given import NO_OLD, Examples, Histories


def supplied(length: str) -> History:
    """A shaft that we supplied before and that left the gap it should."""
    return History(last_length=inches(length), fitted_gap=inches("3/4"), last_month="2026-04")


def sisters(*lengths: str) -> History:
    """Boats of the same build, by their shafts."""
    return History(family_lengths=tuple(map(inches, lengths)))


BUILD = {"hull_built_by_year": {"builder": "Pilchard & Daughters", "length": "19 ft"}}
COPIED = ("face_to_strut_aft", "old_length_face_to_thread", "gap_now", "hub_length")


def batch(*answers: str, days: int = 14) -> History:
    """Another boat of the same customer that was asked for a fortnight ago."""
    return History(batch=(Alike("FG-7K3M9Q", answers, days),))


MISFIT = History(misfit=Misfit("single", inches("3/8")))

EXAMPLES: Examples = {
    "repeat-history": ({}, {}),
    "prior-misfit": ({}, {"without": NO_OLD}),
    "hull-family-outlier": (BUILD, BUILD),
    "duplicate": ({}, {}),
    "yard-copy-paste": ({}, {}),
}
HISTORY: Histories = {
    "repeat-history": (supplied("48 3/4"), supplied("48 47/64")),
    "prior-misfit": (MISFIT, MISFIT),
    # Their middle is 47 15/16 and 47 59/64, and half of them lie within an eighth of it.
    "hull-family-outlier": (
        sisters("48", "47 3/4", "48 1/4", "48", "47 7/8"),
        sisters("47 63/64", "47 3/4", "48 1/4", "47 63/64", "47 7/8"),
    ),
    "duplicate": (History(), History(same_open=("FG-7K3M9Q",))),
    "yard-copy-paste": (batch(*COPIED[:3]), batch(*COPIED)),
}
