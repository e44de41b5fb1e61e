"""What the customer chose besides the parts: another alloy, options, a rush.

Rows are only added; the newest one stands.
"""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from intake.models import SheetVersion, Submission


class Choice(models.Model):
    """One choice, made on one sheet version. ``alloy`` "": the sheet's own metal; ``options``: the
    keys of what was ticked. ``by`` is staff; ``name`` and ``told_from`` say which customer and from
    where, and are blanked when the customer is erased.
    """

    submission = models.ForeignKey(Submission, models.CASCADE, related_name="choices")
    sheet = models.ForeignKey(SheetVersion, models.CASCADE, related_name="+")
    alloy = models.CharField(max_length=12, blank=True)
    options = models.JSONField(default=list, blank=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, null=True, blank=True, related_name="+"
    )
    name = models.CharField(max_length=300, blank=True)
    told_from = models.CharField(max_length=200, blank=True)
    at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.alloy or 'own metal'}: {', '.join(self.options) or 'nothing else'}"
