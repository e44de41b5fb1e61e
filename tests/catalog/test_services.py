"""Loading the catalogue: whole or not at all, and nobody keeps an old one."""

from __future__ import annotations

from decimal import Decimal
from importlib import resources
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from catalog import selectors, services
from catalog.domain.lengths import inches, mm
from catalog.domain.stock import Kind
from catalog.models import CatalogVersion, Part
from catalog.tables import COLUMNS, TableErrors, read_parts

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
pytestmark = pytest.mark.django_db


def a_row(**cells: str) -> dict[str, str]:
    bar = {
        "code": "B-1",
        "kind": "bar",
        "system": "inch",
        "diameter": "1",
        "price": "3.60",
        "description": "round bar",
        "per": "in",
        "stock_length": "144 in",
        "alloy": "S20910",
    }
    return {**dict.fromkeys(COLUMNS, ""), **bar, **cells}


def test_the_demo_catalogue_loads_and_comes_back_the_same() -> None:
    report = services.load_catalog(DEMO)
    assert len(report.added) == 107
    assert selectors.stock().parts == tuple(read_parts(DEMO))


def test_loading_again_changes_nothing() -> None:
    services.load_catalog(DEMO)
    before = selectors.stock()
    report = services.load_catalog(DEMO)
    assert (report.added, report.changed, report.unchanged) == ((), (), 107)
    assert selectors.stock() is before


def test_a_changed_price_is_the_only_change() -> None:
    services.load_catalog(DEMO)
    before = selectors.stock()
    report = services.load_catalog(DEMO.replace(",3.6,", ",3.75,"))
    assert report.changed == ("BH-1000",)
    after = selectors.stock()
    assert after.version == before.version + 1
    assert after.part("BH-1000").price == Decimal("3.75")  # type: ignore[union-attr]
    assert [part.code for part in after.parts] == [part.code for part in before.parts]


def test_parts_that_are_not_in_the_table_stay() -> None:
    services.load_catalog(DEMO)
    services.load_catalog([a_row(code="B-1")])
    assert len(selectors.stock().parts) == 108


def test_one_bad_row_and_nothing_is_stored() -> None:
    with pytest.raises(TableErrors) as caught:
        services.load_catalog([a_row(), a_row(code="B-2", diameter="fat"), a_row(code="")])
    assert [(error.row, error.column) for error in caught.value.errors] == [
        (3, "diameter"),
        (4, "code"),
    ]
    assert not Part.objects.exists()
    assert not CatalogVersion.objects.exists()
    assert selectors.stock().parts == ()


def test_a_change_rolled_back_is_not_remembered() -> None:
    services.load_catalog([a_row()])
    kept = selectors.stock()
    with transaction.atomic():
        services.load_catalog([a_row(code="B-2")])
        assert len(selectors.stock().parts) == 2
        transaction.set_rollback(True)
    assert selectors.stock() == kept
    services.load_catalog([a_row(code="B-3")])
    assert [part.code for part in selectors.stock().parts] == ["B-1", "B-3"]


def test_the_stock_costs_one_tiny_query(django_assert_num_queries: Any) -> None:
    services.load_catalog(DEMO)
    selectors.stock()
    with django_assert_num_queries(1):
        selectors.stock()


def test_a_load_costs_the_same_however_long(django_assert_max_num_queries: Any) -> None:
    with django_assert_max_num_queries(11):
        services.load_catalog(DEMO)


def test_the_database_itself_refuses_less_than_nothing() -> None:
    services.load_catalog([a_row(on_hand="2")])
    with pytest.raises(IntegrityError), transaction.atomic():
        Part.objects.filter(code="B-1").update(on_hand=-1)
    with pytest.raises(IntegrityError), transaction.atomic():
        Part.objects.filter(code="B-1").update(price=-1)
    with pytest.raises(IntegrityError), transaction.atomic():
        CatalogVersion.objects.create(id=2, number=1, stamp=CatalogVersion.objects.get().stamp)


def test_saving_and_removing_one_part_moves_the_version() -> None:
    services.load_catalog([a_row()])
    part = Part.objects.get()
    part.on_hand = 4
    services.save_part(part=part)
    assert selectors.stock().part("B-1").on_hand == 4  # type: ignore[union-attr]
    services.remove_part(part=part)
    assert selectors.stock().parts == ()
    assert selectors.stock().version == 3


def test_a_part_that_does_not_hold_is_not_saved() -> None:
    services.load_catalog([a_row()])
    part = Part.objects.get()
    part.price = Decimal("-1")
    with pytest.raises(ValidationError):
        services.save_part(part=part)
    assert selectors.stock().version == 1


def test_pages_go_by_code() -> None:
    services.load_catalog([a_row(code=f"B-{number:03}") for number in range(205)])
    first, more = selectors.parts_page()
    second, again = selectors.parts_page(after=more)
    third, end = selectors.parts_page(after=again, kind="bar")
    codes = [part.code for part in (*first, *second, *third)]
    assert codes == [f"B-{number:03}" for number in range(205)]
    assert end == ""


def test_sizes_are_exact() -> None:
    services.load_catalog(DEMO)
    parts = selectors.stock()
    assert parts.bars("inch", inches("1 1/8"), "S20910")[0].code == "BH-1125"
    assert parts.part("CP102M-25").bolt_circle == mm("82.5")  # type: ignore[union-attr]
    assert len(parts.of_kind(Kind.SERVICE)) == 22
