"""The rules of the house, tried on code that breaks them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.architecture import test_rooms as rules
from tests.architecture.code import ROOT, Module


def written(name: str, text: str) -> Module:
    module = Module(ROOT / name)
    module.__dict__["tree"] = __import__("ast").parse(text)
    return module


BROKEN = [
    (rules.test_rooms_look_left, "catalog/services.py", "from intake import models"),
    (rules.test_rooms_look_left, "intake/views.py", "def f():\n    import quotes.services"),
    (rules.test_pure_inside, "intake/checks/gap.py", "from django.db import models"),
    (rules.test_pure_inside, "intake/evaluate.py", "import time"),
    (
        rules.test_a_pure_module_looks_at_nothing_pure_rooms_do_not_know,
        "intake/domain/fit.py",
        "from intake.models import Job",
    ),
    (
        rules.test_a_pure_module_reads_no_clock_and_opens_nothing,
        "quotes/paper/quote.py",
        "from datetime import date\nday = date.today()",
    ),
    (
        rules.test_a_pure_module_reads_no_clock_and_opens_nothing,
        "intake/domain/fit.py",
        "text = open('x').read()",
    ),
    (rules.test_one_door_to_the_database, "intake/views.py", "Job.objects.all()"),
    (rules.test_no_room_reads_the_environment, "quotes/services.py", "import os"),
]


@pytest.mark.parametrize(
    ("rule", "name", "text"), BROKEN, ids=[f"{r.__name__}-{n}" for r, n, _ in BROKEN]
)
def test_a_broken_rule_is_seen(rule: Callable[[Module], None], name: str, text: str) -> None:
    with pytest.raises(AssertionError, match=Path(name).stem):
        rule(written(name, text))
