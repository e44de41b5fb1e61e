"""The settings and the front door. Knows every room; no room knows it.

Celery is loaded only where a Redis is named: the embedded default does without it.
"""

import os

if os.environ.get("REDIS_URL"):
    from config.celery import app as celery_app

    __all__ = ["celery_app"]
