"""Bars, blanks and remnants as pieces."""

from __future__ import annotations

from typing import Any, ClassVar

import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [
        ("catalog", "0002_prices"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='Certificate',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('sha256', models.CharField(max_length=64, unique=True)),
                ('kind', models.CharField(choices=[('pdf', 'PDF'), ('jpeg', 'JPEG')], max_length=4)),
                ('content', models.BinaryField()),
                ('came_at', models.DateTimeField(default=django.utils.timezone.now)),
            ],
        ),
        migrations.CreateModel(
            name='GoodsIn',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('paper', models.CharField(max_length=60, verbose_name='delivery paper')),
                ('line', models.PositiveSmallIntegerField(default=1, verbose_name='line')),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
            ],
        ),
        migrations.CreateModel(
            name='Piece',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('bar', 'bar'), ('blank', 'blank'), ('remnant', 'remnant')], max_length=7, verbose_name='kind')),
                ('length_nm', models.BigIntegerField(verbose_name='length')),
                ('free_nm', models.BigIntegerField(verbose_name='free of it')),
                ('heat', models.CharField(blank=True, max_length=60, verbose_name='heat')),
                ('certificate_number', models.CharField(blank=True, max_length=60, verbose_name='certificate number')),
                ('place', models.CharField(blank=True, max_length=60, verbose_name='place in the rack')),
                ('came_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('gone_at', models.DateTimeField(blank=True, null=True)),
                ('gone_why', models.CharField(blank=True, max_length=200)),
            ],
            options={
                'verbose_name': 'piece',
                'verbose_name_plural': 'pieces',
            },
        ),
        migrations.CreateModel(
            name='ReorderPoint',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.PositiveIntegerField(verbose_name='order at')),
                ('to', models.PositiveIntegerField(verbose_name='up to')),
            ],
        ),
        migrations.AddField(
            model_name='part',
            name='held',
            field=models.IntegerField(default=0, editable=False, verbose_name='held'),
        ),
        migrations.AddConstraint(
            model_name='part',
            constraint=models.CheckConstraint(condition=models.Q(('held__gte', 0)), name='part_held_not_below_zero'),
        ),
        migrations.AddField(
            model_name='goodsin',
            name='by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='goodsin',
            name='part',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='catalog.part'),
        ),
        migrations.AddField(
            model_name='piece',
            name='certificate',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='pieces', to='catalog.certificate'),
        ),
        migrations.AddField(
            model_name='piece',
            name='cut_from',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='cut_off', to='catalog.piece'),
        ),
        migrations.AddField(
            model_name='piece',
            name='goods_in',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='pieces', to='catalog.goodsin'),
        ),
        migrations.AddField(
            model_name='piece',
            name='part',
            field=models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='pieces', to='catalog.part'),
        ),
        migrations.AddField(
            model_name='reorderpoint',
            name='part',
            field=models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='reorder_point', to='catalog.part'),
        ),
        migrations.AddConstraint(
            model_name='goodsin',
            constraint=models.UniqueConstraint(fields=('paper', 'line'), name='goods_in_once'),
        ),
        migrations.AddIndex(
            model_name='piece',
            index=models.Index(condition=models.Q(('gone_at__isnull', True)), fields=['part', 'id'], name='piece_in_the_rack'),
        ),
        migrations.AddIndex(
            model_name='piece',
            index=models.Index(condition=models.Q(('gone_at__isnull', False)), fields=['gone_at', 'id'], name='piece_gone'),
        ),
        migrations.AddConstraint(
            model_name='piece',
            constraint=models.CheckConstraint(condition=models.Q(('length_nm__gt', 0)), name='piece_has_a_length'),
        ),
        migrations.AddConstraint(
            model_name='piece',
            constraint=models.CheckConstraint(condition=models.Q(('free_nm__gte', 0)), name='piece_free_not_below_zero'),
        ),
        migrations.AddConstraint(
            model_name='piece',
            constraint=models.CheckConstraint(condition=models.Q(('free_nm__lte', models.F('length_nm'))), name='piece_free_not_above_length'),
        ),
        migrations.AddConstraint(
            model_name='reorderpoint',
            constraint=models.CheckConstraint(condition=models.Q(('to__gt', models.F('at'))), name='reorder_up_to_more'),
        ),
    ]
