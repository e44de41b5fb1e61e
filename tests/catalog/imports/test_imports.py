"""A table of parts: previewed, taken whole or not at all, taken back; out and in again."""

from __future__ import annotations

import io
from typing import Any

import openpyxl
import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from catalog.editing.services import cells_of, known
from catalog.imports import selectors, services
from catalog.imports.models import PartImport
from catalog.imports.services import ImportRefused
from catalog.selectors import all_parts
from catalog.services import load_catalog
from catalog.tables import COLUMNS, write_parts
from staff.trail.selectors import changes_of
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_quote
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
CODE = "BR-1000-1250-2"


@pytest.fixture
def percival() -> User:
    stock_the_shelf()
    return a_member("percival", "manager")


def everything() -> dict[str, dict[str, str]]:
    return {part.code: cells_of(part) for part in all_parts()}


def a_table(by: User, *rows: dict[str, str], heading: tuple[str, ...] = COLUMNS) -> PartImport:
    lines = [",".join(heading)] + [",".join(f'"{row.get(n, "")}"' for n in heading) for row in rows]
    return services.send(name="parts.csv", content="\r\n".join(lines).encode(), by=by)


def row(code: str = CODE, **cells: str) -> dict[str, str]:
    return {**cells_of(known(code) or known(CODE)), "code": code, **cells}


def take(table: PartImport, by: User, **told: Any) -> Any:
    shown = {"seen": selectors.version_now(), "why": "the maker's list"}
    return services.take(table=table, by=by, **{**shown, **told})


def test_the_preview_tells_what_would_change_cell_by_cell(percival: User) -> None:
    table = a_table(
        percival, row(price="50.00", shell_od="1 5/16 in"), row("BR-NEW"), row("BR-25M")
    )
    made = services.preview(table)
    assert (made.added, made.unchanged, made.removed) == (("BR-NEW",), 1, ())
    (one,) = made.changed
    assert [(name, after) for name, _before, after in one.cells] == [
        ("price", "50.00"), ("shell_od", "1 5/16 in"),
    ]  # fmt: skip
    assert one.is_another_size
    assert known("BR-NEW") is None  # nothing is changed by looking


def test_it_is_taken_whole_and_taken_back_as_it_was(percival: User) -> None:
    before = everything()
    table = a_table(percival, row(price="50.00"), row("BR-NEW"))
    take(table, percival)
    part = known(CODE)
    assert part is not None
    assert f"{part.price:.2f}" == "50.00"
    assert changes_of("part", CODE)[0].why == "the maker's list"
    services.undo(table=table, by=percival)
    assert everything() == before
    with pytest.raises(ImportRefused):
        services.undo(table=table, by=percival)


def test_one_fault_in_the_last_row_and_nothing_is_taken(percival: User) -> None:
    before = everything()
    table = a_table(percival, row(price="50.00"), row("BR-NEW", price="a lot"))
    (fault,) = services.preview(table).faults
    assert (fault.cell, fault.column) == (f"{chr(65 + COLUMNS.index('price'))}3", "price")
    with pytest.raises(ImportRefused):
        take(table, percival)
    assert everything() == before
    assert PartImport.objects.get().state == "sent"


def test_columns_of_other_names_are_matched_by_hand_and_missing_ones_keep_theirs(
    percival: User,
) -> None:
    cells = {"Part No": CODE, "PRICE ": "51.00"}
    table = a_table(percival, cells, heading=("Part No", "PRICE "))
    assert services.preview(table).faults[0].column == "code"
    services.match(table=table, columns={"code": "Part No", "price": "PRICE"}, whole=False)
    (one,) = services.preview(table).changed
    assert [name for name, _b, _a in one.cells] == ["price"]


def test_a_whole_list_takes_out_what_is_not_in_it_unless_something_rests_on_it(
    percival: User,
) -> None:
    quote = a_quote()
    table = a_table(percival, row(price="52.00"))
    services.match(table=table, columns=table.columns, whole=True)
    assert len(services.preview(table).removed) == len(everything()) - 1
    before = everything()
    with pytest.raises(ImportRefused, match="cannot go"):
        take(table, percival)
    assert everything() == before
    assert quote.number


def test_a_catalogue_that_moved_since_is_looked_at_again(percival: User) -> None:
    table = a_table(percival, row(price="50.00"))
    seen = selectors.version_now()
    load_catalog([row("BR-25M", price="99.00")], why="somebody else")
    with pytest.raises(ImportRefused, match="has changed since"):
        take(table, percival, seen=seen)
    take(table, percival)
    with pytest.raises(ImportRefused, match="taken already"):
        take(table, percival)


def test_what_was_changed_since_is_not_taken_back(percival: User) -> None:
    table = a_table(percival, row(price="50.00"))
    take(table, percival)
    load_catalog([row(price="60.00")], why="dearer still")
    with pytest.raises(ImportRefused, match="was changed since"):
        services.undo(table=table, by=percival)


@pytest.mark.parametrize("address", ["catalog-csv", "catalog-xlsx"])
def test_what_goes_out_comes_back_in_unchanged(percival: User, address: str) -> None:
    content = logged_in(percival).get(reverse(address)).content
    table = services.send(name="again", content=content, by=percival)
    made = services.preview(table)
    assert (made.faults, made.added, made.changed) == ((), (), ())
    assert made.unchanged == len(everything())


def test_the_table_of_the_package_and_its_workbook_are_the_same(percival: User) -> None:
    text = write_parts(all_parts())
    book = openpyxl.load_workbook(
        io.BytesIO(logged_in(percival).get(reverse("catalog-xlsx")).content)
    )
    assert book.active.max_row == len(text.strip().splitlines())


def test_it_is_done_on_its_pages_and_nothing_typed_is_lost(percival: User) -> None:
    client: Client = logged_in(percival)
    sent = SimpleUploadedFile("parts.xls", b"\xd0\xcf\x11\xe0old")
    page = client.post(reverse("imports"), {"table": sent})
    assert page.status_code == 400
    assert "old or a locked workbook" in page.content.decode()
    text = "code,price\n" + CODE + ",a lot\n"
    done = client.post(reverse("imports"), {"table": SimpleUploadedFile("p.csv", text.encode())})
    page = client.get(done["Location"])
    assert "B2" in page.content.decode()
    faults = client.get(reverse("import-faults", args=[PartImport.objects.get().pk]))
    assert b"B2,price" in faults.content
    text = "code,price\n" + CODE + ",50.00\n"
    done = client.post(reverse("imports"), {"table": SimpleUploadedFile("p.csv", text.encode())})
    table = PartImport.objects.first()
    assert table is not None
    page = client.post(reverse("import-take", args=[table.pk]), {"seen": "old", "why": "dearer"})
    assert page.status_code == 409
    assert 'value="dearer"' in page.content.decode()
    seen = page.context["seen"]
    client.post(reverse("import-take", args=[table.pk]), {"seen": seen, "why": "dearer"})
    assert known(CODE) is not None
    client.post(reverse("import-undo", args=[table.pk]))
    assert PartImport.objects.get(pk=table.pk).state == "undone"
