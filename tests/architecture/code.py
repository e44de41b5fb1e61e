"""The code as data: every module of the rooms, what it imports, what it says."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("staff", "catalog", "intake", "quotes", "config")  # an import may only point left


@dataclass(frozen=True)
class Module:
    """One source file of a room."""

    path: Path

    @property
    def name(self) -> str:
        """The path below the project, as people say it: intake/checks/gap.py."""
        return self.path.relative_to(ROOT).as_posix()

    @property
    def room(self) -> str:
        return self.name.split("/")[0]

    @property
    def is_pure(self) -> bool:
        parts = self.path.relative_to(ROOT).parts
        return (
            {"domain", "paper"} & set(parts[:-1]) != set()
            or self.name.startswith(("intake/checks/", "quotes/checks/"))
            or self.name == "intake/evaluate.py"
        )

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.path.read_text("utf-8"))

    def imports(self, *, checking: bool = True) -> Iterator[str]:
        """Every module it imports, also inside functions; without TYPE_CHECKING if asked."""
        typing_only = set() if checking else self._typing_only()
        for node in ast.walk(self.tree):
            if node in typing_only:
                continue
            if isinstance(node, ast.Import):
                yield from (alias.name for alias in node.names)
            elif isinstance(node, ast.ImportFrom):
                yield self._absolute(node)
                yield from (f"{self._absolute(node)}.{alias.name}" for alias in node.names)

    def _absolute(self, node: ast.ImportFrom) -> str:
        if not node.level:
            return node.module or ""
        package = self.path.relative_to(ROOT).parts[: -node.level]
        return ".".join([*package, *filter(None, [node.module])])

    def _typing_only(self) -> set[ast.AST]:
        return {
            inner
            for node in ast.walk(self.tree)
            if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)
            for inner in ast.walk(node)
        }


def modules() -> list[Module]:
    """Every source file of every room; migrations write themselves."""
    paths = [path for room in ROOMS for path in sorted((ROOT / room).rglob("*.py"))]
    return [Module(path) for path in paths if "migrations" not in path.parts]


def templates() -> list[Path]:
    """Every template."""
    return sorted((ROOT / "templates").rglob("*.html"))
