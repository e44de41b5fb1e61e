"""What helps: exact lengths, and a gap that is worked out, never guessed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from quotes.domain.remedy import LIMITS, Misfit, advise, shorten_card, stepped

# The band of a 1 in shaft: 1/2 least, 3/4 goal, 1 most (common practice, no source).
SHORT = Misfit(
    part="shaft",
    system="inch",
    length=inches(49),
    overall=inches("49 5/16"),
    least=inches("1/2"),
    goal=inches("3/4"),
    most=inches(1),
)


def fitted(gap: str) -> Misfit:
    return replace(SHORT, gap=inches(gap))


def test_too_long_is_shortened_to_the_goal() -> None:
    """L = X + g + hub + nut (trade 4.3): five eighths off the shaft is five eighths off the gap."""
    found = advise(fitted("1 3/8"))
    assert (found.kind, found.by, found.gap) == ("shorten", inches("5/8"), inches("3/4"))
    assert found.length == inches("48 3/8")
    assert found.is_fair
    assert found.words == (
        "Shorten by 5/8 in: the gap becomes 3/4 in, inside the band of 1/2 in to 1 in."
    )


@pytest.mark.parametrize(
    ("gap", "kind", "by"),
    [
        ("7/16", "spacer", "5/16"),
        ("1/4", "spacer", "1/2"),
        ("0", "spacer", "3/4"),
        ("1/2", "", None),  # the ends of the band belong to it
        ("1", "", None),
        ("65/64", "shorten", "9/32"),  # 17/64 to the nearest 1/32, half a step up
    ],
)
def test_what_helps_by_the_gap(gap: str, kind: str, by: str | None) -> None:
    found = advise(fitted(gap))
    assert found.kind == kind
    assert found.by == (inches(by) if by else None)


@pytest.mark.parametrize(
    ("short_by", "kind"),
    [("1/4", "spacer"), ("1", "spacer"), ("1 1/32", "remake"), ("3", "remake")],
)
def test_a_spacer_may_do_so_much_and_no_more(short_by: str, kind: str) -> None:
    found = advise(replace(SHORT, excess=-inches(short_by)))
    assert found.kind == kind
    assert "measure it before anything is cut" in found.words
    assert found.is_fair is None
    if kind == "remake":
        assert found.length == inches(49) + inches(short_by)


def test_a_metric_shaft_goes_by_millimetres() -> None:
    metric = replace(
        SHORT, system="mm", length=mm(1250), overall=mm(1250),
        least=mm("12.7"), goal=mm(19), most=mm("25.4"),
    )  # fmt: skip
    found = advise(replace(metric, gap=mm("31.3")))
    assert (found.by, found.gap) == (mm("12.5"), mm("18.8"))
    assert advise(replace(metric, gap=mm("12.5"))).by == mm("6.5")


def test_a_wrong_part_is_swapped_and_the_shaft_left() -> None:
    for part in ("coupling", "bearing", "other"):
        assert advise(replace(fitted("1 3/8"), part=part)).kind == "swap"


def test_without_a_number_nobody_can_say() -> None:
    found = advise(SHORT)
    assert (found.kind, found.by) == ("", None)
    assert "as a number" in found.words


def test_an_end_that_is_not_plain_is_said() -> None:
    assert "ask the shop first" in advise(replace(fitted("1 3/8"), plain_end=False)).words


def test_more_than_the_whole_shaft_is_no_advice() -> None:
    assert advise(replace(SHORT, excess=inches(50))).kind == ""


gaps = st.integers(0, 400 * 1_000_000)


@given(gaps, st.sampled_from(["inch", "mm"]))
def test_after_any_remedy_the_gap_is_within_half_a_step_of_its_goal(nm: int, system: str) -> None:
    found = advise(replace(SHORT, system=system, gap=Length(nm)))
    if found.kind and found.gap is not None:
        assert abs(found.gap - SHORT.goal).nm * 2 <= LIMITS[system].step.nm
        assert found.is_fair


@given(gaps)
def test_what_is_cut_off_leaves_both_lengths(nm: int) -> None:
    found = advise(replace(SHORT, gap=Length(nm)))
    if found.kind == "shorten" and found.by is not None and found.length is not None:
        assert found.length + found.by == SHORT.length
        card = " ".join(shorten_card(SHORT, found.by))
        assert found.length.both() in card
        assert (SHORT.overall - found.by).both() in card


@given(gaps)
def test_a_step_is_nearest(nm: int) -> None:
    step = inches("1/32")
    assert abs(stepped(Length(nm), step).nm - nm) * 2 <= step.nm
