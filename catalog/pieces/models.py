"""Bars, blanks and remnants as pieces of metal, each with its length, heat and place in the rack.

Only services write these rows, only selectors read them.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils import timezone

from catalog.domain.lengths import Length

BAR, BLANK, REMNANT = "bar", "blank", "remnant"
PIECE_KINDS = [(BAR, "bar"), (BLANK, "blank"), (REMNANT, "remnant")]
_LETTERS = {BAR: "B", BLANK: "K", REMNANT: "R"}
LONGEST_WORDS = 60


class Certificate(models.Model):
    """The mill's paper as it came, kept once by its hash, for however many pieces."""

    sha256 = models.CharField(max_length=64, unique=True)
    kind = models.CharField(max_length=4, choices=[("pdf", "PDF"), ("jpeg", "JPEG")])
    content = models.BinaryField()
    came_at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "catalog"

    def __str__(self) -> str:
        return self.sha256[:12]


class GoodsIn(models.Model):
    """One line of a delivery paper, received once. ``paper`` is the supplier's own number."""

    paper = models.CharField("delivery paper", max_length=LONGEST_WORDS)
    line = models.PositiveSmallIntegerField("line", default=1)
    part = models.ForeignKey("catalog.Part", models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        app_label = "catalog"
        constraints = [
            models.UniqueConstraint(fields=["paper", "line"], name="goods_in_once"),
        ]

    def __str__(self) -> str:
        return f"{self.paper}, line {self.line}"


class Piece(models.Model):
    """One piece of metal. Lengths are whole nanometres.

    ``free_nm`` is what nobody holds of it: a bar may be held by several, never for more than it
    has. A piece that was sawn is gone; what is left of it is another piece, ``cut_from`` it.
    ``heat`` "" is not known.
    """

    part = models.ForeignKey("catalog.Part", models.PROTECT, related_name="pieces")
    kind = models.CharField("kind", max_length=7, choices=PIECE_KINDS)
    length_nm = models.BigIntegerField("length")
    free_nm = models.BigIntegerField("free of it")
    heat = models.CharField("heat", max_length=LONGEST_WORDS, blank=True)
    certificate_number = models.CharField(
        "certificate number", max_length=LONGEST_WORDS, blank=True
    )
    certificate = models.ForeignKey(
        Certificate, models.PROTECT, null=True, blank=True, related_name="pieces"
    )
    place = models.CharField("place in the rack", max_length=LONGEST_WORDS, blank=True)
    came_at = models.DateTimeField(default=timezone.now)
    goods_in = models.ForeignKey(
        GoodsIn, models.PROTECT, null=True, blank=True, related_name="pieces"
    )
    cut_from = models.ForeignKey(
        "self", models.PROTECT, null=True, blank=True, related_name="cut_off"
    )
    gone_at = models.DateTimeField(null=True, blank=True)
    gone_why = models.CharField(max_length=200, blank=True)

    class Meta:
        app_label = "catalog"
        verbose_name = "piece"
        verbose_name_plural = "pieces"
        constraints = [
            models.CheckConstraint(condition=Q(length_nm__gt=0), name="piece_has_a_length"),
            models.CheckConstraint(condition=Q(free_nm__gte=0), name="piece_free_not_below_zero"),
            models.CheckConstraint(
                condition=Q(free_nm__lte=F("length_nm")), name="piece_free_not_above_length"
            ),
        ]
        indexes = [
            models.Index(
                fields=["part", "id"], condition=Q(gone_at__isnull=True), name="piece_in_the_rack"
            ),
            models.Index(
                fields=["gone_at", "id"], condition=Q(gone_at__isnull=False), name="piece_gone"
            ),
        ]

    def __str__(self) -> str:
        return self.label

    @property
    def label(self) -> str:
        """What is painted on its end: B-0007 a bar, K-0007 a blank, R-0007 a remnant."""
        return f"{_LETTERS[self.kind]}-{self.pk:04d}"

    @property
    def length(self) -> Length:
        """How long it is."""
        return Length(self.length_nm)

    @property
    def free(self) -> Length:
        """What nobody holds of it."""
        return Length(self.free_nm)

    @property
    def held(self) -> Length:
        """What is held of it, saw cuts counted."""
        return Length(self.length_nm - self.free_nm)

    @property
    def is_whole(self) -> bool:
        """Whether nobody has cut into it."""
        return self.kind != REMNANT


class ReorderPoint(models.Model):
    """When a part is to be ordered: at so many free or fewer, up to so many."""

    part = models.OneToOneField("catalog.Part", models.CASCADE, related_name="reorder_point")
    at = models.PositiveIntegerField("order at")
    to = models.PositiveIntegerField("up to")

    class Meta:
        app_label = "catalog"
        constraints = [
            models.CheckConstraint(condition=Q(to__gt=F("at")), name="reorder_up_to_more"),
        ]

    def __str__(self) -> str:
        return f"{self.part_id}: at {self.at} up to {self.to}"
