"""What happens where a program is missing: installed if that is possible, else said."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

SCRIPT = Path(__file__).resolve().parents[2] / "scripts/system_deps.sh"
TOOLS = ("sh", "ls", "chmod", "rm", "cat", "test")
PROGRAMS = ("redis-server", "initdb", "chromium", "pdftoppm")


class Machine:
    """A machine with these programs only; apt-get writes down what it was asked."""

    def __init__(self, folder: Path, programs: set[str], *, root: bool) -> None:
        self.folder, self.bin = folder, folder / "bin"
        self.bin.mkdir()
        for tool in TOOLS:
            (self.bin / tool).symlink_to(str(shutil.which(tool)))
        for program in programs:
            self.write(program, "exit 0")
        self.write("id", f"echo {0 if root else 1000}")

    def write(self, name: str, line: str) -> None:
        path = self.bin / name
        path.write_text(f"#!/bin/sh\n{line}\n")
        path.chmod(0o755)

    def with_apt(self) -> Machine:
        self.write(
            "apt-get", f"[ -x {self.folder}/policy ] || exit 9; echo $* >> {self.folder}/asked"
        )
        return self

    def asked(self) -> list[str]:
        return (self.folder / "asked").read_text().splitlines()

    def run(self) -> subprocess.CompletedProcess[str]:
        env = {"PATH": str(self.bin), "POLICY_RC_D": str(self.folder / "policy")}
        return subprocess.run([SCRIPT], env=env, capture_output=True, text=True, check=False)


def test_nothing_missing_nothing_said(tmp_path: Path) -> None:
    done = Machine(tmp_path, set(PROGRAMS), root=True).with_apt().run()
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


@pytest.mark.parametrize("root", [True, False])
def test_what_cannot_be_installed_is_named(tmp_path: Path, root: bool) -> None:
    machine = Machine(tmp_path, {"initdb", "pdftoppm"}, root=root)
    done = machine.run() if root else machine.with_apt().run()
    assert done.returncode == 1
    assert "apt-get install redis-server chromium" in done.stderr


def test_what_is_missing_is_installed_and_no_service_starts(tmp_path: Path) -> None:
    machine = Machine(tmp_path, {"initdb", "chromium"}, root=True).with_apt()
    assert machine.run().returncode == 0
    update, install = machine.asked()
    assert update == "update -qq"
    assert install.endswith("redis-server poppler-utils")
    assert not (tmp_path / "policy").exists(), "the rule that stops services is taken away again"


def test_a_rule_that_was_there_before_stays(tmp_path: Path) -> None:
    (tmp_path / "policy").write_text("#!/bin/sh\nexit 101\n")
    (tmp_path / "policy").chmod(0o755)
    assert Machine(tmp_path, {"initdb"}, root=True).with_apt().run().returncode == 0
    assert (tmp_path / "policy").exists()
