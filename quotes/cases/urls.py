"""Addresses of cases."""

from __future__ import annotations

from django.urls import path

from quotes.cases import shop_views, views

urlpatterns = [
    path("desk/cases/", views.cases, name="cases"),
    path("desk/cases/<str:case_number>/", views.case, name="case"),
    path("desk/<str:reference>/case/", views.open_case, name="open-case"),
    path("shop/rework/", shop_views.rework, name="rework"),
]
