"""Lock files: exact, with hashes, and without the address of any registry."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parents[1] / "requirements"
LOCKS = sorted(FOLDER.glob("*.txt"))
PIN = re.compile(r"^([a-z0-9._-]+)(?:\[[a-z,_-]+\])?==(\S+)(?: ; .+)? \\$")
each_lock = pytest.mark.parametrize("lock", LOCKS, ids=[lock.name for lock in LOCKS])


def pins(lock: Path) -> dict[str, str]:
    found = map(PIN.match, lock.read_text("utf-8").splitlines())
    return {match[1]: match[2] for match in found if match}


@each_lock
def test_every_line_is_a_pin_a_hash_or_a_remark(lock: Path) -> None:
    hashed = re.compile(r"^    --hash=sha256:[0-9a-f]{64}(?: \\)?$")
    remark = re.compile(r"^    #  ?")
    odd = [
        line
        for line in lock.read_text("utf-8").splitlines()
        if not (PIN.match(line) or hashed.match(line) or remark.match(line))
    ]
    assert odd == []


@each_lock
def test_every_pin_has_a_hash_and_no_address(lock: Path) -> None:
    text = lock.read_text("utf-8")
    assert "://" not in text
    assert not re.search(r"--(extra-)?index|--find-links|--trusted-host", text)
    entries = re.split(r"^(?=[a-z0-9])", text, flags=re.MULTILINE)
    assert [e.split("\\")[0] for e in entries if e.strip() and "sha256:" not in e] == []
    assert len(pins(lock)) >= 1


@each_lock
def test_every_wish_is_locked(lock: Path) -> None:
    wishes = lock.with_suffix(".in").read_text("utf-8").splitlines()
    names = [re.split(r"[\[<>=; ]", wish)[0].lower() for wish in wishes if wish[:1].isalnum()]
    assert [name for name in names if name not in pins(lock)] == []


def test_what_is_tested_is_what_runs() -> None:
    run, test = pins(FOLDER / "base.txt"), pins(FOLDER / "dev.txt")
    assert {name: test.get(name) for name in run} == run
