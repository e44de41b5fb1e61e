"""The whole site, with the kinds of the tests known before the job thread starts."""

import os

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
django.setup()

from tests.services import kinds  # noqa: E402, I001  (before the thread starts)
from config.wsgi import application  # noqa: E402

__all__ = ["application", "kinds"]
