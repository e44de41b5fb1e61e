"""Addresses of the staff pages of this room."""

from __future__ import annotations

from django.urls import path

from intake import desk, insights

urlpatterns = [
    path("desk/", desk.desk, name="desk"),
    path("desk/check/", desk.desk_check, name="desk-check"),
    path("desk/calls/", desk.call_queue, name="call-queue"),
    path("desk/<str:reference>/", desk.submission, name="submission"),
    path("desk/<str:reference>/call/", desk.record_call, name="record-call"),
    path("insights/", insights.insights, name="insights"),
    path("insights/mismatches.csv", insights.insights_csv, name="insights-csv"),
]
