"""What the sweep looks after here."""

from __future__ import annotations

from intake.jobs import chore
from quotes.insight.keeping.services import EVERY_SECONDS, keep_up

chore(keep_up, seconds=EVERY_SECONDS)
