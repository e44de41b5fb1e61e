"""Invoices, payments, closed days."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0011_cases")]

    operations: ClassVar[list[Any]] = []
