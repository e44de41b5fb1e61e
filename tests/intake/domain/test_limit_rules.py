"""Severity by check and answers that are a must: what is kept, what is refused, what it does."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.checks import BY_ID
from intake.domain.grading import regraded
from intake.domain.history import History
from intake.domain.limit_rules import rule_label, rule_names
from intake.domain.limit_values import LimitErrors, changed_values, limits_from, read_values
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.verdict import Call, Finding, Severity
from intake.evaluate import evaluate, fingerprint
from tests.given import a_sheet, demo_stock

NOTHING = History()
LOG = {"log_id": {"text": "1 15/64", "method": "caliper"}}
BURNT = {"face_to_strut_aft": {"text": "450", "method": "rod"}}  # outside the range


def judged(values: dict[str, str], history: History = NOTHING, **answers: object):
    sheet = a_sheet(**answers)
    return evaluate(sheet, demo_stock(), history, limits_from("desk 1", values, {}))


def severity(verdict, check: str) -> str:
    return next((f.severity.value for f in verdict.findings if f.check == check), "")


# --- Kept -------------------------------------------------------------------------------


def test_rules_are_kept_beside_numbers_and_read_back() -> None:
    typed = {"severity:log-clearance": "note", "needed:fuel": "yes", "fit_ask": "0.98"}
    kept = read_values(typed, DEFAULT_LIMITS)
    assert kept == typed
    limits = limits_from("desk 1", kept, {})
    assert limits.severities == {"log-clearance": "note"}
    assert limits.needed == ("fuel",)
    assert changed_values(limits) == kept


def test_the_usual_severity_and_no_take_a_rule_back() -> None:
    limits = limits_from("desk 1", {"severity:log-clearance": "stop", "needed:fuel": "yes"}, {})
    usual = BY_ID["log-clearance"].severity.value
    assert read_values({"severity:log-clearance": usual, "needed:fuel": "no"}, limits) == {}
    assert read_values({"severity:log-clearance": "", "needed:fuel": ""}, limits) == {}
    assert set(read_values({}, limits)) == {"severity:log-clearance", "needed:fuel"}


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("severity:log-clearance", "loud", "stop, ask, note, off"),
        ("severity:no-such-check", "ask", "no rule called"),
        ("needed:no_such_question", "yes", "no rule called"),
        ("needed:role", "yes", "no rule called"),
        ("needed:fuel", "perhaps", "yes or no"),
        ("severity:missing-critical", "off", "stays stop or ask"),
        ("severity:missing-critical", "note", "stays stop or ask"),
    ],
)
def test_what_makes_no_sense_is_refused_with_a_sentence(name: str, text: str, said: str) -> None:
    with pytest.raises(LimitErrors) as caught:
        read_values({name: text}, DEFAULT_LIMITS)
    assert said in caught.value.errors[name]


def test_a_stored_check_that_is_gone_is_left_out() -> None:
    limits = limits_from("old", {"severity:gone": "stop", "needed:gone": "yes"}, {})
    assert (limits.severities, limits.needed) == ({}, ())


def test_every_rule_has_words() -> None:
    assert len(set(map(rule_label, rule_names()))) == len(rule_names())


# --- Severity ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wanted", "call"), [("stop", "stop"), ("ask", "ask"), ("note", "note"), ("off", "")]
)
def test_a_check_is_as_severe_as_the_set_has_it(wanted: str, call: str) -> None:
    assert severity(judged({}, **LOG), "log-clearance") == "ask"
    found = judged({"severity:log-clearance": wanted}, **LOG)
    assert severity(found, "log-clearance") == call
    assert (found.verdict == Call.RELEASE) is (wanted in ("note", "off"))


@pytest.mark.parametrize(
    ("own", "wanted", "comes"),
    [
        ("stop", "note", "ask"),  # graded a stop: one step down with the rest
        ("ask", "note", "note"),
        ("note", "note", "note"),  # never below a note
        ("note", "stop", "ask"),
        ("stop", "stop", "stop"),  # never beyond a stop
    ],
)
def test_a_check_that_grades_keeps_its_steps(own: str, wanted: str, comes: str) -> None:
    assert BY_ID["log-clearance"].severity is Severity.ASK
    finding = Finding("log-clearance", Severity(own), ("shaft",), "", "", ("log_id",), "")
    assert regraded(finding, {"log-clearance": wanted}).severity.value == comes


def test_what_a_person_has_settled_stays_settled() -> None:
    plain = next(f for f in judged({}, **LOG).findings if f.check == "log-clearance")
    mark = fingerprint(a_sheet(**LOG), plain.answers)
    history = History(settled=frozenset({("log-clearance", mark)}))
    assert severity(judged({"severity:log-clearance": "stop"}, history, **LOG), "log-clearance") \
        == "note"  # fmt: skip


def test_a_number_that_cannot_be_is_set_aside_however_mild_its_check() -> None:
    usual, mild = judged({}, **BURNT), judged({"severity:range-single": "note"}, **BURNT)
    assert severity(usual, "range-single") == "stop"
    assert severity(mild, "range-single") == "note"
    assert mild.case.cut == usual.case.cut
    assert {f.check for f in mild.findings} == {f.check for f in usual.findings}


def test_a_check_that_is_off_is_not_asked_and_nothing_breaks() -> None:
    every = {f"severity:{name}": "off" for name in BY_ID if name != "missing-critical"}
    assert judged(every, **BURNT, **LOG).findings == ()


# --- Must be answered -------------------------------------------------------------------


def test_an_unanswered_must_holds_what_it_concerns() -> None:
    found = judged({"needed:flange_thickness": "yes", "needed:shell_od": "yes"})
    held = {f.answers: f.holds for f in found.findings if f.check == "must-be-answered"}
    assert held[("flange_thickness",)] == ("shaft", "coupling")
    assert found.verdicts["shaft"] == Call.ASK
    assert found.next_question is not None
    assert found.next_question.ask.startswith("How thick is each flange half")


def test_a_part_that_is_not_wanted_is_not_asked_about() -> None:
    sheet = replace(a_sheet(), wants=("bearing",))
    limits = limits_from("desk 1", {"needed:flange_thickness": "yes"}, {})
    checks = {f.check for f in evaluate(sheet, demo_stock(), limits=limits).findings}
    assert "must-be-answered" not in checks


def test_what_cannot_be_had_is_an_answer_and_noted() -> None:
    found = judged({"needed:log_id": "yes"}, log_id={"state": "cannot_measure"})
    assert severity(found, "must-be-answered") == "note"


def test_what_a_pass_through_alone_has_is_not_asked_of_others() -> None:
    assert severity(judged({"needed:gearbox_through": "yes"}), "must-be-answered") == ""
