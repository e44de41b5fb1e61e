"""Addresses of the staff pages of this room."""

from __future__ import annotations

from django.urls import include, path

from intake import desk, desk_read_back, insights, rule_views

urlpatterns = [
    path("desk/check/read-back/", desk_read_back.desk_read_back, name="desk-read-back"),
    path("desk/", include("intake.desk_drafts.urls")),
    path("desk/", include("intake.calling.urls")),
    path("desk/", include("intake.customers.urls")),
    path("desk/", include("intake.finding.urls")),
    path("desk/<str:reference>/", desk.submission, name="submission"),
    path("checks/", rule_views.checks, name="checks"),
    path("limits/", rule_views.limits, name="limits"),
    path("limits/adopt/", rule_views.adopt, name="limits-adopt"),
    path("limits/learn/", rule_views.learn, name="limits-learn"),
    path("insights/by-month/", insights.insights, name="insights"),
    path("insights/by-month/mismatches.csv", insights.insights_csv, name="insights-csv"),
]
