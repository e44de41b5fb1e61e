"""Sessions as Django keeps them in the database; reading one is a statement written once."""

from __future__ import annotations

from django.contrib.sessions.backends.db import SessionStore as KeptByDjango
from django.contrib.sessions.models import Session
from django.db import connection
from django.utils import timezone

from staff.fetching import built, columns


class SessionStore(KeptByDjango):
    """What a browser's cookie stands for."""

    def _get_session_from_db(self) -> Session | None:
        now = connection.ops.adapt_datetimefield_value(timezone.now())
        with connection.cursor() as cursor:
            cursor.execute(_SESSION, [self.session_key, now])
            row = cursor.fetchone()
        if row is None:
            self._session_key = None
            return None
        return built(Session, row)


_SESSION = f"""
SELECT {columns(Session, "s")} FROM {Session._meta.db_table} s
WHERE s.session_key = %s AND s.expire_date > %s
"""  # noqa: S608  (nothing in it comes from outside)
