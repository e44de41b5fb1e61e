"""Writing down what was supplied and how it fitted. Called by the shop's room, read by intake."""

from __future__ import annotations

from datetime import date

from django.utils import timezone

from catalog.domain.lengths import Length
from intake.domain.diameter import nearest_size
from intake.domain.fit import gap_band
from intake.domain.known_by import boat_key, email_key, family_key, phone_key
from intake.domain.reading import read_sheet
from intake.limit_sets.selectors import current_limits
from intake.models import Submission
from intake.records.models import ShaftFitted
from intake.records.selectors import boat_of
from intake.selectors import current_sheet


def record_fit(
    *,
    submission: Submission,
    length: Length,
    diameter: Length,
    alloy: str = "",
    gap: Length | None = None,
    misfit: bool | None = None,
    sent: date | None = None,
) -> ShaftFitted:
    """Store a shaft that was supplied; once more when its gap or a misfit is told.

    ``length`` is from coupling face to thread end, as made. ``gap`` is the one it was fitted with.
    ``misfit`` None: it is one where that gap lies outside its band. ``sent`` None: today.
    """
    band = gap_band(nearest_size(diameter), current_limits())
    if misfit is None:
        misfit = gap is not None and not band.least <= gap <= band.most
    sheet = read_sheet(current_sheet(submission).body)
    return ShaftFitted.objects.create(
        submission=submission,
        boat_id=boat_of(submission),
        boat_key=boat_key(submission.boat_name),
        station=submission.station,
        phone_key=phone_key(submission.contact_phone),
        email_key=email_key(submission.contact_email),
        family_key=family_key(sheet),
        length_nm=length.nm,
        diameter_nm=diameter.nm,
        alloy=alloy,
        month=f"{sent or timezone.localdate():%Y-%m}",
        gap_nm=gap.nm if gap is not None else None,
        off_nm=(gap - band.goal).nm if gap is not None else None,
        misfit=misfit,
    )
