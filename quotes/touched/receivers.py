"""Tells the catalogue which quotes rest on a part."""

from __future__ import annotations

from typing import Any

from django.dispatch import receiver
from django.urls import reverse

from catalog.editing.touched import Touched
from catalog.signals import part_will_change
from quotes.touched.selectors import quotes_naming


@receiver(part_will_change, dispatch_uid="quotes.touched")
def quotes_rest_on_it(code: str, **_: Any) -> list[Touched]:
    """Each open quote, with who it is for and how it stands."""
    return [
        Touched(
            f"quote {quote} of {quote.submission.boat_name or quote.submission.reference}, "
            f"{quote.get_status_display()}",
            reverse("submission", args=[quote.submission.reference]),
            binds=True,
        )
        for quote in quotes_naming(code)
    ]
