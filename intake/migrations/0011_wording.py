"""Words of questions."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("intake", "0010_calling"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='QuestionWording',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('slug', models.CharField(max_length=40)),
                ('number', models.PositiveIntegerField()),
                ('ask', models.CharField(blank=True, max_length=300)),
                ('ask_es', models.CharField(blank=True, max_length=300)),
                ('reason', models.CharField(max_length=400)),
                ('adopted_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('adopted_by', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['-pk'],
                'constraints': [models.UniqueConstraint(fields=('slug', 'number'), name='one_wording_of_each_number')],
            },
        ),
    ]
