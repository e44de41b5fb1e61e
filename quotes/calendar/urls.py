"""Addresses of the shop's calendar."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.calendar import views

urlpatterns: list[URLPattern] = [
    path("staff/calendar/", views.calendar, name="calendar"),
    path("staff/calendar/close/", views.close, name="calendar-close"),
    path("staff/calendar/open/", views.reopen, name="calendar-open"),
    path("staff/calendar/week/", views.week, name="calendar-week"),
]
