"""Settings for the test suite: production's, with what would only cost time taken out."""

import os
import tempfile
from pathlib import Path

os.environ.setdefault("SECRET_KEY", "the-test-suite-keeps-no-secrets")
os.environ.setdefault("HTTPS", "false")
os.environ.setdefault("API_THROTTLE", "")

from config.settings import *  # noqa: F403
from config.settings import DATABASES, INSTALLED_APPS, MIDDLEWARE, STORAGES

WORDING_SECONDS = 0  # words are looked at when a test says so
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
# The live server of the browser tests serves static files itself.
MIDDLEWARE = [name for name in MIDDLEWARE if not name.startswith("whitenoise.")]
# zeal turns every N+1 query of a request into an error.
INSTALLED_APPS = [*INSTALLED_APPS, "zeal"]
MIDDLEWARE = ["zeal.middleware.zeal_middleware", *MIDDLEWARE]

if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # A file, as in real life: WAL, writers that queue, one connection a thread.
    _folder = os.environ.get("FAIRGAP_TEST_FOLDER") or tempfile.gettempdir()
    DATABASES["default"]["TEST"] = {"NAME": str(Path(_folder) / f"test-{os.getpid()}.sqlite3")}
