"""Addresses of the guided path and of what makes it work without a signal."""

from __future__ import annotations

from django.urls import path

from intake import guided
from intake.hand_over import api

urlpatterns = [
    path("guided/", guided.guided, name="guided"),
    path("guided/questions.json", guided.questions, name="guided-questions"),
    path("guided/hand-over/", api.HandOver.as_view(), name="hand-over"),
    path("guided/hand-over/<str:token>/", api.Handed.as_view(), name="handed"),
    path("sw.js", guided.worker, name="service-worker"),
    path("manifest.webmanifest", guided.web_manifest, name="web-manifest"),
]
