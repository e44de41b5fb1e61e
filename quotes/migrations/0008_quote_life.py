"""A quote is opened, accepted from somewhere, kept with what it was priced from."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0007_choices")]

    operations: ClassVar[list[Any]] = []
