"""Tables that were sent, what was made of them, and what they changed."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

_PERSON = settings.AUTH_USER_MODEL
SENT, TAKEN, UNDONE = "sent", "taken", "undone"
STATES = [(SENT, "looked at, not taken"), (TAKEN, "taken"), (UNDONE, "taken back")]


class PartImport(models.Model):
    """One table of parts. ``columns``: our column -> the table's; ``whole``: it is the whole list,
    so what is not in it goes. ``did``: what taking it changed, so that it can be taken back:
    {"added": [code], "changed": {code: [cells before, cells after]}, "removed": [cells before]}.
    """

    name = models.CharField(max_length=200)
    sha256 = models.CharField(max_length=64)
    content = models.BinaryField()
    columns = models.JSONField(default=dict)
    whole = models.BooleanField(default=False)
    state = models.CharField(max_length=6, choices=STATES, default=SENT)
    why = models.CharField(max_length=400, blank=True)
    did = models.JSONField(default=dict)
    by = models.ForeignKey(_PERSON, models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)
    taken_at = models.DateTimeField(null=True, blank=True)
    undone_by = models.ForeignKey(_PERSON, models.PROTECT, null=True, blank=True, related_name="+")
    undone_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        app_label = "catalog"
        ordering = ["-pk"]  # newest first

    def __str__(self) -> str:
        return self.name
