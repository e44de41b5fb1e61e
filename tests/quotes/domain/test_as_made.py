"""A finished shaft and the gap it will make: sums against the trade's own tables."""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from statistics import NormalDist
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from quotes.domain.as_made import Accepted, AsMade, Made, accepted
from quotes.domain.as_made_read import NotRead, read_as_made
from quotes.domain.as_made_verdict import Verdict, judge
from tests.quotes.stacks import a_stack

TRUE = dict.fromkeys(("coupling", "bearing", "taper"), inches("0.001"))


def promised(**changes: Any) -> Accepted:
    """A 1 in shaft of 49 in with a gap of 3/4 in, u 0.05 in (1.27 mm), by noise alone."""
    stack = a_stack(**changes)
    return accepted(
        {
            **stack,
            "gap_goal": "19.05",
            "gap_min": "12.7",
            "gap_max": "25.4",
            "u_mm": "1.27",
            **{key: changes[key] for key in changes if key in ("u_mm", "explained")},
        }
    )


def finished(text: str = "49", **measured: Any) -> AsMade:
    """Measured everywhere and true; ``text`` in inches."""
    found = AsMade(inches(text), "caliper", None, inches("0.828"), TRUE, inches("0.001"), 80)
    return replace(found, **measured)


def made(text: str = "49", **measured: Any) -> Made:
    return Made(promised(), finished(text, **measured))


@pytest.mark.parametrize("by", ["0", "1/64", "1/8", "3/16"])
def test_the_gap_moves_one_for_one_with_the_length(by: str) -> None:
    """Gap = g* + L made − L best (section 4.3 of the trade; derived)."""
    best = promised().length  # nothing was rounded: the best length is the cut one
    longer = Made(promised(), finished(length=inches(49) + inches(by)))
    assert longer.gap == inches("3/4") + (inches(49) + inches(by)) - best


def test_a_small_end_moves_the_gap_sixteen_times_on_one_in_sixteen() -> None:
    """Section 4.4: 0.005 in on diameter moves the hub 0.080 in on 1:16, 0.050 in on 1:10.

    The bore larger moves it forward; the shaft larger moves it aft, so the gap grows.
    """
    plus = made(small_end=inches("0.833"))
    assert plus.gap == inches("0.75") + inches("0.080")
    metric = replace(promised(), system="mm", small_end=(mm("19.5"), mm("19.7")))
    assert Made(metric, finished(small_end=mm("19.6") + inches("0.005"))).gap == inches("0.80")


def test_a_trial_seat_counts_instead_of_the_small_end_never_besides() -> None:
    """n is 1-3/16 in on a 1 in end (SAE J755): at 1-1/8 the hub sits 1/16 in further aft."""
    both = made(small_end=inches("0.833"), seat=inches("1 1/8"))
    assert both.gap == inches("0.75") + inches("1/16")


@given(length=st.integers(-6350, 6350), u=st.floats(0.3, 5))
def test_the_chance_is_the_normal_one_where_only_noise_is_known(length: int, u: float) -> None:
    """Against the standard library's own normal distribution."""
    wanted = promised(u_mm=str(u))
    one = Made(wanted, finished(length=inches(49) + Length(length * 1000)))
    gap, whole = 19.05 + length / 1000, hypot(u, one.shop_u_nm / 1e6)
    normal = NormalDist(gap, whole)
    assert one.fit == pytest.approx(normal.cdf(25.4) - normal.cdf(12.7), abs=1e-9)


def test_slips_of_the_sheet_stay_in_the_chance() -> None:
    """One in ten that the gap is an inch out: no length as made can promise more than 0.9."""
    wanted = promised(explained=[[0.9, 0.0, 1.0], [0.1, 25.4, 1.0]])
    assert Made(wanted, finished()).fit == pytest.approx(0.9, abs=1e-4)


# --- Verdicts -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "verdict"),
    [
        ("49", Verdict.PASS),
        ("49 1/32", Verdict.PASS),  # the limit itself passes
        ("48 31/32", Verdict.PASS),
        ("49.032", Verdict.RING),  # off, but the gap is still fair: the customer is told
        ("48.968", Verdict.RING),
        ("49 3/16", Verdict.SHORTEN),
        ("48 13/16", Verdict.SCRAP),
        ("49 5/16", Verdict.RING),  # the overall length typed for the length: look again
    ],
)
def test_the_length_alone(length: str, verdict: Verdict) -> None:
    judged = judge(made(length=_decimal(length) if "." in length else inches(length)))
    assert judged.verdict == verdict
    assert (judged.shorten_by.nm > 0) == (verdict == Verdict.SHORTEN)


def _decimal(text: str) -> Length:
    return Length(round(float(text) * 25_400_000))


def test_a_long_shaft_is_told_how_much_comes_off_and_what_that_makes() -> None:
    judged = judge(made("49 3/16"))
    assert judged.shorten_by == inches("3/16")
    said = " ".join(judged.advice)
    assert "0.188 in (4.76 mm) faced off at the coupling end" in said
    assert "the gap is then 0.750 in (19.05 mm)" in said


def test_a_short_shaft_is_never_told_to_shorten() -> None:
    judged = judge(made("48 3/4"))
    assert judged.verdict == Verdict.SCRAP
    assert "horten" not in " ".join(judged.advice).replace("short shaft", "")
    assert "cannot be mended" in " ".join(judged.advice)


@pytest.mark.parametrize(
    ("measured", "asks"),
    [
        ({"small_end": None}, "Not measured: the small end."),
        ({"runout": {"taper": inches("0.001")}}, "run-out at the coupling end, run-out at the"),
        ({"face": None}, "run-out of the coupling's face"),
        ({"contact": None}, "contact on the taper"),
        ({"small_end": inches("0.830")}, "0.827 to 0.829 in is allowed"),
    ],
)
def test_what_was_not_measured_or_is_off_its_limits_does_not_pass(
    measured: dict[str, Any], asks: str
) -> None:
    judged = judge(made(**measured))
    assert judged.verdict == Verdict.RING
    assert asks in " ".join(judged.advice)


def test_the_army_manuals_tighter_limit_is_noted_and_holds_nothing_up() -> None:
    """US Army TM 55-1905-221-14-3: run-out at either taper less than 0.003 in."""
    judged = judge(made(runout={**TRUE, "taper": inches("0.004")}))
    assert judged.verdict == Verdict.PASS
    assert "TM 55-1905-221-14-3" in judged.notes[0]


# --- What is typed ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("box", "text", "value"),
    [
        ("length", "48 31/32", inches("48 31/32")),
        ("length", "1244.6 mm", inches(49)),
        ("small_end", ".8285", Length(21_043_900)),
        ("runout_taper", "3 thou", Length(76_200)),
        ("runout_taper", "2.5 THOU", Length(63_500)),
        ("runout_taper", "0.05 mm", Length(50_000)),
        ("face", "0.0015", Length(38_100)),
        ("seat", "1 3/16", inches("1 3/16")),
    ],
)
def test_it_is_read_as_a_machinist_writes(box: str, text: str, value: Length) -> None:
    read = read_as_made({"length": "49", box: text}, promised())
    found = (read.runout or {}).get("taper") if box == "runout_taper" else getattr(read, box)
    assert found == value


@pytest.mark.parametrize(
    ("typed", "box"),
    [
        ({}, "length"),
        ({"length": "490"}, "length"),
        ({"length": "49", "small_end": "8.28"}, "small_end"),
        ({"length": "49", "runout_taper": "3"}, "runout_taper"),  # three inches are not meant
        ({"length": "49", "contact": "120"}, "contact"),
        ({"length": "49", "contact": "most"}, "contact"),
        ({"length": "49", "tool": "eye"}, "tool"),
        ({"length": "four nine", "face": "x"}, "face"),
    ],
)
def test_what_cannot_be_meant_is_refused_with_its_box(typed: dict[str, str], box: str) -> None:
    with pytest.raises(NotRead) as refused:
        read_as_made(typed, promised())
    assert box in refused.value.errors
