"""A start loads nothing that only a login with a code needs."""

from __future__ import annotations

import subprocess
import sys

from tests.services.conftest import ROOT, clean_environment


def test_codes_and_squares_are_loaded_when_they_are_needed() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "import django, sys; django.setup(); import config.urls; "
         "print(sorted({'pyotp', 'segno'} & set(sys.modules)))"],
        env=clean_environment(DJANGO_SETTINGS_MODULE="config.settings"),
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == "[]"
