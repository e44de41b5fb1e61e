"""Looking at quotes. Nothing is changed here."""

from __future__ import annotations

from django.contrib import admin

from intake.admin import ReadOnly
from quotes.choosing.models import Choice
from quotes.inspecting.models import Inspection
from quotes.models import CutSheet, Quote, QuoteDocument
from quotes.sending.models import Shipment
from quotes.shop.models import ShopOrder


@admin.register(Quote)
class QuoteAdmin(ReadOnly):
    list_display = ("number", "version", "status", "total", "submission", "valid_until")
    list_filter = ("status",)
    search_fields = ("number",)
    list_select_related = ("submission",)


@admin.register(QuoteDocument)
class QuoteDocumentAdmin(ReadOnly):
    list_display = ("quote", "sha256", "made_at")
    list_select_related = ("quote",)
    exclude = ("content",)


@admin.register(CutSheet)
class CutSheetAdmin(ReadOnly):
    list_display = ("quote", "sha256", "made_at")
    list_select_related = ("quote",)
    exclude = ("content",)


@admin.register(Choice)
class ChoiceAdmin(ReadOnly):
    list_display = ("submission", "alloy", "options", "by", "at")
    list_select_related = ("submission", "by")


@admin.register(ShopOrder)
class ShopOrderAdmin(ReadOnly):
    list_display = ("quote", "stage", "since")
    list_filter = ("stage",)
    list_select_related = ("quote",)


@admin.register(Inspection)
class InspectionAdmin(ReadOnly):
    list_display = ("quote", "number", "verdict", "by", "at")
    list_filter = ("verdict",)
    list_select_related = ("quote", "by")


@admin.register(Shipment)
class ShipmentAdmin(ReadOnly):
    list_display = ("quote", "day", "carrier", "by")
    list_select_related = ("quote", "by")
