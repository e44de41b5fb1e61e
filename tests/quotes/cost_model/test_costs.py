"""Costs and targets are changed from a day on, with who and why; nothing is ever edited."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone

from quotes.cost_model.models import CostSet
from quotes.cost_model.selectors import costs_on, costs_on_days
from quotes.cost_model.services import CostsOvertaken, adopt_costs
from quotes.domain.cost_fields import FIELDS, CostErrors, model_from, read_changes, shown
from quotes.domain.cost_model import USUAL
from staff.trail.selectors import changes_of
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
TODAY = date(2026, 4, 6)


def adopt(**told: Any) -> CostSet:
    person = told.pop("by", None) or a_member(f"percival{CostSet.objects.count()}", "manager")
    shown = {"name": f"change {CostSet.objects.count()}", "reason": "the van got dearer"}
    return adopt_costs(**{**shown, "from_day": TODAY, "by": person, **told})


def test_a_set_holds_from_its_day_and_the_rest_stays() -> None:
    adopt(typed={"call": "15", "recall": "92,5"})
    adopt(typed={"call": "20"}, from_day=TODAY + timedelta(days=30))
    before, on, later = costs_on_days([TODAY - timedelta(1), TODAY, TODAY + timedelta(days=30)])
    assert (before.call, on.call, later.call) == (
        Decimal("12.00"),
        Decimal("15.00"),
        Decimal("20.00"),
    )
    assert (before.recall, later.recall) == (Decimal("0.90"), Decimal("0.925"))
    assert later.shaft_too_short == USUAL.shaft_too_short


def test_each_figure_is_typed_as_it_is_shown() -> None:
    typed = {name: shown(field, getattr(USUAL, name)) for name, field in FIELDS.items()}
    assert read_changes(typed, USUAL) == {}
    assert set(FIELDS) == set(USUAL.__dataclass_fields__)
    other = model_from({"alarm_after": "4", "again": "0.2"})
    assert read_changes({"alarm_after": "4", "again": "20"}, USUAL) == {
        "alarm_after": "4",
        "again": "0.2",
    }
    assert (other.alarm_after, other.again) == (4, Decimal("0.2"))


@pytest.mark.parametrize(
    ("name", "text"),
    [("call", "twelve"), ("call", "-1"), ("call", "1e9"), ("recall", "101"), ("alarm_after", "2.5"),
     ("alarm_days", "3"), ("call", "NaN"), ("coverage", "٩٠")],
)  # fmt: skip
def test_a_figure_that_makes_no_sense_is_refused_at_its_box(name: str, text: str) -> None:
    with pytest.raises(CostErrors) as refused:
        adopt(typed={name: text})
    assert list(refused.value.errors) == [name]
    assert not CostSet.objects.exists()


def test_nothing_changed_no_name_no_reason_and_no_day_are_each_said() -> None:
    with pytest.raises(CostErrors) as refused:
        adopt(typed={"call": "12"}, name=" ", reason="", from_day=None)
    assert set(refused.value.errors) == {"name", "reason", "from_day", "values"}


def test_of_two_managers_at_once_the_second_is_told() -> None:
    adopt(typed={"call": "15"}, based_on=0)
    with pytest.raises(CostsOvertaken):
        adopt(typed={"call": "16"}, based_on=0)
    assert costs_on(TODAY).call == Decimal("15.00")


def test_who_changed_what_and_why_is_on_record() -> None:
    row = adopt(typed={"call": "15"})
    (line,) = changes_of("costs", str(row.number))
    assert line.what["One call-back"] == ["12.00", "15.00"]
    assert (line.by, line.why) == (row.adopted_by, "the van got dearer")


def test_the_page_keeps_what_was_typed_beside_what_is_wrong() -> None:
    percival = logged_in(a_member("percival", "manager"))
    sent = {"call": "a lot", "coverage": "85", "name": "spring", "reason": "", "based_on": "0",
            "from_day": timezone.localdate().isoformat()}  # fmt: skip
    page = percival.post(reverse("costs-adopt"), sent)
    assert page.status_code == 400
    text = page.content.decode()
    assert 'value="a lot"' in text
    assert 'value="85"' in text
    assert "Please write a plain number" in text
    done = percival.post(reverse("costs-adopt"), sent | {"call": "14", "reason": "dearer"})
    assert done.status_code == 302
    assert "One call-back: 14.00" in percival.get(reverse("costs")).content.decode()
