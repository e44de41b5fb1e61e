"""A quote is opened, accepted from somewhere, kept with what it was priced from; several boats."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import quotes.bundles.models


def _left_already(apps: Any, schema_editor: Any) -> None:
    """Of whatever somebody told how it fitted, nothing is here any more."""
    told = apps.get_model("quotes", "Outcome").objects.values("quote")
    apps.get_model("quotes", "Quote").objects.filter(pk__in=told).update(is_here=False)


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0007_choices")]

    operations: ClassVar[list[Any]] = [
        migrations.AddField(
            model_name="mail",
            name="quote",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="mails",
                to="quotes.quote",
            ),
        ),
        migrations.AddField(
            model_name="mail",
            name="unless_opened",
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name="quote",
            name="accepted_from",
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddField(
            model_name="quote",
            name="ended_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="quote",
            name="ended_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="quote",
            name="ended_why",
            field=models.CharField(blank=True, max_length=1000),
        ),
        migrations.AddField(
            model_name="quote",
            name="inputs",
            field=models.JSONField(blank=True, default=dict),
        ),
        migrations.AddField(
            model_name="quote",
            name="opened_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="quote",
            name="remake_of",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="remakes",
                to="quotes.quote",
            ),
        ),
        migrations.AddField(
            model_name="quote",
            name="terms_note",
            field=models.CharField(blank=True, max_length=300),
        ),
        migrations.AddField(
            model_name="quote",
            name="is_here",
            field=models.BooleanField(default=True),
        ),
        migrations.RunPython(_left_already, migrations.RunPython.noop, elidable=True),
        migrations.AddIndex(
            model_name="quote",
            index=models.Index(
                condition=models.Q(("is_here", True)),
                fields=["status", "accepted_at", "id"],
                name="quote_to_make",
            ),
        ),
        migrations.AlterField(
            model_name="mail",
            name="kind",
            field=models.CharField(
                choices=[
                    ("link", "a new link"),
                    ("question", "reminder of a question"),
                    ("quote", "reminder of a quote"),
                    ("offer", "the quote"),
                    ("accepted", "what was accepted"),
                    ("voided", "an acceptance that holds no more"),
                    ("bundle", "a quote for several boats"),
                ],
                max_length=10,
            ),
        ),
        migrations.AlterField(
            model_name="quote",
            name="status",
            field=models.CharField(
                choices=[
                    ("drafted", "drafted"),
                    ("issued", "issued"),
                    ("accepted", "accepted"),
                    ("declined", "declined"),
                    ("lapsed", "lapsed"),
                    ("replaced", "replaced"),
                    ("cancelled", "cancelled"),
                ],
                max_length=10,
            ),
        ),
        migrations.CreateModel(
            name="Bundle",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("job", models.CharField(blank=True, max_length=40)),
                ("number", models.CharField(max_length=20)),
                ("version", models.PositiveSmallIntegerField(default=1)),
                ("token", models.CharField(default=quotes.bundles.models.new_token, max_length=64)),
                ("current", models.BooleanField(default=True)),
                ("goods", models.DecimalField(decimal_places=2, max_digits=12)),
                ("freight", models.DecimalField(decimal_places=2, max_digits=12)),
                ("freight_words", models.CharField(blank=True, max_length=300)),
                ("tax", models.DecimalField(decimal_places=2, max_digits=12)),
                ("total", models.DecimalField(decimal_places=2, max_digits=12)),
                ("currency", models.CharField(blank=True, max_length=8)),
                ("valid_until", models.DateField()),
                ("issued_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("opened_at", models.DateTimeField(blank=True, null=True)),
                ("content", models.BinaryField(null=True)),
                ("sha256", models.CharField(max_length=64)),
                (
                    "customer",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="bundles",
                        to="intake.customer",
                    ),
                ),
                (
                    "issued_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["number", "version"],
            },
        ),
        migrations.AddField(
            model_name="mail",
            name="bundle",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.CASCADE,
                related_name="mails",
                to="quotes.bundle",
            ),
        ),
        migrations.CreateModel(
            name="BundleMember",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("place", models.PositiveSmallIntegerField()),
                (
                    "bundle",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="members",
                        to="quotes.bundle",
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="in_bundles",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["bundle", "place"],
            },
        ),
        migrations.AddIndex(
            model_name="bundle",
            index=models.Index(fields=["customer", "job"], name="bundle_by_job"),
        ),
        migrations.AddConstraint(
            model_name="bundle",
            constraint=models.UniqueConstraint(
                fields=("number", "version"), name="one_of_each_bundle"
            ),
        ),
        migrations.AddConstraint(
            model_name="bundle",
            constraint=models.UniqueConstraint(
                condition=models.Q(("current", True)), fields=("number",), name="one_current_bundle"
            ),
        ),
        migrations.AddConstraint(
            model_name="bundle",
            constraint=models.UniqueConstraint(
                condition=models.Q(("current", True)),
                fields=("token",),
                name="one_bundle_behind_a_link",
            ),
        ),
        migrations.AddConstraint(
            model_name="bundlemember",
            constraint=models.UniqueConstraint(
                fields=("bundle", "quote"), name="a_quote_once_in_a_bundle"
            ),
        ),
        migrations.AddConstraint(
            model_name="bundlemember",
            constraint=models.UniqueConstraint(
                fields=("bundle", "place"), name="one_place_in_a_bundle"
            ),
        ),
    ]
