"""Addresses of what goes with a shaft, and of its going."""

from __future__ import annotations

from django.urls import path

from quotes.sending import views

urlpatterns = [
    path("shop/<str:reference>/packing-list.pdf", views.packing_list, name="packing-list"),
    path("shop/<str:reference>/fitting-card.pdf", views.fitting_card, name="fitting-card"),
    path("shop/<str:reference>/send/", views.send, name="shop-send"),
]
