"""The trail, read by kind and by person."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("staff", "0002_accounts")]

    operations: ClassVar[list[Any]] = [
        migrations.AddIndex(
            model_name='change',
            index=models.Index(fields=['record', '-id'], name='change_of_kind'),
        ),
        migrations.AddIndex(
            model_name='change',
            index=models.Index(fields=['by', '-id'], name='change_by_person'),
        ),
    ]
