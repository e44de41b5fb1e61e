"""Until when somebody who waits must be called, and the alarms of calls that came too late."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models
from django.utils import timezone

from catalog.domain.lengths import NM_PER_MM, Length
from decimal import Decimal
from intake.domain.at_stake import PricedPart, at_stake
from intake.domain.call_order import call_need
from intake.domain.limits import DEFAULT_LIMITS

AT_ONCE = 500
FIELDS = ["call_by", "call_why", "at_stake", "waits_since"]


def fill(apps, schema_editor):
    """Who waits already is put in order, by what their current sheets were judged to need."""
    requests = apps.get_model("intake", "Submission").objects.filter(status="needs_call")
    sheets = apps.get_model("intake", "SheetVersion").objects.filter(is_current=True)
    prices = dict(_priced(apps))
    after = 0
    while some := list(requests.filter(pk__gt=after).order_by("pk")[:AT_ONCE]):
        after = some[-1].pk
        outcomes = dict(
            sheets.filter(submission__in=some).values_list("submission_id", "outcome")
        )
        for one in some:
            _stamp(one, outcomes.get(one.pk) or {}, prices)
        requests.bulk_update(some, FIELDS, batch_size=100)


def _priced(apps):
    parts = apps.get_model("catalog", "Part").objects
    for code, kind, price, per in parts.values_list("code", "kind", "price", "per"):
        yield code, PricedPart(kind, price, per)


def _stamp(one, outcome, prices):
    overall = ((outcome.get("shaft") or {}).get("overall_length") or {}).get("mm")
    parts = [
        prices[part["code"]]._replace(quantity=part["quantity"])
        for part in outcome.get("parts") or ()
        if part["code"] in prices
    ]
    length = Length(int(Decimal(overall) * NM_PER_MM)) if overall else None
    one.at_stake = at_stake(parts, length, DEFAULT_LIMITS.bar_facing_and_saw)
    one.waits_since = one.received_at
    since = timezone.localtime(one.received_at)
    one.call_by, one.call_why = call_need(since, one.needed_by, one.at_stake, DEFAULT_LIMITS)


class Migration(migrations.Migration):

    dependencies = [
        ("catalog", "0001_initial"),
        ("intake", "0009_customers"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="CallAlarm",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("day", models.DateField()),
                ("sending_at", models.DateTimeField(blank=True, null=True)),
                ("sent_at", models.DateTimeField(blank=True, null=True)),
                ("dropped", models.CharField(blank=True, max_length=60)),
                (
                    "submission",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="alarms",
                        to="intake.submission",
                    ),
                ),
            ],
            options={"ordering": ["-day", "-pk"]},
        ),
        migrations.AddConstraint(
            model_name="callalarm",
            constraint=models.UniqueConstraint(fields=("submission", "day"), name="one_alarm_a_day"),
        ),
        migrations.AddField(
            model_name="submission",
            name="call_why",
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddField(
            model_name="submission",
            name="waits_since",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddIndex(
            model_name="callrecord",
            index=models.Index(fields=["by", "at"], name="call_by_person"),
        ),
        migrations.RunPython(fill, migrations.RunPython.noop),
    ]
