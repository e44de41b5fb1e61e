"""What the manager's numbers are counted from."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('intake', '0010_calling'),
        ('quotes', '0012_invoices'),
    ]

    operations = [
        migrations.CreateModel(
            name='CountedUpTo',
            fields=[
                ('record', models.CharField(max_length=40, primary_key=True, serialize=False)),
                ('key', models.PositiveBigIntegerField(default=0)),
                ('at', models.DateTimeField(blank=True, null=True)),
            ],
        ),
        migrations.CreateModel(
            name='MonthToCount',
            fields=[
                ('month', models.CharField(max_length=7, primary_key=True, serialize=False)),
            ],
        ),
        migrations.CreateModel(
            name='Cell',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('month', models.CharField(max_length=7)),
                ('channel', models.CharField(blank=True, max_length=5)),
                ('method', models.CharField(blank=True, max_length=20)),
                ('layout', models.CharField(blank=True, max_length=20)),
                ('role', models.CharField(blank=True, max_length=10)),
                ('parts', models.CharField(blank=True, max_length=3)),
                ('measure', models.CharField(max_length=20)),
                ('key', models.CharField(blank=True, max_length=120)),
                ('n', models.IntegerField(default=0)),
                ('amount', models.BigIntegerField(default=0)),
            ],
            options={
                'indexes': [models.Index(fields=['measure', 'month', 'key', 'n', 'amount'], name='cell_by_measure'), models.Index(fields=['month'], name='cell_by_month')],
            },
        ),
        migrations.CreateModel(
            name='RequestFact',
            fields=[
                ('month', models.CharField(max_length=7)),
                ('channel', models.CharField(blank=True, max_length=5)),
                ('method', models.CharField(blank=True, max_length=20)),
                ('layout', models.CharField(blank=True, max_length=20)),
                ('role', models.CharField(blank=True, max_length=10)),
                ('parts', models.CharField(blank=True, max_length=3)),
                ('submission', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, primary_key=True, related_name='fact', serialize=False, to='intake.submission')),
                ('received_at', models.DateTimeField()),
                ('customer', models.PositiveBigIntegerField(blank=True, null=True)),
                ('family', models.CharField(blank=True, max_length=140)),
                ('rules_version', models.CharField(blank=True, max_length=20)),
                ('first_verdict', models.CharField(blank=True, max_length=7)),
                ('flags', models.PositiveSmallIntegerField(default=0)),
                ('calls', models.PositiveSmallIntegerField(default=0)),
                ('answered', models.JSONField(default=list)),
                ('machine_seconds', models.PositiveIntegerField(blank=True, null=True)),
                ('desk_seconds', models.PositiveIntegerField(blank=True, null=True)),
                ('customer_seconds', models.PositiveIntegerField(blank=True, null=True)),
                ('shipped_on', models.DateField(blank=True, null=True)),
                ('shipped_month', models.CharField(blank=True, max_length=7)),
                ('stated_fit', models.FloatField(blank=True, null=True)),
                ('z', models.FloatField(blank=True, null=True)),
                ('fits', models.BooleanField(blank=True, null=True)),
                ('caught', models.CharField(blank=True, max_length=5)),
                ('over', models.JSONField(default=list)),
                ('lacking', models.JSONField(default=list)),
                ('audited', models.BooleanField(default=False)),
                ('audit_wrong', models.BooleanField(blank=True, null=True)),
            ],
            options={
                'indexes': [models.Index(fields=['month', 'submission'], name='fact_by_month'), models.Index(fields=['shipped_month', 'submission'], name='fact_by_shipping')],
            },
        ),
        migrations.CreateModel(
            name='MismatchFact',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('month', models.CharField(max_length=7)),
                ('channel', models.CharField(blank=True, max_length=5)),
                ('method', models.CharField(blank=True, max_length=20)),
                ('layout', models.CharField(blank=True, max_length=20)),
                ('role', models.CharField(blank=True, max_length=10)),
                ('parts', models.CharField(blank=True, max_length=3)),
                ('on', models.DateField()),
                ('cause', models.CharField(max_length=16)),
                ('found', models.CharField(max_length=12)),
                ('born', models.CharField(blank=True, max_length=10)),
                ('answer', models.CharField(blank=True, max_length=40)),
                ('cost', models.DecimalField(decimal_places=2, default=0, max_digits=11)),
                ('fired', models.BooleanField(default=False)),
                ('overridden', models.BooleanField(default=False)),
                ('again', models.CharField(blank=True, max_length=3)),
                ('what', models.CharField(blank=True, max_length=40)),
                ('case', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='quotes.case')),
                ('fact', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='mismatch_facts', to='quotes.requestfact')),
            ],
            options={
                'indexes': [models.Index(fields=['month', 'cause'], name='mismatch_fact_by_cause'), models.Index(fields=['cause', 'on'], name='mismatch_fact_by_day')],
            },
        ),
        migrations.CreateModel(
            name='FlagFact',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('month', models.CharField(max_length=7)),
                ('channel', models.CharField(blank=True, max_length=5)),
                ('method', models.CharField(blank=True, max_length=20)),
                ('layout', models.CharField(blank=True, max_length=20)),
                ('role', models.CharField(blank=True, max_length=10)),
                ('parts', models.CharField(blank=True, max_length=3)),
                ('check_id', models.CharField(max_length=40)),
                ('answer', models.CharField(blank=True, max_length=40)),
                ('asked', models.BooleanField(default=False)),
                ('was_right', models.BooleanField(blank=True, null=True)),
                ('over', models.CharField(blank=True, max_length=200)),
                ('fact', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='flag_facts', to='quotes.requestfact')),
            ],
            options={
                'indexes': [models.Index(fields=['month', 'check_id'], name='flag_fact_by_check')],
            },
        ),
        migrations.CreateModel(
            name='BarFact',
            fields=[
                ('hold', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, primary_key=True, related_name='+', serialize=False, to='quotes.hold')),
                ('month', models.CharField(max_length=7)),
                ('part_code', models.CharField(max_length=40)),
                ('size', models.CharField(max_length=60)),
                ('used_nm', models.BigIntegerField()),
                ('kept_nm', models.BigIntegerField(default=0)),
                ('dropped_nm', models.BigIntegerField(default=0)),
                ('fact', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='bar_facts', to='quotes.requestfact')),
            ],
            options={
                'indexes': [models.Index(fields=['month', 'part_code'], name='bar_fact_by_month')],
            },
        ),
    ]
