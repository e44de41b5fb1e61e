"""What a web server serves.

Only serving processes load this module (runserver's child and every gunicorn worker), so
this is where the embedded job thread starts. With a broker it does not start at all.
"""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")

application = get_wsgi_application()

from intake.jobs import start_thread  # noqa: E402  (the apps must be ready first)

start_thread()
