"""A line for each request, with an index of its words made by the database itself.

The table's own triggers keep SQLite's index of words; a later migration that makes that table
anew must call ``hang_words`` again.
"""

import datetime

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

_SQLITE = (
    # Nothing but which line has which word: no places, no sizes. Short beginnings have their own.
    """CREATE VIRTUAL TABLE intake_requestwords USING fts5(
        words, content='intake_requestline', content_rowid='submission_id',
        tokenize='ascii', prefix='3 4 5 6', detail='none', columnsize=0)""",
    """CREATE TRIGGER requestline_added AFTER INSERT ON intake_requestline BEGIN
        INSERT INTO intake_requestwords(rowid, words) VALUES (new.submission_id, new.words);
    END""",
    """CREATE TRIGGER requestline_gone AFTER DELETE ON intake_requestline BEGIN
        INSERT INTO intake_requestwords(intake_requestwords, rowid, words)
        VALUES ('delete', old.submission_id, old.words);
    END""",
    """CREATE TRIGGER requestline_changed AFTER UPDATE OF words ON intake_requestline
        WHEN old.words <> new.words BEGIN
        INSERT INTO intake_requestwords(intake_requestwords, rowid, words)
        VALUES ('delete', old.submission_id, old.words);
        INSERT INTO intake_requestwords(rowid, words) VALUES (new.submission_id, new.words);
    END""",
)
_POSTGRESQL = (
    """ALTER TABLE intake_requestline ADD COLUMN lexemes tsvector
        GENERATED ALWAYS AS (array_to_tsvector(string_to_array(words, ' '))) STORED""",
    "CREATE INDEX line_by_words ON intake_requestline USING gin (lexemes)",
    # How many match a rare word cannot be guessed, and a wrong guess reads the whole table: what
    # may be few is always looked up by its words.
    """CREATE OR REPLACE FUNCTION intake_lines_with(asked tsquery, most integer)
        RETURNS SETOF bigint LANGUAGE sql STABLE
        SET enable_seqscan = off SET enable_indexscan = off SET enable_indexonlyscan = off
        AS $$ SELECT submission_id FROM intake_requestline WHERE lexemes @@ asked LIMIT most $$""",
)


def hang_words(apps, schema_editor):
    """Each database's own index on ``words``."""
    if schema_editor.connection.vendor == "sqlite":
        schema_editor.execute("DROP TABLE IF EXISTS intake_requestwords", None)
        for statement in _SQLITE:
            schema_editor.execute(statement, None)
    else:
        for statement in _POSTGRESQL:
            schema_editor.execute(statement, None)


def take_words_down(apps, schema_editor):
    if schema_editor.connection.vendor == "sqlite":
        schema_editor.execute("DROP TABLE intake_requestwords", None)
    else:
        schema_editor.execute("DROP FUNCTION intake_lines_with", None)


def by(name, *fields):
    return migrations.AddIndex("requestline", models.Index(fields=fields, name=name))


class Migration(migrations.Migration):
    dependencies = [
        ("intake", "0007_counter"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.AddField("submission", "to_index", models.BooleanField(default=True)),
        migrations.AddIndex(
            "submission",
            models.Index(
                condition=models.Q(("not_before__isnull", False)),
                fields=["not_before"],
                name="submission_promised",
            ),
        ),
        migrations.AddIndex(
            "submission",
            models.Index(
                condition=models.Q(("to_index", True)), fields=["id"], name="submission_to_index"
            ),
        ),
        migrations.AddIndex("callrecord", models.Index(fields=["at"], name="call_by_time")),
        migrations.CreateModel(
            "RequestLine",
            fields=[
                (
                    "submission",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.CASCADE,
                        primary_key=True,
                        related_name="line",
                        serialize=False,
                        to="intake.submission",
                    ),
                ),
                ("status", models.CharField(max_length=10)),
                ("rank", models.PositiveSmallIntegerField()),
                ("channel", models.CharField(max_length=5)),
                ("month", models.CharField(max_length=7)),
                (
                    "last_by",
                    models.ForeignKey(
                        blank=True,
                        db_index=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                ("needed", models.DateField(default=datetime.date(9999, 12, 31))),
                (
                    "waiting",
                    models.DateTimeField(
                        default=datetime.datetime(9999, 12, 31, tzinfo=datetime.timezone.utc)
                    ),
                ),
                ("boat", models.CharField(default="~", max_length=300)),
                ("words", models.TextField(blank=True)),
            ],
        ),
        by("line_by_status", "status", "-submission"),
        by("line_by_status_need", "status", "needed", "-submission"),
        by("line_by_status_wait", "status", "waiting", "submission"),
        by("line_by_status_verdict", "status", "rank", "-submission"),
        by("line_by_status_boat", "status", "boat", "-submission"),
        by("line_by_month", "month", "-submission"),
        by("line_by_month_need", "month", "needed", "-submission"),
        by("line_by_month_wait", "month", "waiting", "submission"),
        by("line_by_month_verdict", "month", "rank", "-submission"),
        by("line_by_month_boat", "month", "boat", "-submission"),
        by("line_by_channel", "channel", "-submission"),
        by("line_by_person", "last_by", "-submission"),
        by("line_by_verdict", "rank", "-submission"),
        by("line_by_need", "needed", "-submission"),
        by("line_by_wait", "waiting", "submission"),
        by("line_by_boat", "boat", "-submission"),
        migrations.RunPython(hang_words, take_words_down),
    ]
