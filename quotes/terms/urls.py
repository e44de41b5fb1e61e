"""Addresses."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.terms import views

urlpatterns: list[URLPattern] = [
    path("desk/customers/<int:pk>/terms/", views.terms, name="customer-terms"),
    path("desk/customers/<int:pk>/terms/agree/", views.agree, name="customer-terms-agree"),
]
