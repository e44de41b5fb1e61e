"""Pieces held for a quote."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0008_quote_life")]

    operations: ClassVar[list[Any]] = []
