"""Who works here and who changed what. Only services write these rows, only selectors read them."""

from __future__ import annotations

from staff.accounts.models import Account as Account  # Django looks for models here
from staff.seats.models import Seat as Seat
from staff.second.models import RecoveryCode as RecoveryCode
from staff.second.models import SecondFactor as SecondFactor
from staff.second.models import SecondRule as SecondRule
from staff.trail.models import Change as Change
