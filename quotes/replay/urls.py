"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.replay import views

_HOME = "insights/replays/"
urlpatterns: list[URLPattern] = [
    path(_HOME, views.replays, name="replays"),
    path(f"{_HOME}new/", views.replay_ask, name="replay-ask"),
    path(f"{_HOME}compare/", views.replay_compare, name="replay-compare"),
    path(f"{_HOME}<int:replay_key>/", views.replay, name="replay"),
    path(f"{_HOME}<int:replay_key>/progress/", views.replay_progress, name="replay-progress"),
    path(f"{_HOME}<int:replay_key>/cancel/", views.replay_cancel, name="replay-cancel"),
    path(f"{_HOME}<int:replay_key>/adopt/", views.replay_adopt, name="replay-adopt"),
    path(f"{_HOME}<int:replay_key>/sheets.csv", views.replay_csv, name="replay-csv"),
]
