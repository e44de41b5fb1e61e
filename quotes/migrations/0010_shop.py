"""What was made, as measured; where each shaft stands; how it left; its tag."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("quotes", "0009_stock"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="Inspection",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveSmallIntegerField()),
                ("typed", models.JSONField(default=dict)),
                ("length_nm", models.BigIntegerField()),
                ("small_end_nm", models.BigIntegerField(blank=True, null=True)),
                ("gap_nm", models.BigIntegerField(blank=True, null=True)),
                ("u_nm", models.BigIntegerField()),
                ("fit", models.FloatField(blank=True, null=True)),
                (
                    "verdict",
                    models.CharField(
                        choices=[
                            ("pass", "Pass"),
                            ("ring", "Ring the desk"),
                            ("shorten", "Shorten, or scrap"),
                            ("scrap", "Scrap: ring the desk"),
                        ],
                        max_length=8,
                    ),
                ),
                ("found", models.JSONField(default=list)),
                ("advice", models.JSONField(default=list)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="inspections",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["quote", "number"],
            },
        ),
        migrations.CreateModel(
            name="Passport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("token", models.CharField(max_length=32, unique=True)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "quote",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="passport",
                        to="quotes.quote",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="DeskWord",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("words", models.CharField(max_length=400)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="desk_words",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["-pk"],
            },
        ),
        migrations.CreateModel(
            name="HoursReading",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("hours", models.PositiveIntegerField()),
                ("renewed", models.BooleanField(default=False)),
                ("day", models.DateField()),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "passport",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="readings",
                        to="quotes.passport",
                    ),
                ),
            ],
            options={
                "ordering": ["-day", "-pk"],
            },
        ),
        migrations.CreateModel(
            name="Release",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("why", models.CharField(max_length=400)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "inspection",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="release",
                        to="quotes.inspection",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="Shipment",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("day", models.DateField()),
                ("tube_nm", models.BigIntegerField(null=True, blank=True)),
                ("weight_lb", models.DecimalField(decimal_places=1, max_digits=7)),
                ("carrier", models.CharField(max_length=80)),
                ("tracking", models.CharField(blank=True, max_length=80)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                ("heard", models.BooleanField(default=False)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="shipment",
                        to="quotes.quote",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="ShopOrder",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "stage",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting for its bar"),
                            ("sawn", "sawn"),
                            ("made", "made"),
                            ("inspected", "inspected"),
                            ("packed", "packed"),
                            ("shipped", "shipped"),
                            ("cancelled", "called off"),
                        ],
                        default="waiting",
                        max_length=10,
                    ),
                ),
                ("since", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "quote",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="shop_order",
                        to="quotes.quote",
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="ShopMove",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "was",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting for its bar"),
                            ("sawn", "sawn"),
                            ("made", "made"),
                            ("inspected", "inspected"),
                            ("packed", "packed"),
                            ("shipped", "shipped"),
                            ("cancelled", "called off"),
                        ],
                        max_length=10,
                    ),
                ),
                (
                    "now",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting for its bar"),
                            ("sawn", "sawn"),
                            ("made", "made"),
                            ("inspected", "inspected"),
                            ("packed", "packed"),
                            ("shipped", "shipped"),
                            ("cancelled", "called off"),
                        ],
                        max_length=10,
                    ),
                ),
                ("why", models.CharField(blank=True, max_length=400)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "order",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="moves",
                        to="quotes.shoporder",
                    ),
                ),
            ],
            options={
                "ordering": ["pk"],
            },
        ),
        migrations.CreateModel(
            name="Signature",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "inspection",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="signature",
                        to="quotes.inspection",
                    ),
                ),
            ],
        ),
        migrations.AddConstraint(
            model_name="inspection",
            constraint=models.UniqueConstraint(
                fields=("quote", "number"), name="one_of_each_inspection"
            ),
        ),
        migrations.AddConstraint(
            model_name="hoursreading",
            constraint=models.UniqueConstraint(
                fields=("passport", "day", "hours", "renewed"), name="one_of_each_reading"
            ),
        ),
        migrations.AddIndex(
            model_name="shipment",
            index=models.Index(fields=["day"], name="shipment_by_day"),
        ),
        migrations.AddIndex(
            model_name="shipment",
            index=models.Index(
                condition=models.Q(("heard", False)),
                fields=["day", "quote"],
                name="shipment_not_heard",
            ),
        ),
        migrations.AddIndex(
            model_name="inspection",
            index=models.Index(
                condition=models.Q(("verdict", "pass"), _negated=True),
                fields=["at"],
                name="inspection_not_passed",
            ),
        ),
    ]
