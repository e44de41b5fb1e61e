"""Replays of a season."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import intake.fields


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("quotes", "0014_cost_model"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="Replay",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("name", models.CharField(max_length=60)),
                ("first_day", models.DateField()),
                ("last_day", models.DateField()),
                ("changes", intake.fields.KeptJSON(default=dict)),
                ("base_name", models.CharField(max_length=20)),
                ("base_values", intake.fields.KeptJSON(default=dict)),
                ("base_counts", intake.fields.KeptJSON(default=dict)),
                ("note", models.CharField(blank=True, max_length=400)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("ask_key", models.CharField(max_length=43)),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting"),
                            ("running", "running"),
                            ("done", "done"),
                            ("cancelled", "cancelled"),
                            ("failed", "failed"),
                        ],
                        default="waiting",
                        max_length=9,
                    ),
                ),
                ("started_at", models.DateTimeField(blank=True, null=True)),
                ("ended_at", models.DateTimeField(blank=True, null=True)),
                ("total", models.PositiveIntegerField(default=0)),
                ("done", models.PositiveIntegerField(default=0)),
                ("upto", models.PositiveBigIntegerField(default=0)),
                ("last", models.PositiveBigIntegerField(default=0)),
                ("result", intake.fields.KeptJSON(default=dict)),
                ("call_cost", models.DecimalField(decimal_places=2, default=0, max_digits=9)),
                ("adopted_as", models.CharField(blank=True, max_length=20)),
                (
                    "by",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={"ordering": ["-pk"]},
        ),
        migrations.CreateModel(
            name="ReplaySheet",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("before", models.CharField(max_length=7)),
                ("after", models.CharField(max_length=7)),
                ("before_holding", intake.fields.KeptJSON(default=list)),
                ("after_holding", intake.fields.KeptJSON(default=list)),
                ("question", models.TextField(blank=True)),
                ("wrong", models.BooleanField(default=False)),
                ("drifted", models.BooleanField(default=False)),
                (
                    "replay",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="sheets",
                        to="quotes.replay",
                    ),
                ),
                (
                    "submission",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to="intake.submission",
                    ),
                ),
            ],
            options={"ordering": ["replay", "submission"]},
        ),
        migrations.AddConstraint(
            model_name="replay",
            constraint=models.UniqueConstraint(fields=("ask_key",), name="one_replay_of_each_form"),
        ),
        migrations.AddConstraint(
            model_name="replaysheet",
            constraint=models.UniqueConstraint(
                fields=("replay", "submission"), name="one_line_of_each_replayed"
            ),
        ),
    ]
