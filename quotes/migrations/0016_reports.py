"""Audit calls, alarms and monthly reports."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0015_replay")]

    operations: ClassVar[list[Any]] = []
