"""Tables that were sent."""

from __future__ import annotations

from django.db.models import QuerySet

from catalog.imports.models import TAKEN, PartImport
from catalog.models import CatalogVersion

_SHOWN = 50


def recent() -> list[PartImport]:
    """The newest tables, without what stood in them."""
    return list(_light().select_related("by", "undone_by")[:_SHOWN])


def one(pk: int) -> PartImport:
    """A table with its content. Raises PartImport.DoesNotExist."""
    return PartImport.objects.select_related("by").get(pk=pk)


def last_taken() -> PartImport | None:
    """The last one that stands: the only one that may be taken back."""
    return _light().filter(state=TAKEN).order_by("-taken_at", "-pk").first()


def version_now() -> str:
    """What names the catalogue as it is at this moment."""
    stamps = CatalogVersion.objects.values_list("stamp", flat=True)
    return str(next(iter(stamps[:1]), ""))


def _light() -> QuerySet[PartImport]:
    return PartImport.objects.defer("content", "did")
