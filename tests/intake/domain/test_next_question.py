"""The question that is offered is the one that a brute-force trial of all of them finds best.

The trial knows nothing of how the gain is reckoned: it draws what may have gone wrong, lets a
customer answer each question, has the whole sheet judged again, and looks at what fit probability
came of it for the trouble.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import pytest

from intake.domain.inquiries import INQUIRIES
from tests.given import a_body, judged

NO_OLD = ("old_length_face_to_thread",)
DRAWS = 400

# What may have gone wrong with the strut distance: inches too long, spread, weight in a thousand
# (common practice, no source), and what told the tale. Readings are halved by a rod.
SLIPS = [
    ("none", 0.0, 0.0, 722),
    ("reading", 1.0, 0.03, 17),
    ("reading", -1.0, 0.03, 8),
    ("reading", 0.25, 0.15, 6),
    ("reading", -3.0, 0.25, 4),
    ("reading", 10.0, 0.03, 6),
    ("gearbox_flange_back", 0.5, 0.08, 10),
    ("shaft_flange_aft", -0.5, 0.08, 14),
    ("hub_end", -2.5, 0.4, 8),
    ("strut", -2.0, 0.1, 12),
    ("level", -0.65, 0.3, 6),
    ("line", 0.3, 0.25, 15),
]


class Customer:
    """A customer with one drawn mistake, who answers what is asked."""

    def __init__(self, seed: int, method: str, x: float, x_u: float) -> None:
        self.rng = random.Random(seed)
        rod = method == "rod"
        weights = [
            weight * (0.5 if rod and kind == "reading" else 0.1 if rod and kind in _LINES else 1)
            for kind, _, _, weight in SLIPS
        ]
        kind, mean, spread, _ = self.rng.choices(SLIPS, weights)[0]
        self.kind, self.slip = kind, self.rng.gauss(mean, spread)
        self.method, self.typed, self.x_u = method, x, x_u
        self.true = x - self.slip - self.rng.gauss(0, x_u)

    def reading(self, repeated: float) -> float:
        return self.true + self.rng.gauss(0, self.x_u) + repeated

    def strut(self, text: float, again: float | None = None) -> dict[str, Any]:
        answer: dict[str, Any] = {"text": f"{text:.3f}", "method": self.method}
        return answer | ({"again": {"text": f"{again:.3f}"}} if again is not None else {})

    def face_to_strut_aft(self) -> dict[str, Any]:
        kept = 0.02 if self.kind == "reading" else 0.25
        repeats = self.kind != "none" and self.rng.random() < kept
        second = self.reading(self.slip if repeats else 0.0)
        if repeats or abs(second - self.typed) <= 2 * 2**0.5 * self.x_u:
            return {"face_to_strut_aft": self.strut(self.typed, second)}
        return {"face_to_strut_aft": self.strut(second, self.reading(0.0))}

    def forward_datum(self) -> dict[str, Any]:
        told = self.kind in _DATUMS and self.rng.random() < 0.75
        if not told:
            return {"forward_datum": "gearbox_face"}
        cannot = {"state": "cannot_measure"}
        hub = {"text": f"{-self.slip:.3f}", "method": "rule"} if self.kind == "hub_end" else cannot
        return {
            "forward_datum": self.kind,
            "flange_thickness": cannot,
            "hub_length_coupling": hub,
        }

    def shaft_angle(self) -> dict[str, Any]:
        told = self.kind == "level" and self.rng.random() < 0.75
        return {"shaft_angle": {"text": "10", "along": "floor" if told else "shaft"}}

    def pin_end(self) -> dict[str, Any]:
        return {"pin_end": "yes"}

    def coupling_state(self) -> dict[str, Any]:
        return {"coupling_state": "tight"}


_LINES = ("level", "line")
_DATUMS = ("gearbox_flange_back", "shaft_flange_aft", "hub_end")
SCENES: dict[str, tuple[dict[str, Any], float]] = {
    "by rod": ({"without": (*NO_OLD, "tail_to_thread")}, 0.05),
    "by one hand": (
        {
            "without": (*NO_OLD, "tail_to_thread"),
            "face_to_strut_aft": {"text": "44 1/8", "method": "tape_one_hand"},
        },
        0.08,
    ),
    "by rod, datum known": (
        {"without": (*NO_OLD, "tail_to_thread"), "forward_datum": "gearbox_face"},
        0.05,
    ),
    "read twice": (
        {
            "without": (*NO_OLD, "tail_to_thread"),
            "face_to_strut_aft": {
                "text": "44 1/8",
                "method": "tape_one_hand",
                "again": {"text": "44 1/8"},
            },
        },
        0.08,
    ),
}
ASKED: dict[str, Callable[[Customer], dict[str, Any]]] = {
    "face_to_strut_aft": Customer.face_to_strut_aft,
    "forward_datum": Customer.forward_datum,
    "shaft_angle": Customer.shaft_angle,
    "pin_end": Customer.pin_end,
    "coupling_state": Customer.coupling_state,
}


def fit_after(scene: dict[str, Any], u: float, answer: str) -> float:
    """The mean fit probability once this was asked, over many customers."""
    method = a_body(**scene)["answers"]["face_to_strut_aft"]["method"]
    total = 0.0
    for seed in range(DRAWS):
        customer = Customer(seed, method, 44.125, u)
        shaft = judged(**{**scene, **ASKED[answer](customer)}).shaft
        assert shaft is not None
        total += shaft.fit_probability
    return total / DRAWS


@pytest.mark.parametrize("name", ["by rod", "by one hand", "by rod, datum known"])
def test_the_question_offered_is_the_best_of_all_by_trial(name: str) -> None:
    scene, u = SCENES[name]
    verdict = judged(**scene)
    assert verdict.shaft is not None
    assert verdict.next_question is not None
    now = verdict.shaft.fit_probability
    minutes = {one.answer: one.minutes for one in reversed(INQUIRIES)}
    unasked = [slug for slug in ASKED if slug not in scene or slug == "face_to_strut_aft"]
    gains = {slug: fit_after(scene, u, slug) - now for slug in unasked}
    best = max(gains, key=lambda slug: gains[slug] / minutes[slug])
    assert verdict.next_question.answer == best
    assert verdict.next_question.gain == pytest.approx(gains[best], abs=0.015)


def test_a_sheet_that_is_sure_is_left_alone() -> None:
    assert judged().next_question is None


def test_two_readings_that_agree_are_not_asked_for_a_third() -> None:
    scene, _ = SCENES["read twice"]
    offered = judged(**scene).next_question
    assert offered is None or offered.answer != "face_to_strut_aft"


def test_half_an_inch_short_asks_where_the_tape_started() -> None:
    short = judged(face_to_strut_aft={"text": "43 5/8", "method": "rod"})
    assert short.next_question is not None
    assert short.next_question.answer == "forward_datum"
    likely = short.findings[0].likely
    assert likely[0]["cause"] == "D-CBACK"
    assert sum(cause["probability"] for cause in likely) <= 1.0
