"""Private servers for the tests: PostgreSQL and Redis on free ports, gone when we are gone.

A plugin (``-p tests.servers``), because PostgreSQL must answer before Django's settings are
read. Works as root and as anybody else. Whatever happens, the servers end with the test
run: at the end, at exit, and, after a ``kill -9``, by the kernel itself. A program that is
missing is an error that says what to install.
"""

from __future__ import annotations

import atexit
import contextlib
import ctypes
import os
import pwd
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

import pytest

FOLDER = "FAIRGAP_TEST_FOLDER"
_INSTALL = "Install it (Debian: apt-get install {package}), or let `make test` do so."
_PR_SET_PDEATHSIG = 1
_libc = ctypes.CDLL(None)


# --- Programs -------------------------------------------------------------------------


def program(name: str, *, package: str) -> str:
    """Where a program is. A missing one ends the run and says what to install."""
    places = [p.parent for p in Path("/usr/lib/postgresql").glob(f"*/bin/{name}")]
    search = os.pathsep.join([os.environ.get("PATH", ""), *map(str, sorted(places, reverse=True))])
    found = shutil.which(name, path=search)
    if found is None:
        raise pytest.UsageError(f"{name} is missing. {_INSTALL.format(package=package)}")
    return found


def free_port() -> int:
    """A port of 127.0.0.1 that was free a moment ago."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def wait_for(true: Callable[[], object], *, what: str, seconds: float = 20.0) -> None:
    """Ask until it holds; fail with a sentence when it takes longer than so many seconds."""
    end = time.monotonic() + seconds
    while not true():
        if time.monotonic() > end:
            raise AssertionError(f"waited {seconds:g} s in vain for {what}")
        time.sleep(0.05)


def listens(port: int) -> bool:
    """Whether somebody accepts connections on this port of 127.0.0.1."""
    try:
        socket.create_connection(("127.0.0.1", port), timeout=1).close()
    except OSError:
        return False
    return True


def _die_with_parent() -> None:
    os.setsid()  # a Ctrl-C is for pytest; the servers are told by us
    _libc.prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)


class Server:
    """One child process and what it wrote; ends with us."""

    def __init__(
        self,
        command: Sequence[str],
        *,
        log: Path,
        env: Mapping[str, str] | None = None,
        cwd: Path | None = None,
        user: pwd.struct_passwd | None = None,
        death: Callable[[], None] = _die_with_parent,
    ) -> None:
        who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []} if user else {}
        self.log = log
        with log.open("ab") as out:
            self.process = subprocess.Popen(
                command,
                stdout=out,
                stderr=subprocess.STDOUT,
                stdin=subprocess.DEVNULL,
                env=None if env is None else dict(env),
                cwd=cwd,
                preexec_fn=death,
                **who,  # type: ignore[call-overload]
            )
        atexit.register(self.kill)

    def stop(self, *, seconds: float = 20.0) -> int:
        """Send TERM, wait, return the exit code; KILL what does not go."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        try:
            return int(self.process.wait(seconds))
        except subprocess.TimeoutExpired:
            self.kill()
            raise AssertionError(f"{self} did not stop within {seconds:g} s") from None

    def kill(self) -> None:
        """KILL the process and its children at once."""
        atexit.unregister(self.kill)
        with contextlib.suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()

    def said(self) -> str:
        """Everything the process wrote so far."""
        return self.log.read_text(errors="replace")

    def __str__(self) -> str:
        return f"{self.process.args!r} ({self.log})"


# --- PostgreSQL and Redis -------------------------------------------------------------


def _new_folder(parent: Path, name: str, user: pwd.struct_passwd | None) -> Path:
    folder = parent / name
    folder.mkdir(mode=0o700)
    if user:
        os.chown(folder, user.pw_uid, user.pw_gid)
    return folder


def _postgres_user() -> pwd.struct_passwd | None:
    """PostgreSQL refuses to run as root; then it runs as its own user."""
    if os.geteuid() != 0:
        return None
    try:
        return pwd.getpwnam("postgres")
    except KeyError:
        return pwd.getpwnam("nobody")


def start_postgres(parent: Path) -> tuple[Server, str]:
    """A new, empty, private cluster. Returns the server and its database URL."""
    initdb = program("initdb", package="postgresql")
    postgres = program("postgres", package="postgresql")
    user, port = _postgres_user(), free_port()
    parent.chmod(0o711)
    folder = _new_folder(parent, "postgres", user)
    data = folder / "data"
    who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []} if user else {}
    made = subprocess.run(
        [initdb, "-D", data, "-A", "trust", "-U", "fairgap", "-E", "UTF8", "--locale=C",
         "--no-sync"],
        cwd=folder, capture_output=True, text=True, check=False, **who,  # type: ignore[call-overload]
    )  # fmt: skip
    if made.returncode:
        raise pytest.UsageError(f"initdb failed:\n{made.stdout}{made.stderr}")
    fast = [f"-c{name}=off" for name in ("fsync", "synchronous_commit", "full_page_writes")]
    server = Server(
        [postgres, "-D", str(data), "-h", "127.0.0.1", "-k", str(folder), "-p", str(port), *fast],
        log=parent / "postgres.log", cwd=folder, user=user,
    )  # fmt: skip
    _ready(server, port, said="ready to accept connections")
    return server, f"postgres://fairgap@127.0.0.1:{port}/postgres"


def start_redis(parent: Path, *, port: int = 0) -> tuple[Server, str]:
    """A private Redis, kept as production keeps it (append only). Returns it and its URL."""
    redis = program("redis-server", package="redis-server")
    port = port or free_port()
    folder = parent / f"redis-{port}"
    folder.mkdir(exist_ok=True)
    server = Server(
        [redis, "--port", str(port), "--bind", "127.0.0.1", "--dir", str(folder), "--save", "",
         "--appendonly", "yes", "--maxmemory-policy", "noeviction"],
        log=parent / "redis.log", cwd=folder,
    )  # fmt: skip
    _ready(server, port)
    return server, f"redis://127.0.0.1:{port}/0"


def _ready(server: Server, port: int, said: str = "") -> None:
    """Wait until it listens and has ``said`` so: PostgreSQL listens before it lets anybody in."""

    def up() -> bool:
        if server.process.poll() is not None:
            raise pytest.UsageError(f"{server} ended at once:\n{server.said()}")
        return listens(port) and said in server.said()

    wait_for(up, what=str(server))


# --- The plugin -----------------------------------------------------------------------


def pytest_addoption(parser: pytest.Parser) -> None:
    group = parser.getgroup("fairgap")
    group.addoption(
        "--db",
        choices=["sqlite", "postgres"],
        default="sqlite",
        help="the engine the tests run on; postgres starts a private server",
    )
    group.addoption(
        "--only-with-a-database",
        action="store_true",
        help="leave out what asks no database: it was tested on the other engine",
    )


def _sweep() -> None:
    """Remove what a killed run left behind: its servers are gone, its folder is not."""
    for left in Path(tempfile.gettempdir()).glob("fairgap-*-*"):
        pid = left.name.split("-")[1]
        if pid.isdigit() and not Path("/proc", pid).exists():
            shutil.rmtree(left, ignore_errors=True)


@pytest.hookimpl(tryfirst=True)
def pytest_load_initial_conftests(early_config: pytest.Config) -> None:
    """Before anybody reads the settings: make the folder, start the engine, say where it is."""
    if os.environ.get("PYTEST_XDIST_WORKER"):
        return  # the first process has done it, and we inherit its environment
    _sweep()
    folder = Path(tempfile.mkdtemp(prefix=f"fairgap-{os.getpid()}-"))
    early_config.add_cleanup(lambda: shutil.rmtree(folder, ignore_errors=True))
    os.environ[FOLDER] = str(folder)
    os.environ.pop("REDIS_URL", None)
    os.environ.pop("DATABASE_URL", None)
    if early_config.known_args_namespace.db == "postgres":
        server, os.environ["DATABASE_URL"] = start_postgres(folder)
        early_config.add_cleanup(server.kill)


@pytest.fixture(scope="session")
def folder() -> Path:
    """The run's own folder; gone at the end."""
    return Path(os.environ[FOLDER])


@pytest.fixture
def redis(tmp_path: Path) -> Iterator[tuple[Server, str]]:
    """A private Redis of this test: (server, url)."""
    server, url = start_redis(tmp_path)
    yield server, url
    server.kill()
