"""Who may open a staff page of this room: first logged in, then of the right group."""

from __future__ import annotations

from staff.access import View as View
from staff.access import needs as needs

staff_required = needs("intake.view_submission")
counter_required = needs("intake.view_submission", "intake.add_callrecord")
manager_required = needs("intake.view_insights")
