"""Dated rates and terms."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0005_cut_sheets")]

    operations: ClassVar[list[Any]] = []
