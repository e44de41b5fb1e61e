"""What doubt and rounding cost, against the published arithmetic."""

from __future__ import annotations

from typing import Any

import pytest

from catalog.domain.lengths import inches
from intake.domain.fit import Band, fit_probability
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.loosest import loosest_answers
from tests.given import a_case, fired, judged
from tests.intake.checks.examples.given import NO_HUB, NO_OLD, tape

BAND = Band(inches("1/2"), inches("3/4"), inches(1))


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


def test_the_share_of_the_band_is_what_lands_97_in_a_hundred() -> None:
    """0.115 in of a half band of 1/4 in; 0.128 lands 95 (JCGM 106, two-sided)."""
    u = DEFAULT_LIMITS.u_share_of_half_band * inches("1/4").nm
    assert u == pytest.approx(inches("0.115").nm)
    assert fit_probability(BAND.goal.nm, u, BAND) == pytest.approx(0.97, abs=0.001)
    assert fit_probability(BAND.goal.nm, inches("0.128").nm, BAND) == pytest.approx(0.95, abs=0.002)


@pytest.mark.parametrize(
    ("answers", "named"),
    [
        ({"without": (*NO_OLD, *NO_HUB)}, ("hub_length",)),
        ({"without": ("face_to_strut_aft",), "gap_now": tape("3/4", "eye")}, ("gap_now",)),
        (
            {
                "without": (*NO_OLD, "tail_to_thread"),
                "face_to_strut_aft": tape("44 1/8", "pieces"),
            },
            ("face_to_strut_aft",),
        ),
    ],
)
def test_the_loosest_answer_is_named(answers: dict[str, Any], named: tuple[str, ...]) -> None:
    (found,) = (f for f in judged(**answers).findings if f.check == "u-budget")
    assert (found.severity.value, found.answers) == ("note", named)


def test_without_a_length_nothing_is_loose() -> None:
    case = a_case(without=("face_to_strut_aft", *NO_OLD))
    assert loosest_answers(case, 1) == ()


@pytest.mark.parametrize(
    ("strut", "rounding", "longer"),
    [
        ("44 1/8", None, None),  # on its mark
        ("44 3/16", "note", None),  # a sixteenth off costs; a tie went long already
        ("44 5/32", None, "note"),  # cut a thirty-second short
        ("44 7/32", None, None),  # cut a thirty-second long
    ],
)
def test_a_doubtful_length_is_better_a_touch_long(
    strut: str, rounding: str | None, longer: str | None
) -> None:
    """Rod, tail and a gap by eye: u = 0.133 in, which leans by 0.034."""
    answers = {
        "without": (*NO_OLD, "hub_length"),
        "face_to_strut_aft": tape(strut, "rod"),
        "gap_now": tape("3/4", "eye"),
    }
    assert said("rounding-worth", **answers) == rounding
    assert said("round-long", **answers) == longer


@pytest.mark.parametrize("strut", ["44 1/8", "44 5/32", "44 3/16", "44 7/32"])
def test_a_sure_length_is_rounded_without_a_word(strut: str) -> None:
    found = fired(judged(face_to_strut_aft=tape(strut, "rod"), without=NO_OLD))
    assert not {"u-budget", "rounding-worth", "round-long"} & set(found)
