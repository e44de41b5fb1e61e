"""Where a shaft stands in the shop, and its cut sheet as it was drawn. Only services write."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from quotes.domain.shop_stages import WORDS, Stage

STAGES = [(stage.value, WORDS[stage]) for stage in Stage]


class CutSheet(models.Model):
    """One page for one accepted quote: drawn once, opened as often as anybody likes."""

    quote = models.OneToOneField("quotes.Quote", models.CASCADE, related_name="cut_sheet")
    content = models.BinaryField()
    sha256 = models.CharField(max_length=64)
    made_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return self.sha256


class ShopOrder(models.Model):
    """One accepted shaft on its way through the shop; one without a row waits for its bar."""

    quote = models.OneToOneField("quotes.Quote", models.CASCADE, related_name="shop_order")
    stage = models.CharField(max_length=10, choices=STAGES, default=Stage.WAITING.value)
    since = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"

    def __str__(self) -> str:
        return f"{self.quote_id}: {self.stage}"


class ShopMove(models.Model):
    """One step of a shaft, who took it and when; ``why`` where it went back or was called off."""

    order = models.ForeignKey(ShopOrder, models.CASCADE, related_name="moves")
    was = models.CharField(max_length=10, choices=STAGES)
    now = models.CharField(max_length=10, choices=STAGES)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    why = models.CharField(max_length=400, blank=True)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["pk"]

    def __str__(self) -> str:
        return f"{self.order_id}: {self.was} → {self.now}"


class DeskWord(models.Model):
    """What the desk says where no table gives a dimension; only added, the newest counts."""

    quote = models.ForeignKey("quotes.Quote", models.CASCADE, related_name="desk_words")
    words = models.CharField(max_length=400)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        app_label = "quotes"
        ordering = ["-pk"]  # newest first

    def __str__(self) -> str:
        return f"{self.quote_id}: {self.words}"
