"""``manage.py simulate`` prints the season, and the same one however it is split."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

from django.core.management import call_command

from intake.management.commands.simulate import season


def test_the_command_prints_the_report_and_writes_the_counts(tmp_path: Path) -> None:
    out, counts = StringIO(), tmp_path / "season.json"
    call_command(
        "simulate", "--sheets=40", "--seed=8", "--processes=1", f"--json={counts}", stdout=out
    )
    text = out.getvalue()
    assert "A virtual season of 40 sheets, seed 8" in text
    assert "desk (a) copies the old length" in text
    assert "STATED FIT PROBABILITY" in text
    told = json.loads(counts.read_text("utf-8"))
    assert told["counts"]["two/sheets"] + told["counts"]["one/sheets"] == 40


def test_how_many_processes_makes_no_difference(monkeypatch) -> None:
    monkeypatch.setattr("intake.management.commands.simulate.PART", 10)
    one, two = (season(seed=6, sheets=40, processes=n) for n in (1, 2))
    assert one.counts == two.counts
