"""Addresses of the tag and of the page behind it."""

from __future__ import annotations

from django.urls import path

from quotes.passport import views

urlpatterns = [
    path("shop/<str:reference>/tag.pdf", views.shaft_tag, name="shaft-tag"),
    path("t/<str:token>/", views.passport, name="passport"),
    path("t/<str:token>/hours/", views.hours, name="passport-hours"),
    path("t/<str:token>/again/", views.same_again, name="passport-again"),
]
