"""Imported tables."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("catalog", "0003_pieces"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='PartImport',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=200)),
                ('sha256', models.CharField(max_length=64)),
                ('content', models.BinaryField()),
                ('columns', models.JSONField(default=dict)),
                ('whole', models.BooleanField(default=False)),
                ('state', models.CharField(choices=[('sent', 'looked at, not taken'), ('taken', 'taken'), ('undone', 'taken back')], default='sent', max_length=6)),
                ('why', models.CharField(blank=True, max_length=400)),
                ('did', models.JSONField(default=dict)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('taken_at', models.DateTimeField(blank=True, null=True)),
                ('undone_at', models.DateTimeField(blank=True, null=True)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('undone_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-pk'],
            },
        ),
    ]
