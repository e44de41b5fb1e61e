"""Accounts have their own pages, where each change has a reason and a line in the trail.

Django's pages for them would write neither, and would let the last manager be closed.
"""

from __future__ import annotations

from django.contrib import admin
from django.contrib.auth.models import Group, User

admin.site.unregister((User, Group))
