"""Addresses of an inspection."""

from __future__ import annotations

from django.urls import path

from quotes.inspecting import views

urlpatterns = [
    path("shop/<str:reference>/inspect/", views.inspect, name="shop-inspect"),
    path("shop/<str:reference>/sign/", views.sign, name="shop-sign"),
    path("shop/<str:reference>/release/", views.release, name="shop-release"),
]
