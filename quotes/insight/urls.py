"""Addresses of the manager's pages."""

from __future__ import annotations

from django.urls import path

from quotes.insight import views
from quotes.insight.pages.all_of_them import QUESTIONS

urlpatterns = [
    path("insights/", views.overview, name="insight-overview"),
    path("insights/behind/", views.behind, name="insight-behind"),
    path("insights/<slug:slug>.csv", views.question_csv, name="insight-csv"),
    path("insights/<slug:slug>.xlsx", views.question_xlsx, name="insight-xlsx"),
    *(
        path(f"insights/{one.slug}/", views.question, {"slug": one.slug}, name=one.url_name)
        for one in QUESTIONS
    ),
]
