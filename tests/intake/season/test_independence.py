"""The season shares no judging code: what it finds is not what it was told."""

from __future__ import annotations

import pytest

from tests.architecture.code import ROOT, Module

SEASON = [Module(path) for path in sorted((ROOT / "intake/season").glob("*.py"))]
MAY_SHARE = (
    *("catalog.domain.lengths", "catalog.domain.ends", "catalog.domain.standards"),
    "intake.domain.shares",  # an interval of statistics: it judges nothing
)
THE_TOOLS_DOOR = (
    "intake.domain.history",
    "intake.domain.reading",
    "intake.domain.sheet",
    "intake.domain.verdict",
    "intake.evaluate",
)
STOCK = {"desks.py", "play.py"}  # they hand it on
LOOKS_OUTSIDE = ("django", "os", "time", "datetime", "pathlib", "subprocess", "socket", "logging")

each = pytest.mark.parametrize("module", SEASON, ids=[m.path.name for m in SEASON])


@each
def test_only_the_desk_meets_the_tool(module: Module) -> None:
    allowed = ["intake.season", *MAY_SHARE]
    if module.path.name in STOCK:
        allowed.append("catalog.domain.stock")
    if module.path.name == "desks.py":
        allowed += THE_TOOLS_DOOR
    ours = [name for name in module.imports() if name.split(".")[0] in ("catalog", "intake")]
    wrong = [n for n in ours if not any(n == a or n.startswith(f"{a}.") for a in allowed)]
    assert not wrong


@each
def test_the_season_is_pure(module: Module) -> None:
    wrong = [name for name in module.imports() if name.split(".")[0] in LOOKS_OUTSIDE]
    text = module.path.read_text("utf-8")
    assert not wrong
    assert "open(" not in text
    assert "print(" not in text


def test_the_rule_sees_the_season() -> None:
    names = {module.path.name for module in SEASON}
    assert {"boats.py", "tape.py", "mistakes.py", "desks.py", "tally.py"} <= names
    assert any("intake.evaluate" in m.imports() for m in SEASON if m.path.name == "desks.py")
