"""Production's settings with a throw-away database and the floor beside our own addresses."""

import os
from pathlib import Path

os.environ.setdefault("SECRET_KEY", "the-bench-keeps-no-secrets")
os.environ["HTTPS"] = "false"
os.environ.setdefault("LOG_LEVEL", "WARNING")
os.environ.setdefault("DESK_LOCK_MINUTES", "720")  # the small shop waits while the big one fills
os.environ["API_THROTTLE"] = ""  # thousands of calls from one address are the point here

from config.settings import *  # noqa: F403
from config.settings import DATABASES, INSTALLED_APPS, STORAGES

FOLDER = Path(os.environ["FAIRGAP_BENCH_FOLDER"])
ROOT_URLCONF = "tests.bench.urls"
INSTALLED_APPS = [*INSTALLED_APPS, "tests.bench"]
STATIC_ROOT = FOLDER
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
DEBUG_PROPAGATE_EXCEPTIONS = True  # an error is said as it is, not as a page
SQLITE = DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3"
DATABASES["default"]["TEST"] = {
    "NAME": str(FOLDER / "bench.sqlite3") if SQLITE else f"bench_{os.getpid()}"
}
