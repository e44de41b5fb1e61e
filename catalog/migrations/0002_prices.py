"""What a part costs from which day."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models
from django.db.models import Q

_BATCH = 500


def _as_they_stand(apps: Any, schema_editor: Any) -> None:
    """Every part's price of today is its first dated one."""
    part, dated = apps.get_model("catalog", "Part"), apps.get_model("catalog", "PartPrice")
    today = django.utils.timezone.localdate()
    rows = [
        dated(code=code, number=1, price=price, from_day=today, why="the price as it stood")
        for code, price in part.objects.order_by("pk").values_list("code", "price")
    ]
    dated.objects.bulk_create(rows, batch_size=_BATCH)


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("catalog", "0001_initial"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="PartPrice",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("code", models.CharField(max_length=40)),
                ("number", models.PositiveIntegerField()),
                ("price", models.DecimalField(decimal_places=4, max_digits=12)),
                ("from_day", models.DateField()),
                ("why", models.CharField(blank=True, max_length=400)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        db_index=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["code", "-number"],
                "indexes": [
                    models.Index(fields=["code", "-from_day", "-number"], name="price_by_day"),
                    models.Index(fields=["from_day"], name="price_by_first_day"),
                ],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("code", "number"), name="one_price_of_each_number"
                    ),
                    models.CheckConstraint(
                        condition=Q(("price__gte", 0)), name="dated_price_not_below_zero"
                    ),
                ],
            },
        ),
        migrations.RunPython(_as_they_stand, migrations.RunPython.noop, elidable=True),
    ]
