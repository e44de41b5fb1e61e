"""Addresses of these pages."""

from __future__ import annotations

from django.urls import path

from intake.calling import views

urlpatterns = [
    path("calls/", views.call_queue, name="call-queue"),
    path("<str:reference>/call/", views.record_call, name="record-call"),
]
