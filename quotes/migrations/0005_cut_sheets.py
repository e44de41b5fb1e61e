"""A cut sheet for an accepted quote; and accepted quotes in their order."""

import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0004_offer_mail")]

    operations = [
        migrations.CreateModel(
            name="CutSheet",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("content", models.BinaryField()),
                ("sha256", models.CharField(max_length=64)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "quote",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="cut_sheet",
                        to="quotes.quote",
                    ),
                ),
            ],
        ),
        migrations.AddIndex(
            model_name="quote",
            index=models.Index(
                condition=models.Q(("status", "accepted")),
                fields=["accepted_at", "id"],
                name="quote_by_acceptance",
            ),
        ),
    ]
