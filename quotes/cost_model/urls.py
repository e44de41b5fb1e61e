"""Addresses of costs and targets."""

from __future__ import annotations

from django.urls import path

from quotes.cost_model import views

urlpatterns = [
    path("insights/costs/", views.costs, name="costs"),
    path("insights/costs/adopt/", views.adopt, name="costs-adopt"),
]
