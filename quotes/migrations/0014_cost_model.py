"""Costs and targets."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
import intake.fields
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("quotes", "0013_insight"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='CostSet',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveIntegerField()),
                ('name', models.CharField(max_length=40)),
                ('from_day', models.DateField()),
                ('reason', models.CharField(max_length=400)),
                ('adopted_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('values', intake.fields.KeptJSON(default=dict)),
                ('stamp', models.UUIDField(default=uuid.uuid4)),
                ('adopted_by', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-number'],
                'constraints': [models.UniqueConstraint(fields=('number',), name='one_cost_set_of_each_number'), models.UniqueConstraint(fields=('name',), name='one_cost_set_of_each_name')],
            },
        ),
    ]
