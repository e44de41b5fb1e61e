"""Dated rates and terms."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models
from django.db.models import Q

import intake.fields


def _key() -> tuple[str, Any]:
    return "id", models.BigAutoField(
        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
    )


def _somebody() -> Any:
    return models.ForeignKey(
        db_index=False,
        on_delete=django.db.models.deletion.PROTECT,
        related_name="+",
        to=settings.AUTH_USER_MODEL,
    )


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("intake", "0009_customers"),
        ("quotes", "0005_cut_sheets"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="RateSet",
            fields=[
                _key(),
                ("number", models.PositiveIntegerField()),
                ("name", models.CharField(max_length=40)),
                ("from_day", models.DateField()),
                ("reason", models.CharField(max_length=400)),
                ("adopted_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("values", intake.fields.KeptJSON(default=dict)),
                ("stamp", models.UUIDField(default=uuid.uuid4)),
                ("adopted_by", _somebody()),
            ],
            options={
                "ordering": ["-number"],
                "constraints": [
                    models.UniqueConstraint(fields=("number",), name="one_rate_set_of_each_number"),
                    models.UniqueConstraint(fields=("name",), name="one_rate_set_of_each_name"),
                ],
            },
        ),
        migrations.CreateModel(
            name="CustomerTerms",
            fields=[
                _key(),
                ("number", models.PositiveIntegerField()),
                ("from_day", models.DateField()),
                ("discount", models.DecimalField(decimal_places=4, max_digits=5)),
                (
                    "deposit_part",
                    models.DecimalField(blank=True, decimal_places=4, max_digits=5, null=True),
                ),
                (
                    "deposit_over",
                    models.DecimalField(blank=True, decimal_places=2, max_digits=12, null=True),
                ),
                ("why", models.CharField(max_length=400)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("by", _somebody()),
                (
                    "customer",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="terms",
                        to="intake.customer",
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "customer terms",
                "ordering": ["-number"],
                "constraints": [
                    models.UniqueConstraint(
                        fields=("customer", "number"), name="one_of_each_terms_of_a_customer"
                    ),
                    models.CheckConstraint(
                        condition=Q(("discount__gte", 0), ("discount__lt", 1)),
                        name="terms_discount_below_all",
                    ),
                ],
            },
        ),
    ]
