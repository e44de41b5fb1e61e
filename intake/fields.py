"""JSON that is kept letter for letter."""

from __future__ import annotations

import json
from typing import Any

from django.db import models
from django.db.backends.base.base import BaseDatabaseWrapper


class KeptJSON(models.JSONField):
    """JSON as text: names stay in the order they came in, on both databases.

    PostgreSQL's jsonb would sort them. What a customer typed is kept as typed, and a repeated call
    gets the very answer of the first. Not for looking inside with a query.
    """

    def db_type(self, connection: BaseDatabaseWrapper) -> str | None:
        return "json" if connection.vendor == "postgresql" else super().db_type(connection)

    def get_db_prep_value(
        self, value: Any, connection: BaseDatabaseWrapper, prepared: bool = False
    ) -> str:
        return json.dumps(value)

    def from_db_value(self, value: Any, expression: Any, connection: BaseDatabaseWrapper) -> Any:
        return json.loads(value) if isinstance(value, str) else value
