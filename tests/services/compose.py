"""The compose file, read as an engine reads it, its commands run as plain processes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from tests.services.conftest import ROOT

_VARIABLE = re.compile(r"\$\{(?P<name>\w+)(?::(?P<how>[?-])(?P<rest>[^}]*))?\}")


class MissingVariable(Exception):
    """``${NAME:?why}``, and NAME is not set."""


def read_compose(variables: Mapping[str, str], path: Path = ROOT / "docker-compose.yml") -> Any:
    """The whole file with every ``${...}`` filled in."""

    def fill(match: re.Match[str]) -> str:
        name, how, rest = match["name"], match["how"], match["rest"]
        if variables.get(name):
            return variables[name]
        if how == "-":
            return str(rest)
        raise MissingVariable(f"{name}: {rest}")

    def filled(node: Any) -> Any:
        match node:
            case dict():
                return {key: filled(value) for key, value in node.items()}
            case list():
                return [filled(value) for value in node]
            case str():
                return _VARIABLE.sub(fill, node)
        return node

    return filled(yaml.safe_load(path.read_text("utf-8")))


def seconds(text: str) -> float:
    """ "30s" and "2m" as seconds."""
    return float(text[:-1]) * {"s": 1, "m": 60}[text[-1]]
