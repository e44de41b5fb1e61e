"""Looking at quotes. Nothing is changed here."""

from __future__ import annotations

from django.contrib import admin

from intake.admin import ReadOnly
from quotes.choosing.models import Choice
from quotes.models import CutSheet, Quote, QuoteDocument


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
