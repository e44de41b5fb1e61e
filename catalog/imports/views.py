"""Tables of parts come in: sent, matched, looked at, taken, taken back."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.imports import selectors, services
from catalog.imports.models import SENT, PartImport
from catalog.imports.plan import Changed, Plan
from catalog.imports.services import ImportRefused
from catalog.selectors import all_parts
from catalog.spreadsheet.reading import MOST_BYTES, NotATable, read_table
from catalog.spreadsheet.writing import write_csv, write_xlsx
from catalog.tables import COLUMNS
from staff.access import needs

may_import = needs("catalog.change_part")
_SHOWN = 200
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@may_import
@require_http_methods(["GET", "HEAD", "POST"])
def imports(request: HttpRequest) -> HttpResponse:
    """Tables so far, and a box for the next."""
    if request.method != "POST":
        return _list(request)
    sent = request.FILES.get("table")
    if sent is None:
        return _list(request, "Choose a file first: CSV or XLSX.", 400)
    if (sent.size or 0) > MOST_BYTES:
        return _list(request, f"The file is too large; at most {MOST_BYTES // 1_000_000} MB.", 400)
    name = (sent.name or "table").replace("\x00", "")
    try:
        table = services.send(name=name, content=sent.read(), by=cast("User", request.user))
    except (NotATable, ImportRefused) as refused:
        return _list(request, f"{name[:80]}: {refused}", 400)
    return redirect("import", pk=table.pk)


def _list(request: HttpRequest, wrong: str = "", status: int = 200) -> HttpResponse:
    last = selectors.last_taken()
    context = {
        "tables": selectors.recent(),
        "last": last.pk if last else 0,
        "wrong": wrong,
        "columns": COLUMNS,
        "most_rows": services.MOST_ROWS,
    }
    return render(request, "catalog/imports.html", context, status=status)


@may_import
@require_safe
def one_import(request: HttpRequest, pk: int) -> HttpResponse:
    """The preview of one table."""
    return _preview(request, _found(pk))


@may_import
@require_POST
def match_columns(request: HttpRequest, pk: int) -> HttpResponse:
    """Which column is which."""
    columns = {name: request.POST.get(f"column.{name}", "")[:200] for name in COLUMNS}
    services.match(table=_found(pk), columns=columns, whole=request.POST.get("whole") == "yes")
    return redirect("import", pk=pk)


@may_import
@require_POST
def take_import(request: HttpRequest, pk: int) -> HttpResponse:
    """Take it, all or nothing."""
    table = _found(pk)
    try:
        made = services.take(
            table=table,
            seen=request.POST.get("seen", "")[:64],
            why=request.POST.get("why", ""),
            by=cast("User", request.user),
        )
    except ImportRefused as refused:
        return _preview(request, table, str(refused), 409)
    words = f"{len(made.added)} added, {len(made.changed)} changed, {len(made.removed)} taken out."
    messages.success(request, words)
    return redirect("imports")


@may_import
@require_POST
def undo_import(request: HttpRequest, pk: int) -> HttpResponse:
    """Take the last one back."""
    try:
        services.undo(table=_found(pk), by=cast("User", request.user))
    except ImportRefused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "Taken back: every part is as it was.")
    return redirect("imports")


@may_import
@require_safe
def import_faults(request: HttpRequest, pk: int) -> HttpResponse:
    """Everything that is wrong with a table, cell by cell."""
    faults = services.preview(_found(pk)).faults
    rows = [(one.cell, one.column, one.message) for one in faults]
    answer = HttpResponse("".join(write_csv(("cell", "column", "what to do"), rows)))
    answer["Content-Type"] = "text/csv; charset=utf-8"
    answer["Content-Disposition"] = f'attachment; filename="faults-{pk}.csv"'
    return answer


@may_import
@require_safe
def parts_xlsx(request: HttpRequest) -> HttpResponse:
    """The catalogue as a workbook that imports back unchanged."""
    rows = [[getattr(part, column) for column in COLUMNS] for part in all_parts()]
    answer = HttpResponse(write_xlsx("Parts", COLUMNS, rows), content_type=XLSX)
    answer["Content-Disposition"] = 'attachment; filename="catalogue.xlsx"'
    return answer


def _found(pk: int) -> PartImport:
    try:
        return selectors.one(pk)
    except PartImport.DoesNotExist as error:
        raise Http404 from error


def _preview(
    request: HttpRequest, table: PartImport, wrong: str = "", status: int = 200
) -> HttpResponse:
    seen = selectors.version_now()  # before the preview is made: what comes after is found out
    read = read_table(bytes(table.content))
    made = services.preview(table) if table.state == SENT else Plan()
    context = {
        "table": table,
        "notes": read.notes,
        "matches": [(ours, table.columns.get(ours, "")) for ours in COLUMNS],
        "theirs": [name for name in read.columns if name],
        "plan": made,
        "seen": seen,
        "wrong": wrong,
        "faults": made.faults[:_SHOWN],
        "changed": _rows(made.changed[:_SHOWN]),
        "shown": _SHOWN,
        "can_be_taken": table.state == SENT and not made.faults and not made.is_nothing,
        "why": request.POST.get("why", ""),
    }
    return render(request, "catalog/import.html", context, status=status)


def _rows(changed: tuple[Changed, ...]) -> list[tuple[str, bool, str, str, str]]:
    return [
        (one.code, one.is_another_size, name, before, after)
        for one in changed
        for name, before, after in one.cells
    ]
