"""The posterior over nominal sizes: the worked figures, and what other evidence does to it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import inches, mm
from intake.domain.diameter import Diameter, judge_diameter
from intake.domain.diameter_evidence import NO_EVIDENCE, Evidence
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.methods import uncertainty_nm
from intake.domain.plates import read_thread
from intake.domain.sizes import COMMON, INCH_SIZES, METRIC_SIZES, SIZES, Size

INCH_THREAD = Evidence(thread=read_thread("3/4-10"))
METRIC_THREAD = Evidence(thread=read_thread("M16x1.5"))


def judged(text: str, method: str, unit: str | None, evidence: Evidence = NO_EVIDENCE) -> Diameter:
    u = uncertainty_nm("dia_clean", method)
    return judge_diameter(inches(text).nm, u, unit, DEFAULT_LIMITS, evidence)


# Worked by hand from the priors and the wear allowance; shares in whole percent.
@pytest.mark.parametrize(
    ("text", "method", "unit", "size", "percent", "rival_percent"),
    [
        ("0.998", "caliper", "in", "1 in", 100, 0),
        ("0.998", "caliper", "mm", "1 in", 100, 0),
        ("0.992", "paper_strip", "in", "1 in", 98, 2),
        ("0.992", "paper_strip", "mm", "25 mm", 62, 38),
        ("0.984", "wrench_32", "in", "1 in", 96, 4),
        ("0.984", "wrench_32", "mm", "25 mm", 81, 19),
        ("1 1/16", "wrench_16", "in", "1 1/8 in", 52, 1),
    ],
)
def test_the_worked_examples(
    text: str, method: str, unit: str, size: str, percent: int, rival_percent: int
) -> None:
    found = judged(text, method, unit)
    assert found.best.name == size
    assert round(100 * found.probability) == percent
    assert round(100 * found.rival_share) == rival_percent


def test_a_clean_caliper_is_sure_on_any_tape() -> None:
    assert all(judged("0.998", "caliper", unit).probability > 0.999 for unit in ("in", "mm", None))


def test_what_1_1_8_leaves_open_is_1_in() -> None:
    """46 % for 1 in: worked back from what a bearing marked 1 in makes of it, by Bayes' rule."""
    limits = DEFAULT_LIMITS
    marked = judged("1 1/16", "wrench_16", "in", Evidence(bearing=inches(1).nm))
    odds = marked.probability / (1 - marked.probability)
    odds *= 0.1 * limits.mark_slip / (1 - limits.mark_slip)
    assert marked.best.name == "1 in"
    assert odds / (1 + odds) == pytest.approx(0.46, abs=0.005)


@given(
    st.integers(17_000_000, 55_000_000),
    st.sampled_from(["caliper", "paper_strip", "wrench_32", "wrench_16", "tape_across"]),
    st.sampled_from(["in", "mm", None]),
)
def test_it_is_the_posterior_summed_over_every_size(nm: int, method: str, unit: str | None) -> None:
    """Sizes far off are left out for speed; the whole sum, written plainly, is the same.

    A reading far from every size has no posterior to speak of (its own test is below).
    """
    u = uncertainty_nm("dia_clean", method)
    found = judge_diameter(nm, u, unit, DEFAULT_LIMITS)
    spread = math.hypot(u, inches("0.003").nm)
    rarer = {("in", "mm"): 1 / 30, ("mm", "inch"): 1 / 3.2}

    def score(size: Size) -> float:
        off = (nm + inches("0.002").nm - size.diameter.nm) / spread
        return COMMON[size] * rarer.get((unit or "", size.system), 1.0) * math.exp(-off * off / 2)

    scores = {size: score(size) for size in SIZES}
    total = sum(scores.values())
    if max(scores.values()) < 1e-4:
        return
    assert found.best == max(scores, key=lambda size: scores[size])
    assert found.probability == pytest.approx(max(scores.values()) / total, abs=1e-6)


def test_a_reading_between_all_sizes_is_the_nearest_and_not_believed() -> None:
    found = judged("0.94", "caliper", "in")
    assert found.best.name == "25 mm"
    assert found.probability == 0.0


@pytest.mark.parametrize(("evidence", "size"), [(INCH_THREAD, "1 in"), (METRIC_THREAD, "25 mm")])
def test_a_thread_decides_between_the_systems(evidence: Evidence, size: str) -> None:
    found = judged("0.990", "paper_strip", "mm", evidence)
    assert found.best.name == size
    assert found.probability > 0.8
    assert found.agreed == ("thread",)


def test_a_gauge_is_worth_more_than_a_count() -> None:
    counted = judged("0.984", "wrench_32", "mm", INCH_THREAD._replace(counted=True))
    gauged = judged("0.984", "wrench_32", "mm", INCH_THREAD)
    assert gauged.probability > counted.probability > 0.5


@pytest.mark.parametrize(
    ("said", "of"),
    [("3/4-11", "peaks counted for gaps"), ("11/16-10", "a worn crest")],
)
def test_a_known_slip_of_the_thread_still_speaks_for_its_size(said: str, of: str) -> None:
    """A thread that 1 and 1-1/8 in would be misread as weighs more for 1 in than for 7/8 in."""
    slipped = Evidence(thread=read_thread(said), counted=True)
    foreign = Evidence(thread=read_thread("1-8"), counted=True)
    reading = ("0.945", "tape_across", "in")
    assert judged(*reading, slipped).probability > judged(*reading, foreign).probability, of


@pytest.mark.parametrize(
    ("evidence", "size", "kind"),
    [
        (Evidence(large=inches(1).nm, small=inches("0.828").nm, between=inches("2 3/4").nm),
         "1 in", "taper"),
        (Evidence(large=mm(25).nm, small=mm("19.6").nm, between=mm(54).nm), "25 mm", "taper"),
        (Evidence(key=inches("1/4").nm), "1 in", "keyway"),
        (Evidence(key=mm(6).nm), "25 mm", "keyway"),
        (Evidence(bearing=inches(1).nm), "1 in", "mark"),
        (Evidence(bearing=mm(25).nm), "25 mm", "mark"),
    ],
)  # fmt: skip
def test_taper_key_and_mark_each_speak(evidence: Evidence, size: str, kind: str) -> None:
    found = judged("0.990", "wrench_32", None, evidence)
    assert found.best.name == size
    assert found.agreed == (kind,)


@pytest.mark.parametrize(
    "evidence",
    [
        Evidence(key=inches("0.243").nm),  # as near to 6 mm as to 1/4 in
        Evidence(bearing=inches("0.992").nm, bearing_u=float(inches("0.01").nm)),
        Evidence(bolts="inch"),
        Evidence(bore=inches(1).nm),
        Evidence(large=inches(1).nm, small=inches("0.776").nm, between=inches("2 3/4").nm),
    ],
)
def test_what_fits_both_settles_nothing(evidence: Evidence) -> None:
    """Bolts are the gearbox's and a bore is one more reading: both weigh, neither settles."""
    assert judged("1", "wrench_32", "in", evidence).agreed == ()


@pytest.mark.parametrize(("bolts", "size"), [("inch", "1 in"), ("mm", "25 mm")])
def test_flange_bolts_weigh_where_nothing_else_does(bolts: str, size: str) -> None:
    assert judged("0.9985", "wrench_32", None, Evidence(bolts=bolts)).best.name == size


def test_a_coupling_bore_and_a_small_end_weigh() -> None:
    coarse = ("1 1/16", "wrench_16", "in")
    assert judged(*coarse, Evidence(bore=inches(1).nm)).best.name == "1 in"
    assert judged(*coarse, Evidence(small=inches("0.930").nm)).probability > 0.8


def test_evidence_does_not_move_a_clean_caliper() -> None:
    found = judged("1", "caliper", "in", Evidence(thread=read_thread("5/8-11")))
    assert found.best.name == "1 in"
    assert found.probability > 0.99


def test_two_sets_of_limits_are_two() -> None:
    """What is kept for one set is not given out for another that differs in one group only."""
    rare = replace(DEFAULT_LIMITS, metric_rarer=1.0)
    plain = judge_diameter(inches("0.984").nm, float(inches("0.018").nm), "in", DEFAULT_LIMITS)
    equal = judge_diameter(inches("0.984").nm, float(inches("0.018").nm), "in", rare)
    assert rare != DEFAULT_LIMITS
    assert equal.probability < plain.probability


def test_every_size_has_a_share_and_a_place() -> None:
    assert set(SIZES) == set(INCH_SIZES) | set(METRIC_SIZES) == set(COMMON)
    assert list(SIZES) == sorted(SIZES, key=lambda size: size.diameter)
