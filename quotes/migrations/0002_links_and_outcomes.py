import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('intake', '0003_shafts_fitted'),
        ('quotes', '0001_quotes'),
    ]

    operations = [
        migrations.CreateModel(
            name='NoReminders',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('submission', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='no_reminders', to='intake.submission')),
            ],
        ),
        migrations.CreateModel(
            name='Mail',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('link', 'a new link'), ('question', 'reminder of a question'), ('quote', 'reminder of a quote')], max_length=10)),
                ('key', models.CharField(max_length=80)),
                ('made_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('sending_at', models.DateTimeField(blank=True, null=True)),
                ('sent_at', models.DateTimeField(blank=True, null=True)),
                ('dropped', models.CharField(blank=True, max_length=60)),
                ('submission', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='mails', to='intake.submission')),
            ],
            options={
                'ordering': ['-made_at', '-pk'],
                'constraints': [models.UniqueConstraint(fields=('key',), name='one_of_each_mail')],
            },
        ),
        migrations.CreateModel(
            name='OldLink',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('digest', models.CharField(max_length=64)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('submission', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='old_links', to='intake.submission')),
            ],
            options={
                'ordering': ['-at', '-pk'],
                'constraints': [models.UniqueConstraint(fields=('digest',), name='one_of_each_old_link')],
            },
        ),
        migrations.CreateModel(
            name='Outcome',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('after_days', models.PositiveSmallIntegerField()),
                ('fitted', models.CharField(choices=[('yes', 'yes, as it came'), ('changed', 'yes, after something was changed'), ('no', 'no')], max_length=8)),
                ('gap_typed', models.CharField(blank=True, max_length=40)),
                ('gap_nm', models.BigIntegerField(blank=True, null=True)),
                ('different', models.CharField(blank=True, max_length=1000)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('quote', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='outcomes', to='quotes.quote')),
            ],
            options={
                'ordering': ['after_days', 'pk'],
                'constraints': [models.UniqueConstraint(fields=('quote', 'after_days'), name='one_outcome_each_time_asked')],
            },
        ),
    ]
