"""Addresses of the alarms."""

from __future__ import annotations

from django.urls import path

from quotes.insight.alarms import views

urlpatterns = [
    path("insights/alarms/", views.cause_alarms, name="cause-alarms"),
    path("insights/alarms/<int:alarm_key>/answer/", views.answer_alarm, name="answer-alarm"),
]
