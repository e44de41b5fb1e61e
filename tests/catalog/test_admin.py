"""Keeping single parts by hand."""

from __future__ import annotations

from importlib import resources
from typing import Any

import pytest
from django.test import Client

from catalog import selectors, services
from catalog.domain.lengths import inches, mm
from catalog.models import Part

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
pytestmark = pytest.mark.django_db


@pytest.fixture
def keeper(client: Client, django_user_model: Any) -> Client:
    services.load_catalog(DEMO)
    user = django_user_model.objects.create_superuser("percival")
    client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def _form(client: Client, part: Part, **changes: str) -> Any:
    address = f"/admin/catalog/part/{part.pk}/change/"
    initial = client.get(address).context["adminform"].form
    values = {field.html_name: field.value() for field in initial}
    form = {name: "" if value is None else value for name, value in values.items()}
    return client.post(address, {**form, **changes})


def test_sizes_are_shown_and_typed_with_their_unit(keeper: Client) -> None:
    part = Part.objects.get(code="CP102M-25")
    page = keeper.get(f"/admin/catalog/part/{part.pk}/change/").content.decode()
    assert 'value="82.5 mm"' in page
    assert _form(keeper, part, bolt_circle_nm="3 1/4 in", on_hand="7").status_code == 302
    stored = selectors.stock().part("CP102M-25")
    assert stored
    assert (stored.bolt_circle, stored.bore, stored.on_hand) == (inches("3 1/4"), mm(25), 7)


def test_saving_unchanged_changes_nothing_but_the_version(keeper: Client) -> None:
    before = selectors.stock()
    for code in ("BD-025M", "BR-1125-1500-4p5", "SV-STRAIGHT-OVER"):
        assert _form(keeper, Part.objects.get(code=code)).status_code == 302
    after = selectors.stock()
    assert after.parts == before.parts
    assert after.version == before.version + 3


def test_a_size_without_a_unit_is_asked_about(keeper: Client) -> None:
    answer = _form(keeper, Part.objects.get(code="BH-1000"), diameter_nm="25")
    assert answer.status_code == 200
    assert "Inches or millimetres?" in answer.content.decode()


def test_one_part_is_taken_out(keeper: Client) -> None:
    part = Part.objects.get(code="BH-1000")
    answer = keeper.post(f"/admin/catalog/part/{part.pk}/delete/", {"post": "yes"})
    assert answer.status_code == 302
    assert selectors.stock().part("BH-1000") is None


def test_a_size_in_stock_is_never_about(keeper: Client) -> None:
    answer = _form(keeper, Part.objects.get(code="BH-1000"), diameter_nm="about 25 mm")
    assert answer.status_code == 200
    assert "one exact size" in answer.content.decode()
