"""A quote goes out by mail: one more kind of mail."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("quotes", "0003_quotes_of_the_day")]

    operations = [
        migrations.AlterField(
            model_name="mail",
            name="kind",
            field=models.CharField(
                choices=[
                    ("link", "a new link"),
                    ("question", "reminder of a question"),
                    ("quote", "reminder of a quote"),
                    ("offer", "the quote"),
                ],
                max_length=10,
            ),
        ),
    ]
