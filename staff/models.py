"""Who works here and who changed what. Only services write these rows, only selectors read them."""

from __future__ import annotations

from staff.trail.models import Change as Change  # Django looks for models here
