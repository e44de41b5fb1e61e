"""Invoices, payments, closed days."""

from __future__ import annotations

import uuid
from decimal import Decimal
from typing import Any, ClassVar

import django.core.validators
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0011_cases")]

    operations: ClassVar[list[Any]] = [
        migrations.CreateModel(
            name='ShopWeek',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('open_days', models.CharField(default='01234', max_length=7)),
                ('stamp', models.UUIDField(default=uuid.uuid4)),
            ],
        ),
        migrations.CreateModel(
            name='ClosedDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('day', models.DateField(unique=True)),
                ('why', models.CharField(max_length=120)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['day'],
            },
        ),
        migrations.CreateModel(
            name='Invoice',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.CharField(max_length=20, unique=True)),
                ('kind', models.CharField(choices=[('invoice', 'invoice'), ('credit', 'credit note')], max_length=8)),
                ('issued_on', models.DateField()),
                ('due_on', models.DateField(blank=True, null=True)),
                ('seller', models.JSONField(default=list)),
                ('buyer', models.JSONField(default=list)),
                ('about', models.JSONField(default=list)),
                ('lines', models.JSONField(default=list)),
                ('taxes', models.JSONField(default=list)),
                ('credited', models.JSONField(blank=True, default=dict)),
                ('net', models.DecimalField(decimal_places=2, max_digits=12)),
                ('tax', models.DecimalField(decimal_places=2, max_digits=12)),
                ('total', models.DecimalField(decimal_places=2, max_digits=12)),
                ('paid', models.DecimalField(decimal_places=2, default=0, max_digits=12)),
                ('to_pay', models.DecimalField(decimal_places=2, max_digits=12)),
                ('currency', models.CharField(blank=True, max_length=8)),
                ('reason', models.CharField(blank=True, max_length=400)),
                ('nonce', models.CharField(max_length=40, unique=True)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('bundle', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='invoices', to='quotes.bundle')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('of', models.ForeignKey(blank=True, db_index=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='credit_notes', to='quotes.invoice')),
            ],
            options={
                'ordering': ['-pk'],
                'permissions': [('credit_invoice', 'Can credit an invoice')],
            },
        ),
        migrations.CreateModel(
            name='InvoiceDocument',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('content', models.BinaryField()),
                ('sha256', models.CharField(max_length=64)),
                ('invoice', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='document', to='quotes.invoice')),
            ],
        ),
        migrations.CreateModel(
            name='InvoicedQuote',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('stands', models.BooleanField(default=True)),
                ('invoice', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='invoiced', to='quotes.invoice')),
                ('quote', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='invoiced', to='quotes.quote')),
            ],
        ),
        migrations.CreateModel(
            name='InvoiceSeries',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('invoice', 'invoice'), ('credit', 'credit note')], max_length=8)),
                ('year', models.PositiveSmallIntegerField()),
                ('last', models.PositiveIntegerField(default=0)),
            ],
            options={
                'constraints': [models.UniqueConstraint(fields=('kind', 'year'), name='one_series_a_year')],
            },
        ),
        migrations.CreateModel(
            name='Payment',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('deposit', 'deposit'), ('payment', 'payment'), ('refund', 'paid back')], max_length=8)),
                ('amount', models.DecimalField(decimal_places=2, max_digits=12, validators=[django.core.validators.MinValueValidator(Decimal('0.01'))])),
                ('day', models.DateField()),
                ('how', models.CharField(max_length=80)),
                ('note', models.CharField(blank=True, max_length=300)),
                ('nonce', models.CharField(max_length=40, unique=True)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('bundle', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='payments', to='quotes.bundle')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('quote', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='payments', to='quotes.quote')),
            ],
            options={
                'ordering': ['day', 'pk'],
            },
        ),
        migrations.AddConstraint(
            model_name='invoice',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'invoice'), ('of__isnull', True)), models.Q(('kind', 'credit'), ('of__isnull', False)), _connector='OR'), name='a_credit_note_is_of_an_invoice'),
        ),
        migrations.AddIndex(
            model_name='invoice',
            index=models.Index(condition=models.Q(('of__isnull', False)), fields=['of'], name='credit_note_of'),
        ),
        migrations.AddConstraint(
            model_name='invoice',
            constraint=models.CheckConstraint(condition=models.Q(('total__gte', 0)), name='an_invoice_asks_for_something'),
        ),
        migrations.AddConstraint(
            model_name='invoicedquote',
            constraint=models.UniqueConstraint(condition=models.Q(('stands', True)), fields=('quote',), name='a_quote_is_invoiced_once'),
        ),
        migrations.AddConstraint(
            model_name='invoicedquote',
            constraint=models.UniqueConstraint(fields=('invoice', 'quote'), name='once_on_an_invoice'),
        ),
        migrations.AddConstraint(
            model_name='payment',
            constraint=models.CheckConstraint(condition=models.Q(('amount__gt', 0)), name='a_payment_is_of_something'),
        ),
        migrations.AddConstraint(
            model_name='payment',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('bundle__isnull', False), ('quote__isnull', True)), models.Q(('bundle__isnull', True), ('quote__isnull', False)), _connector='OR'), name='a_payment_is_for_one_thing'),
        ),
    ]
