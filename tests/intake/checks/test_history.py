"""The desk's own records against the sheet."""

from __future__ import annotations

from catalog.domain.lengths import inches, mm
from intake.domain.history import History, Misfit
from intake.domain.verdict import Finding
from tests.given import fired, judged
from tests.intake.checks.examples.given import NO_OLD
from tests.intake.checks.examples.history import BUILD, COPIED, batch, sisters


def finding(name: str, history: History, **answers: object) -> Finding | None:
    """What one check says of a sheet with these records beside it."""
    found = judged(history, **answers).findings
    return next((each for each in found if each.check == name), None)


def test_the_gap_as_it_was_fitted_is_counted() -> None:
    """The last one was 49 1/2 and stood 1 1/4 off: half an inch too long, so 49 is right."""
    long = History(last_length=inches("49 1/2"), fitted_gap=inches("1 1/4"))
    assert finding("repeat-history", long) is None
    same = History(last_length=inches(49), fitted_gap=inches("1 1/4"))
    assert finding("repeat-history", same) is not None


def test_without_the_gap_a_last_shaft_tells_nothing() -> None:
    assert finding("repeat-history", History(last_length=inches(40))) is None


def test_the_question_names_the_month_and_not_the_length() -> None:
    last = History(last_length=inches(48), fitted_gap=inches("3/4"), last_month="2026-04")
    found = finding("repeat-history", last)
    assert found is not None
    assert found.question == "Since the shaft we sent in April 2026, what has been altered?"
    unknown = History(last_length=inches(48), fitted_gap=inches("3/4"))
    asked = finding("repeat-history", unknown)
    assert asked is not None
    assert asked.question.startswith("Since the shaft we sent in last")


def test_a_gap_that_was_guessed_is_no_second_route() -> None:
    misfit = History(misfit=Misfit("single", inches("-3/8")))
    assert finding("prior-misfit", misfit) is None
    guessed = {"gap_now": {"text": "3/4", "method": "papers"}}
    assert finding("prior-misfit", misfit, **guessed) is not None


def test_how_far_it_was_out_is_said_in_the_shafts_own_unit() -> None:
    inch = finding("prior-misfit", History(misfit=Misfit("single", inches("-3/8"))), without=NO_OLD)
    assert inch is not None
    assert inch.question.startswith("Last time we were out by 3/8 in. What shall we")
    metric = finding(
        "prior-misfit",
        History(misfit=Misfit("single", mm("8.6"))),
        without=(*NO_OLD, "tail_to_thread"),
        dia_clean={"text": "25 mm", "method": "caliper"},
        thread={"text": "M16x1.5"},
    )
    assert metric is not None
    assert metric.question.startswith("Last time we were out by 9 mm. What shall we")
    bare = finding("prior-misfit", History(misfit=Misfit("single")), without=NO_OLD)
    assert bare is not None
    assert bare.question.startswith("The last shaft did not fit. What shall we both")


def test_four_sisters_are_no_family() -> None:
    assert finding("hull-family-outlier", sisters(*["40"] * 4), **BUILD) is None
    assert finding("hull-family-outlier", sisters(*["40"] * 5), **BUILD) is not None


def test_in_a_family_that_varies_much_nobody_stands_out() -> None:
    wide = sisters("40", "44", "46", "48", "52")
    assert finding("hull-family-outlier", wide, **BUILD) is None


def test_a_batch_ends_where_its_days_end_unless_it_has_an_order_number() -> None:
    assert finding("yard-copy-paste", batch(*COPIED, days=15)) is None
    numbered = finding("yard-copy-paste", batch(*COPIED, days=0))
    assert numbered is not None
    assert numbered.answers == COPIED
    assert "FG-7K3M9Q" in numbered.message


def test_nothing_known_says_nothing() -> None:
    assert fired(judged(History(), **BUILD)) == fired(judged())
