"""Addresses of these pages."""

from __future__ import annotations

from django.urls import path

from intake.calling import claim_views, list_views, views

urlpatterns = [
    path("calls/", list_views.call_queue, name="call-queue"),
    path("calls/made/", list_views.calls_made, name="calls-made"),
    path("<str:reference>/call/", views.record_call, name="record-call"),
    path("<str:reference>/call/read-blind/", views.blind_reading, name="blind-reading"),
    path("<str:reference>/call/mine/", claim_views.claim_call, name="call-claim"),
    path("<str:reference>/call/keep/", claim_views.keep_call, name="call-keep"),
    path("<str:reference>/call/give-back/", claim_views.give_back_call, name="call-give-back"),
    path("<str:reference>/call/take-over/", claim_views.take_over_call, name="call-take-over"),
]
