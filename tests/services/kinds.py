"""Kinds of job for the tests of real workers.

A worker loads them by ``--include tests.services.kinds``; a web server by serving
``tests.services.wsgi``.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from intake.jobs import handler


@handler("slow-mark")
def slow_mark(payload: Mapping[str, Any]) -> Callable[[], object]:
    """Write down that it started, take ``seconds``, then make one Group called ``name``."""
    from django.contrib.auth.models import Group

    with Path(payload["diary"]).open("a") as diary:
        diary.write(f"{os.getpid()}\n")
    time.sleep(payload["seconds"])
    return lambda: Group.objects.create(name=payload["name"])
