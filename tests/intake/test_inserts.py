"""A row inserted by hand is the row Django would have stored."""

from __future__ import annotations

import pytest
from django.db import IntegrityError

from intake.inserts import insert
from intake.models import Job
from intake.rows import month_of

pytestmark = pytest.mark.django_db


def test_every_field_arrives() -> None:
    job = Job(kind="try", payload={"a": [1, None, "é"]}, key="k", error="line\nline")
    assert insert(job)
    stored = Job.objects.get(pk=job.pk)
    for field in Job._meta.concrete_fields:
        assert getattr(stored, field.name) == getattr(job, field.name)
    assert not job._state.adding
    job.attempts = 1
    job.save()
    assert Job.objects.get().attempts == 1
    assert month_of(stored.created_at) == month_of(job.due)


def test_a_key_that_is_there_is_left_alone_or_an_error() -> None:
    first = Job(kind="try", key="k")
    assert insert(first)
    assert not insert(Job(kind="other", key="k"), unless_there=True)
    assert Job.objects.get() == first
    with pytest.raises(IntegrityError):
        insert(Job(kind="other", key="k"))
