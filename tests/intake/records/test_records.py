"""What is known beside a sheet: shafts supplied before, how they fitted, and the other side."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from catalog.domain.lengths import Length, inches
from intake import selectors, services
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet
from intake.models import ShaftFitted, Submission
from tests.intake.bodies import PHONE, a_body

pytestmark = pytest.mark.django_db

SIDES = ("port", "starboard", "centre")
BUILD = {"builder": "Pilchard & Daughters", "length": "19 ft"}
OTHER_PHONE = "+1 202 555 0199"


def a_side(station: str, *, job: str = "", boat: str = "Biscuit Barrel", **answers: Any) -> Any:
    """The plain boat's body as one shaft of several."""
    named = {"boat_name_and_station": {"name": boat, "station": station}}
    return {**a_body(**{**named, **answers}), "job": job}


def sheet(**changes: Any) -> Sheet:
    return read_sheet(a_body(**changes))


def supplied(
    body: dict[str, Any] | None = None,
    *,
    length: str = "49",
    gap: str = "",
    misfit: bool | None = None,
    sent: date | None = None,
) -> Submission:
    """A request of before, its shaft made and fitted, and closed."""
    submission = services.receive_submission(body=body or a_body())
    services.record_fit(
        submission=submission,
        length=inches(length),
        diameter=inches(1),
        alloy="S20910",
        gap=inches(gap) if gap else None,
        misfit=misfit,
        sent=sent,
    )
    services.close(submission=submission, reason="done")
    return submission


def test_a_newcomer_has_no_history_but_a_day() -> None:
    facts = selectors.history_facts(sheet())
    assert facts.today == timezone.localdate()
    assert (facts.last_length, facts.misfit, facts.sister, facts.family_lengths) == (
        None,
        None,
        None,
        (),
    )


def test_the_last_shaft_of_this_side_is_known_with_its_gap() -> None:
    supplied(length="48 1/2", sent=date(2024, 4, 2))
    supplied(length="49", gap="13/16", sent=date(2025, 4, 2))
    facts = selectors.history_facts(sheet())
    assert facts.last_length == inches(49)
    assert facts.fitted_gap == inches("13/16")
    assert facts.last_diameter == inches(1)
    assert (facts.last_alloy, facts.last_month) == ("S20910", "2025-04")
    assert facts.misfit is None
    assert facts.fitted_orders == 1  # of the other nobody told us how it fitted


def test_what_is_told_later_counts_and_takes_nothing_back() -> None:
    before = supplied(length="49", sent=date(2026, 4, 2))
    services.record_fit(submission=before, length=inches(49), diameter=inches(1), gap=inches("5/8"))
    facts = selectors.history_facts(sheet())
    assert facts.fitted_gap == inches("5/8")
    assert ShaftFitted.objects.count() == 2


@pytest.mark.parametrize(
    ("gap", "off"), [("1/2", None), ("31/64", "-17/64"), ("1", None), ("1 1/64", "17/64")]
)
def test_a_gap_outside_its_band_is_a_misfit(gap: str, off: str | None) -> None:
    supplied(gap=gap)
    misfit = selectors.history_facts(sheet()).misfit
    assert (misfit.off if misfit else None) == (inches(off) if off else None)


def test_a_misfit_may_be_told_without_a_gap() -> None:
    supplied(misfit=True)
    misfit = selectors.history_facts(sheet()).misfit
    assert misfit is not None
    assert misfit.off is None


def test_another_contact_has_another_history() -> None:
    supplied(gap="2")
    stranger = selectors.history_facts(sheet(phone=OTHER_PHONE))
    assert (stranger.last_length, stranger.misfit) == (None, None)


def test_whoever_measured_a_misfit_is_known_on_another_boat_for_a_year() -> None:
    today = timezone.localdate()
    supplied(gap="2", sent=today - timedelta(days=300))
    facts = selectors.history_facts(sheet(boat="Otter"))
    assert facts.misfit is not None
    assert facts.last_length is None
    ShaftFitted.objects.update(month="2020-01")
    assert selectors.history_facts(sheet(boat="Otter")).misfit is None
    assert selectors.history_facts(sheet()).misfit is not None


def test_the_sides_are_told_as_long_as_they_should_have_been() -> None:
    supplied(a_side("port"), length="49", gap="3/4")
    supplied(a_side("starboard"), length="49 1/2", gap="7/8")
    facts = selectors.history_facts(read_sheet(a_side("port")))
    assert dict(facts.last_by_side) == {"port": inches(49), "starboard": inches("49 3/8")}
    assert facts.last_length == inches(49)


def test_boats_of_one_build_are_a_family_whoever_owns_them() -> None:
    built = {"hull_built_by_year": BUILD}
    for number in range(5):
        phone = f"+1 202 555 010{number}"
        supplied(a_body(boat=f"Sister {number}", phone=phone, **built), length=f"4{number}")
    supplied(a_body(boat="Odd one", **built), length="60", misfit=True)
    supplied(a_body(boat="Stranger"), length="70")
    written = {"hull_built_by_year": {"builder": " pilchard  & DAUGHTERS", "length": "19 FT"}}
    facts = selectors.history_facts(sheet(**written))
    assert sorted(facts.family_lengths) == [inches(40 + number) for number in range(5)]
    assert selectors.history_facts(sheet()).family_lengths == ()
    own = selectors.history_facts(sheet(boat="Sister 0", phone="+1 202 555 0100", **built))
    assert sorted(own.family_lengths) == [inches(40 + number) for number in range(1, 5)]


def test_a_recheck_is_not_held_against_itself() -> None:
    own = supplied(gap="2")
    facts = selectors.history_facts(sheet(), exclude=own)
    assert (facts.last_length, facts.misfit) == (None, None)


# --- The other side -------------------------------------------------------------------


def test_the_second_side_is_judged_with_the_first_as_a_fact() -> None:
    port = services.receive_submission(body=a_side("port", job="PO 7741", rotation="right"))
    starboard = services.receive_submission(
        body=a_side("starboard", job="PO 7741", rotation="right")
    )
    assert (port.verdict, starboard.verdict) == ("release", "ask")
    asked = [finding["check"] for finding in starboard.current.outcome["findings"]]
    assert asked == ["twin-rotation"]


def test_the_first_side_keeps_its_verdict_until_it_is_judged_again() -> None:
    port = services.receive_submission(body=a_side("port", job="PO 7741", rotation="right"))
    services.receive_submission(body=a_side("starboard", job="PO 7741", rotation="right"))
    port.refresh_from_db()
    assert (port.verdict, port.sheets.count()) == ("release", 1)
    facts = selectors.history_facts(read_sheet(port.current.body), exclude=port)
    assert facts.sister_station == "starboard"


def test_the_current_sheet_of_the_newest_other_side_counts() -> None:
    services.receive_submission(body=a_side("port", hub_length="2 3/4"))
    newest = services.receive_submission(body=a_side("port", hub_length="3"))
    facts = selectors.history_facts(read_sheet(a_side("starboard")))
    assert facts.sister is not None
    assert facts.sister.length("hub_length") == inches(3)
    services.close(submission=newest, reason="typed twice")
    again = selectors.history_facts(read_sheet(a_side("starboard")))
    assert again.sister is not None
    assert again.sister.length("hub_length") == inches("2 3/4")


@pytest.mark.parametrize(
    "other",
    [
        a_side("starboard", job="PO 1"),
        a_side("starboard", boat="Otter"),
        a_side("port"),
        a_side("single"),
        {**a_side("starboard"), "contact": {"name": "Hob", "phone": OTHER_PHONE}},
    ],
)
def test_another_job_boat_or_contact_is_no_pair(other: dict[str, Any]) -> None:
    services.receive_submission(body=a_side("port"))
    facts = selectors.history_facts(read_sheet(other))
    assert (facts.sister, facts.sister_station) == (None, "")


def test_a_sister_that_cannot_be_read_any_more_is_not_known() -> None:
    port = services.receive_submission(body=a_side("port"))
    version = port.current
    version.body = {**version.body, "answers": {"no_longer_asked": "3"}}
    version.save()
    assert selectors.history_facts(read_sheet(a_side("starboard"))).sister is None


def test_the_other_side_travels_with_a_dry_check() -> None:
    same = a_side("starboard", rotation="left")
    alone = services.dry_check(body=same)
    sister = {"station": "port", "answers": {"rotation": "left"}}
    beside = services.dry_check(body={**same, "sister": sister})
    assert (alone.verdict, beside.verdict) == ("release", "ask")
    assert [finding.check for finding in beside.findings] == ["twin-rotation"]
    assert not Submission.objects.exists()


# --- What it costs --------------------------------------------------------------------


def test_the_look_up_costs_one_query_and_a_pair_one_more(django_assert_num_queries: Any) -> None:
    built = {"hull_built_by_year": BUILD}
    plain, twin = sheet(**built), read_sheet(a_side("starboard", **built))
    with django_assert_num_queries(1):
        selectors.history_facts(plain)
    for number in range(3):
        supplied(a_body(boat=f"Sister {number}", **built), gap="3/4")
        supplied(a_side("port", **built), gap="3/4")
        services.receive_submission(body=a_side("port", **built))
    with django_assert_num_queries(1):
        assert selectors.history_facts(plain).family_lengths
    with django_assert_num_queries(2):
        facts = selectors.history_facts(twin)
    assert facts.sister is not None
    assert len(facts.family_lengths) == 3


def test_a_sheet_of_nobody_costs_nothing(django_assert_num_queries: Any) -> None:
    nobody = read_sheet({"wants": ["shaft"], "answers": {}})
    with django_assert_num_queries(0):
        assert selectors.history_facts(nobody).same_open == ()


def test_lengths_come_back_to_the_nanometre() -> None:
    odd = Length(1_234_567_891)
    submission = services.receive_submission(body=a_body(phone=PHONE))
    services.record_fit(submission=submission, length=odd, diameter=inches(1))
    services.close(submission=submission, reason="done")
    assert selectors.history_facts(sheet()).last_length == odd
