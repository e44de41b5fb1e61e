"""Addresses of these pages."""

from __future__ import annotations

from django.urls import URLPattern, path

from intake.finding.day import views as day
from intake.finding.finder import views as finder
from intake.finding.lists import views as lists

urlpatterns: list[URLPattern] = [
    path("today/", day.today, name="today"),
    path("find/", finder.find, name="desk-find"),
    path("requests/", lists.requests, name="requests"),
    path("requests/list.csv", lists.requests_csv, name="requests-csv"),
]
