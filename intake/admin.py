"""Looking at what is stored. Nothing is changed here: it has its own doors, with a history."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.db.models import QuerySet
from django.http import HttpRequest

from intake.models import (
    CallRecord,
    Event,
    FindingRecord,
    Job,
    LimitSet,
    Photo,
    ShaftFitted,
    SheetVersion,
    Submission,
)


class ReadOnly(admin.ModelAdmin):  # type: ignore[type-arg]
    """Every field shown, none editable, nothing added or deleted."""

    show_full_result_count = False
    list_per_page = 50

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Submission)
class SubmissionAdmin(ReadOnly):
    list_display = ("reference", "status", "verdict", "channel", "boat_name", "received_at")
    list_filter = ("status", "verdict", "channel")
    search_fields = ("reference", "boat_name")
    exclude = ("token", "idempotency_key", "body_digest")


@admin.register(SheetVersion)
class SheetVersionAdmin(ReadOnly):
    list_display = ("submission", "number", "is_current", "verdict", "made_by", "made_at")
    list_select_related = ("submission", "made_by")


@admin.register(FindingRecord)
class FindingRecordAdmin(ReadOnly):
    list_display = ("check_id", "severity", "answer", "month", "channel")
    list_filter = ("severity",)


@admin.register(CallRecord)
class CallRecordAdmin(ReadOnly):
    list_display = ("submission", "check_id", "outcome", "cause", "by", "at")
    list_select_related = ("submission", "by")
    list_filter = ("outcome",)


@admin.register(Event)
class EventAdmin(ReadOnly):
    list_display = ("submission", "old_status", "new_status", "by", "at")
    list_select_related = ("submission", "by")


@admin.register(ShaftFitted)
class ShaftFittedAdmin(ReadOnly):
    list_display = ("submission", "station", "month", "misfit", "at")
    list_select_related = ("submission",)
    list_filter = ("misfit",)


@admin.register(Photo)
class PhotoAdmin(ReadOnly):
    """Which photos there are. They are looked at on the submission's page."""

    list_display = ("submission", "question", "width", "height", "at")
    list_select_related = ("submission",)
    exclude = ("ident", "sent_sha256")

    def get_queryset(self, request: HttpRequest) -> QuerySet[Photo]:
        return super().get_queryset(request).defer("content", "small")


@admin.register(LimitSet)
class LimitSetAdmin(ReadOnly):
    list_display = ("name", "number", "adopted_by", "adopted_at", "reason")
    list_select_related = ("adopted_by",)


@admin.register(Job)
class JobAdmin(ReadOnly):
    list_display = ("kind", "key", "due", "attempts", "done_at", "dead")
    list_filter = ("kind", "dead")
