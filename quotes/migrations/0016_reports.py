"""Audit calls, alarms and monthly reports."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


def _key() -> tuple[str, Any]:
    return (
        "id",
        models.BigAutoField(
            auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
        ),
    )


def _person() -> Any:
    return models.ForeignKey(
        blank=True,
        null=True,
        on_delete=django.db.models.deletion.PROTECT,
        related_name="+",
        to=settings.AUTH_USER_MODEL,
    )


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("quotes", "0015_replay"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="AuditSalt",
            fields=[
                _key(),
                ("only", models.PositiveSmallIntegerField(default=1, unique=True)),
                ("salt", models.CharField(max_length=64)),
            ],
        ),
        migrations.CreateModel(
            name="MonthlyReport",
            fields=[
                _key(),
                ("month", models.CharField(max_length=7, unique=True)),
                ("asked_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("sending_at", models.DateTimeField(blank=True, null=True)),
                ("sent_at", models.DateTimeField(blank=True, null=True)),
                ("dropped", models.CharField(blank=True, max_length=60)),
            ],
        ),
        migrations.CreateModel(
            name="AuditCall",
            fields=[
                _key(),
                ("chosen_at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "outcome",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("right", "all right"),
                            ("wrong", "something was wrong"),
                            ("not_reached", "not reached"),
                            ("declined", "the customer does not want to"),
                        ],
                        max_length=12,
                    ),
                ),
                ("cause", models.CharField(blank=True, max_length=16)),
                ("answer", models.CharField(blank=True, max_length=40)),
                ("note", models.TextField(blank=True)),
                ("at", models.DateTimeField(blank=True, null=True)),
                ("by", _person()),
                (
                    "submission",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="audit_call",
                        to="intake.submission",
                    ),
                ),
            ],
            options={
                "indexes": [
                    models.Index(
                        condition=models.Q(("outcome", "")),
                        fields=["id"],
                        name="audit_call_to_make",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="CauseAlarm",
            fields=[
                _key(),
                ("cause", models.CharField(max_length=16)),
                (
                    "why",
                    models.CharField(
                        choices=[("often", "seen often"), ("back", "came back")], max_length=5
                    ),
                ),
                ("seen", models.PositiveIntegerField()),
                ("first_on", models.DateField()),
                ("last_on", models.DateField()),
                ("raised_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
                ("words", models.TextField(blank=True)),
                ("sending_at", models.DateTimeField(blank=True, null=True)),
                ("sent_at", models.DateTimeField(blank=True, null=True)),
                ("dropped", models.CharField(blank=True, max_length=60)),
                ("answered_by", _person()),
            ],
            options={
                "indexes": [models.Index(fields=["cause", "answered_at"], name="alarm_by_answer")],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("answered_at", None)),
                        fields=("cause",),
                        name="one_standing_alarm_a_cause",
                    )
                ],
            },
        ),
    ]
