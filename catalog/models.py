"""What we stock: parts with exact sizes, and the version every reader's cache goes by.

Only services write these rows, only selectors read them.
"""

from __future__ import annotations

from typing import Any

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind, StockPart
from catalog.imports.models import PartImport as PartImport
from catalog.pieces import models as piece_models  # noqa: F401  (Django looks for models here)
from catalog.prices.models import PartPrice as PartPrice

KINDS = [
    (Kind.BAR.value, _("bar")),
    (Kind.BLANK.value, _("blank")),
    (Kind.COUPLING.value, _("coupling")),
    (Kind.BEARING.value, _("bearing")),
    (Kind.HARDWARE.value, _("hardware")),
    (Kind.SERVICE.value, _("service")),
]
SYSTEMS = [("inch", _("inch")), ("mm", _("metric")), ("both", _("both"))]
PER = [
    ("in", _("inch")),
    ("mm", _("millimetre")),
    ("each", _("each")),
    ("set", _("set")),
    ("end", _("end")),
]
DIRECTIONS = [("aft", _("aft")), ("forward", _("forward"))]
SIZES = ("diameter", "stock_length", "flange_od", "bolt_circle", "bore", "shell_od", "length")
WORDS = ("code", "system", "description", "price", "per", "on_hand", "alloy", "direction", "shell")


def _size(label: Any) -> models.BigIntegerField[int | None, int | None]:
    return models.BigIntegerField(label, null=True, blank=True)


class Part(models.Model):
    """One line of the catalogue. Sizes are whole nanometres; no value means it has none."""

    code = models.CharField(_("code"), max_length=40, unique=True)
    kind = models.CharField(_("kind"), max_length=10, choices=KINDS)
    system = models.CharField(_("system"), max_length=4, choices=SYSTEMS)
    diameter_nm = _size(_("diameter"))
    description = models.CharField(_("description"), max_length=200)
    price = models.DecimalField(_("price"), max_digits=12, decimal_places=4)
    per = models.CharField(_("per"), max_length=4, choices=PER)
    stock_length_nm = _size(_("stock length"))
    on_hand = models.IntegerField(_("on hand"), null=True, blank=True)
    # Of those on hand: promised to accepted quotes. Moved by those who hold and take alone.
    held = models.IntegerField(_("held"), default=0, editable=False)
    alloy = models.CharField(_("alloy"), max_length=20, blank=True)
    flange_od_nm = _size(_("flange outside diameter"))
    bolt_circle_nm = _size(_("bolt circle"))
    direction = models.CharField(_("direction"), max_length=7, choices=DIRECTIONS, blank=True)
    bore_nm = _size(_("bore"))
    shell_od_nm = _size(_("shell outside diameter"))
    length_nm = _size(_("length"))
    shell = models.CharField(_("shell"), max_length=40, blank=True)

    class Meta:
        ordering = ("code",)
        verbose_name = _("part")
        verbose_name_plural = _("parts")
        constraints = [
            models.CheckConstraint(condition=Q(on_hand__gte=0), name="part_on_hand_not_below_zero"),
            models.CheckConstraint(condition=Q(held__gte=0), name="part_held_not_below_zero"),
            models.CheckConstraint(condition=Q(price__gte=0), name="part_price_not_below_zero"),
            models.CheckConstraint(
                condition=Q(kind__in=[kind for kind, _label in KINDS]), name="part_kind_known"
            ),
        ]
        indexes = [
            models.Index(fields=("kind", "code"), name="part_kind_code"),
            models.Index(fields=("kind", "system", "diameter_nm"), name="part_by_diameter"),
            models.Index(fields=("kind", "bore_nm", "shell_od_nm"), name="part_by_bore"),
            models.Index(fields=("kind", "flange_od_nm"), name="part_by_flange"),
        ]

    def __str__(self) -> str:
        return self.code

    def as_fact(self) -> StockPart:
        """The part as the frozen fact that checks and prices are made from."""
        values: dict[str, Any] = {name: getattr(self, name) for name in WORDS}
        values |= {name: _length(getattr(self, f"{name}_nm")) for name in SIZES}
        return StockPart(kind=Kind(self.kind), held=self.held, **values)

    @classmethod
    def from_fact(cls, fact: StockPart) -> Part:
        """A row, not yet stored, that says what the fact says."""
        values = {name: getattr(fact, name) for name in WORDS}
        sizes = {name: getattr(fact, name) for name in SIZES}
        values |= {f"{name}_nm": size.nm if size else None for name, size in sizes.items()}
        return cls(kind=fact.kind.value, **values)


def _length(nm: int | None) -> Length | None:
    return None if nm is None else Length(nm)


class CatalogVersion(models.Model):
    """One row: how often the catalogue has changed, and a stamp no other state of it has.

    The stamp is what a cache goes by: a number alone comes twice when a change is rolled back.
    """

    id = models.PositiveSmallIntegerField(primary_key=True, default=1)
    number = models.PositiveIntegerField(_("number"))
    stamp = models.UUIDField(_("stamp"))

    class Meta:
        verbose_name = _("catalogue version")
        constraints = [models.CheckConstraint(condition=Q(id=1), name="one_catalog_version")]

    def __str__(self) -> str:
        return str(self.number)
