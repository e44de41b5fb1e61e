"""The Celery application. It carries nudges and one sweep; the work itself is rows."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")

app = Celery("fairgap")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
