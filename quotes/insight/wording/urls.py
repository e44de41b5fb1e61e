"""Addresses of the words of questions."""

from __future__ import annotations

from django.urls import path

from quotes.insight.wording import views

urlpatterns = [
    path("insights/wording/", views.wordings, name="wording"),
    path("insights/wording/<slug:slug>/", views.word_question, name="word-question"),
]
