"""Pieces held for a quote."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("quotes", "0008_quote_life"),
        ("catalog", "0003_pieces"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='Hold',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('line', models.CharField(max_length=40)),
                ('what', models.CharField(max_length=200)),
                ('part_code', models.CharField(blank=True, max_length=40)),
                ('quantity', models.PositiveIntegerField(default=1)),
                ('system', models.CharField(blank=True, max_length=4)),
                ('diameter_nm', models.BigIntegerField(blank=True, null=True)),
                ('alloy', models.CharField(blank=True, max_length=20)),
                ('needed_nm', models.BigIntegerField(blank=True, null=True)),
                ('state', models.CharField(choices=[('held', 'held'), ('taken', 'taken'), ('given_back', 'given back'), ('to_order', 'to be ordered')], max_length=10)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('piece', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='holds', to='catalog.piece')),
                ('quote', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='holds', to='quotes.quote')),
                ('remnant', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalog.piece')),
            ],
            options={
                'indexes': [models.Index(condition=models.Q(('state', 'held'), ('state', 'to_order'), _connector='OR'), fields=['line', 'id'], name='hold_that_waits')],
                'constraints': [models.UniqueConstraint(fields=('quote', 'line'), name='one_hold_of_each_line'), models.CheckConstraint(condition=models.Q(('needed_nm__isnull', True), ('needed_nm__gt', 0), _connector='OR'), name='hold_needs_some')],
            },
        ),
    ]
