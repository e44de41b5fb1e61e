"""Addresses of the audit calls."""

from __future__ import annotations

from django.urls import path

from quotes.insight.audit import views

urlpatterns = [
    path("desk/audit-calls/", views.audit_calls, name="audit-calls"),
    path("desk/audit-calls/<str:reference>/", views.audit_call, name="audit-call"),
]
