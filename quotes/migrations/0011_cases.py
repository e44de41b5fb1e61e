"""Cases and own parts."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0010_shop")]

    operations: ClassVar[list[Any]] = []
