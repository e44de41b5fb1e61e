"""Addresses of invoices."""

from __future__ import annotations

from django.urls import URLPattern, path

from quotes.invoices import views

urlpatterns: list[URLPattern] = [
    path("desk/invoices/", views.invoices, name="invoices"),
    path("desk/invoices/all.csv", views.invoices_csv, name="invoices-csv"),
    path("desk/invoices/<str:number>/", views.invoice, name="invoice"),
    path("desk/invoices/<str:number>/paper.pdf", views.invoice_pdf, name="invoice-pdf"),
    path("desk/invoices/<str:number>/lines.csv", views.invoice_csv, name="invoice-csv"),
    path("desk/invoices/<str:number>/credit/", views.credit, name="invoice-credit"),
    path("desk/<str:reference>/invoice/", views.make, name="invoice-make"),
]
