"""What became of a shaft, cases where it did not fit, and customers' own parts."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0010_shop")]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name="CaseSeries",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("year", models.PositiveSmallIntegerField(unique=True)),
                ("last", models.PositiveIntegerField(default=0)),
            ],
        ),
        migrations.AddField(
            model_name="outcome",
            name="by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="outcome",
            name="predicted_nm",
            field=models.BigIntegerField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="outcome",
            name="told_by",
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddField(
            model_name="outcome",
            name="u_nm",
            field=models.BigIntegerField(blank=True, null=True),
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
                    ("fitted_7", "whether it fitted, after a week"),
                    ("fitted_30", "whether it fitted, after a month"),
                ],
                max_length=10,
            ),
        ),
        migrations.CreateModel(
            name="Case",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.CharField(max_length=20, unique=True)),
                (
                    "opened_as",
                    models.CharField(
                        choices=[
                            ("no", "the customer says it does not fit"),
                            ("outside", "the gap is outside its band"),
                            ("shift", "it fits, though not as predicted"),
                            ("staff", "opened at the desk"),
                        ],
                        max_length=8,
                    ),
                ),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("open", "open"),
                            ("agreed", "agreed"),
                            ("doing", "being done"),
                            ("done", "done"),
                            ("without", "closed without"),
                        ],
                        default="open",
                        max_length=8,
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("", "nothing chosen yet"),
                            ("shorten", "shorten"),
                            ("spacer", "spacer"),
                            ("remake", "remake"),
                            ("swap", "swap a part"),
                        ],
                        max_length=8,
                    ),
                ),
                (
                    "part",
                    models.CharField(
                        choices=[
                            ("shaft", "the shaft"),
                            ("coupling", "the coupling"),
                            ("bearing", "the bearing"),
                            ("other", "another part"),
                        ],
                        default="shaft",
                        max_length=8,
                    ),
                ),
                ("gap_nm", models.BigIntegerField(blank=True, null=True)),
                ("excess_nm", models.BigIntegerField(blank=True, null=True)),
                ("by_nm", models.BigIntegerField(blank=True, null=True)),
                ("cause", models.CharField(blank=True, max_length=16)),
                ("contributing", models.JSONField(blank=True, default=list)),
                ("evidence", models.CharField(blank=True, max_length=1000)),
                ("found_by", models.CharField(blank=True, max_length=200)),
                (
                    "found",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("before_quote", "before the quote"),
                            ("before_cut", "before it was cut"),
                            ("before_ship", "before it was sent"),
                            ("at_fitting", "at fitting"),
                        ],
                        max_length=12,
                    ),
                ),
                (
                    "born",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("measuring", "measuring at the boat"),
                            ("boat", "on the boat itself"),
                            ("desk", "at the desk"),
                            ("catalogue", "in the catalogue"),
                            ("shop", "in the shop"),
                            ("way", "on the way"),
                            ("fitting", "at fitting"),
                            ("unknown", "not known"),
                        ],
                        max_length=10,
                    ),
                ),
                ("fired", models.JSONField(blank=True, default=list)),
                ("overridden", models.JSONField(blank=True, default=list)),
                (
                    "payer",
                    models.CharField(
                        blank=True,
                        choices=[("us", "we do"), ("customer", "the customer, by the terms")],
                        max_length=8,
                    ),
                ),
                ("payer_why", models.CharField(blank=True, max_length=400)),
                ("opened_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("closed_at", models.DateTimeField(blank=True, null=True)),
                (
                    "opened_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="cases",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["-opened_at", "-pk"],
            },
        ),
        migrations.CreateModel(
            name="CaseCost",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("material", "material"),
                            ("labour", "labour"),
                            ("freight_out", "freight to the customer"),
                            ("freight_in", "freight back to us"),
                            ("desk", "time at the desk"),
                            ("goodwill", "goodwill"),
                        ],
                        max_length=12,
                    ),
                ),
                ("words", models.CharField(blank=True, max_length=200)),
                ("amount", models.DecimalField(decimal_places=2, max_digits=9)),
                ("minutes", models.PositiveSmallIntegerField(blank=True, null=True)),
                ("invented", models.BooleanField(default=False)),
                ("once", models.CharField(max_length=40)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="costs",
                        to="quotes.case",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "pk"],
            },
        ),
        migrations.CreateModel(
            name="CaseEvent",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("what", models.CharField(max_length=10)),
                ("words", models.CharField(blank=True, max_length=1200)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "case",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="events",
                        to="quotes.case",
                    ),
                ),
            ],
            options={
                "ordering": ["at", "pk"],
            },
        ),
        migrations.CreateModel(
            name="NotYetFitted",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("ask_on", models.DateField()),
                ("told_by", models.CharField(blank=True, max_length=200)),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="not_yet_fitted",
                        to="quotes.quote",
                    ),
                ),
            ],
            options={
                "ordering": ["-at", "-pk"],
            },
        ),
        migrations.CreateModel(
            name="OwnPart",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                (
                    "what",
                    models.CharField(
                        choices=[
                            ("coupling", "coupling"),
                            ("shaft", "shaft"),
                            ("propeller", "propeller"),
                            ("bearing", "bearing"),
                            ("other", "another part"),
                        ],
                        max_length=10,
                    ),
                ),
                ("awaited_since", models.DateField(default=django.utils.timezone.localdate)),
                ("received_on", models.DateField(blank=True, null=True)),
                ("received_from", models.CharField(blank=True, max_length=200)),
                ("condition", models.CharField(blank=True, max_length=1000)),
                ("place", models.CharField(blank=True, max_length=80)),
                ("not_coming", models.CharField(blank=True, max_length=200)),
                ("returned_on", models.DateField(blank=True, null=True)),
                ("returned_how", models.CharField(blank=True, max_length=200)),
                (
                    "case",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="own_parts",
                        to="quotes.case",
                    ),
                ),
                (
                    "quote",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="own_parts",
                        to="quotes.quote",
                    ),
                ),
                (
                    "received_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "returned_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ["awaited_since", "pk"],
            },
        ),
        migrations.AddIndex(
            model_name="case",
            index=models.Index(
                condition=models.Q(("closed_at__isnull", True)),
                fields=["opened_at", "id"],
                name="case_open",
            ),
        ),
        migrations.AddIndex(
            model_name="case",
            index=models.Index(
                condition=models.Q(("closed_at__isnull", False)),
                fields=["opened_at", "id"],
                name="case_closed",
            ),
        ),
        migrations.AddIndex(
            model_name="notyetfitted",
            index=models.Index(fields=["ask_on", "quote"], name="not_yet_by_day"),
        ),
        migrations.AddIndex(
            model_name="case",
            index=models.Index(fields=["cause", "opened_at", "id"], name="case_by_cause"),
        ),
        migrations.AddConstraint(
            model_name="case",
            constraint=models.UniqueConstraint(
                condition=models.Q(("state__in", ["open", "agreed", "doing"])),
                fields=("quote",),
                name="one_open_case_of_a_quote",
            ),
        ),
        migrations.AddConstraint(
            model_name="casecost",
            constraint=models.UniqueConstraint(
                fields=("case", "once"), name="one_of_each_case_cost"
            ),
        ),
        migrations.AddConstraint(
            model_name="notyetfitted",
            constraint=models.UniqueConstraint(
                fields=("quote", "ask_on"), name="one_not_yet_of_a_day"
            ),
        ),
        migrations.AddIndex(
            model_name="ownpart",
            index=models.Index(
                condition=models.Q(("received_on__isnull", True)),
                fields=["awaited_since", "id"],
                name="own_part_awaited",
            ),
        ),
        migrations.AddConstraint(
            model_name="ownpart",
            constraint=models.UniqueConstraint(
                condition=models.Q(("case__isnull", True)),
                fields=("quote", "what"),
                name="one_of_each_own_part",
            ),
        ),
        migrations.AddConstraint(
            model_name="ownpart",
            constraint=models.UniqueConstraint(
                fields=("case", "what"), name="one_of_each_part_of_a_case"
            ),
        ),
    ]
