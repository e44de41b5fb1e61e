"""The diameter against its tools, its second spot and its witnesses, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from catalog.domain.lengths import inches
from intake.domain.history import History
from tests.given import fired, judged
from tests.intake.checks.examples.given import tape

THREAD = {"text": "3/4-10"}
MILLIMETRES = {"top": {"tape_unit": "mm"}}


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


def about_the_size(**answers: Any) -> dict[str, str]:
    """Everything that is asked or noted about the diameter and its witnesses."""
    found = fired(judged(**answers))
    return {name: grade for name, grade in found.items() if name.startswith("dia-")}


@pytest.mark.parametrize("method", ["caliper", "paper_strip", "wrench_32", "wrench_16"])
def test_an_inch_shaft_with_its_thread_is_settled(method: str) -> None:
    """However coarse the tool, 1 in on an inch tape with 3/4-10 is nobody's question."""
    assert about_the_size(dia_clean=tape("1", method), thread=THREAD) == {}


@pytest.mark.parametrize(
    "witness",
    [
        {"bearing_id_or_mark": tape("1", "mark")},
        {"keyway": {"width": "1/4"}},
        {"taper_two_dia": {"large": "1", "small": "0.828", "between": "2 3/4"}},
    ],
)
def test_each_kind_of_witness_settles_a_spanner(witness: dict[str, Any]) -> None:
    assert about_the_size(dia_clean=tape("1", "wrench_32")) == {
        "dia-inch-metric-tie": "ask",
        "dia-method-upgrade": "note",
    }
    assert about_the_size(dia_clean=tape("1", "wrench_32"), **witness) == {}


@pytest.mark.parametrize("witness", [{"bolts": {"size": "3/8-16"}}, {"coupling_bore": "straight"}])
def test_flange_bolts_and_bore_alone_do_not_settle_it(witness: dict[str, Any]) -> None:
    assert said("dia-inch-metric-tie", dia_clean=tape("1", "wrench_32"), **witness) == "ask"


def test_a_rival_is_asked_about_however_likely_the_winner_is() -> None:
    """Paper strip 0.992 on an inch tape: 1 in holds 98 %, and 25 mm is still within 2 u."""
    case = judged(dia_clean=tape("0.992", "paper_strip")).case
    assert case.diameter is not None
    assert case.diameter.probability > 0.98
    assert said("dia-inch-metric-tie", dia_clean=tape("0.992", "paper_strip")) == "ask"


def test_a_size_of_the_other_system_than_the_tape_is_always_confirmed() -> None:
    sure = {"dia_clean": tape("25.4 mm", "caliper"), "thread": THREAD, **MILLIMETRES}
    assert said("dia-inch-metric-tie", **sure) == "ask"


def test_inch_sizes_that_no_caliper_can_tell_from_metric_ones_need_a_witness() -> None:
    """1-3/8 in and 35 mm are 0.003 in apart."""
    reading = tape("1 3/8", "caliper")
    assert said("dia-inch-metric-tie", dia_clean=reading) == "ask"
    assert said("dia-inch-metric-tie", dia_clean=reading, thread={"text": "1-8"}) is None


@pytest.mark.parametrize(
    ("journal", "grade", "words"),
    [
        ("1", None, ""),
        ("0.995", None, ""),
        ("0.994", "note", "a little"),
        ("0.985", "note", "a little"),
        ("0.984", "note", "has worn in its bearing, and"),
        ("1.008", None, ""),
        ("1.009", "ask", "thicker"),
    ],
)
def test_the_second_spot_by_caliper(journal: str, grade: str | None, words: str) -> None:
    verdict = judged(dia_clean=tape("1", "caliper"), dia_journal=tape(journal, "caliper"))
    found = [f for f in verdict.findings if f.check == "dia-two-spots"]
    assert [f.severity.value for f in found] == ([grade] if grade else [])
    assert all(words in f.message for f in found)


@pytest.mark.parametrize("journal", ["61/64", "1 1/16"])
def test_what_a_spanner_cannot_tell_is_no_wear(journal: str) -> None:
    assert said("dia-two-spots", dia_journal=tape(journal, "wrench_16")) is None


@pytest.mark.parametrize(
    ("bearing", "method", "grade"),
    [
        ("1", "mark", None),
        ("1.006", "caliper", None),
        ("0.985", "plug", None),  # could be 25 mm, and could be 1 in: no quarrel with the shaft
        ("1.06", "caliper", "ask"),  # worn flutes: no size at all
        ("1 1/8", "mark", "ask"),  # one stock step
        ("1 1/4", "mark", "stop"),
        ("25 mm", "mark", "stop"),
    ],
)
def test_the_bearing_against_the_shaft(bearing: str, method: str, grade: str | None) -> None:
    assert said("dia-vs-bearing", bearing_id_or_mark=tape(bearing, method)) == grade


@pytest.mark.parametrize(
    ("bore", "grade"),
    [
        ({"kind": "straight", "size": "25.4 mm"}, None),
        ({"kind": "split", "size": "1 1/8"}, "ask"),
        ({"kind": "straight", "size": "25 mm"}, "ask"),
        ({"kind": "taper", "size": "1 1/8"}, None),
        ({"kind": "straight"}, None),
    ],
)
def test_the_coupling_bore_against_the_shaft(bore: dict[str, str], grade: str | None) -> None:
    assert said("dia-vs-coupling-bore", coupling_bore=bore) == grade


@pytest.mark.parametrize(
    ("size", "thread", "grade"),
    [
        ("1 1/8", "3/4-10", None),
        ("1 1/4", "7/8-9", None),
        ("1 1/4", "3/4-10", "ask"),
        ("1", "3/4-11", "ask"),
        ("1", "M20x1.5", "ask"),
    ],
)
def test_the_thread_against_the_size(size: str, thread: str, grade: str | None) -> None:
    found = said("dia-vs-thread", dia_clean=tape(size, "caliper"), thread={"text": thread})
    assert found == grade


def test_of_a_metric_thread_only_the_system_is_judged() -> None:
    metric = {"dia_clean": tape("25 mm", "caliper"), **MILLIMETRES}
    assert said("dia-vs-thread", **metric, thread={"text": "M18x1.5"}) is None
    assert said("dia-vs-thread", **metric, thread=THREAD) == "ask"


@pytest.mark.parametrize(
    ("reading", "method", "fires"),
    [
        ("1.011", "caliper", True),
        ("1.05", "caliper", True),
        ("1.055", "caliper", False),  # nearer to 28 mm: the size itself is asked
        ("1.03", "wrench_32", False),
        ("1.037", "wrench_32", True),
        ("0.989", "caliper", False),
    ],
)
def test_an_oversize_shaft_may_be_coated(reading: str, method: str, fires: bool) -> None:
    assert (said("dia-coated", dia_clean=tape(reading, method)) == "note") is fires


def test_a_small_shaft_by_spanner_needs_no_finer_tool() -> None:
    """Below 1 in the note says nothing: the tie itself is asked."""
    found = about_the_size(dia_clean=tape("7/8", "wrench_32"))
    assert "dia-method-upgrade" not in found
    assert found["dia-inch-metric-tie"] == "ask"


def test_without_the_shaft_the_bearing_is_named() -> None:
    """Where the size came from the bearing, that is the answer to look at again."""
    history = History(last_diameter=inches("7/8"))
    verdict = judged(history, without=("dia_clean",), bearing_id_or_mark=tape("1", "mark"))
    found = [f.answers for f in verdict.findings if f.check == "dia-changed-vs-history"]
    assert found == [("bearing_id_or_mark",)]


def test_a_boat_never_supplied_has_no_other_size() -> None:
    assert said("dia-changed-vs-history") is None
