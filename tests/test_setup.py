"""The set-up commands: locks, the installer, the port, the throw-away server's choice of programs."""

import re
import socket
import tomllib
from pathlib import Path

import pytest

from config import install, serve
from tests import with_pg

ROOT = Path(__file__).resolve().parents[1]
LOCKS = ["requirements.txt", "tests/requirements.txt", "tests/requirements-postgres.txt"]


def direct_dependencies() -> list[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())
    extras = project["project"]["optional-dependencies"].values()
    groups = project["dependency-groups"].values()
    return [line for lines in [project["project"]["dependencies"], *extras, *groups] for line in lines]


@pytest.mark.parametrize("requirement", direct_dependencies())
def test_a_direct_dependency_is_pinned_locked_and_has_a_reason(requirement: str) -> None:
    pin = re.sub(r"\[.*\]", "", requirement)
    assert re.fullmatch(r"[a-z0-9-]+==[0-9.]+", pin)
    assert any(f"{pin} \\" in (ROOT / lock).read_text() for lock in LOCKS)
    project = (ROOT / "pyproject.toml").read_text()
    assert re.search(rf'"{re.escape(requirement)}",?\s+# \w', project)


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_hashes_every_package_and_names_no_address_or_path(lock: str) -> None:
    text = (ROOT / lock).read_text()
    packages = re.findall(r"^[a-z0-9-]+==.*", text, re.MULTILINE)
    assert packages
    assert all(package.endswith("\\") for package in packages)
    assert not re.search(r"https?:|file:|--index|--find-links|(?m:^#.*/)", text.replace("(pyproject.toml", ""))


def test_a_lock_is_installed_only_while_its_digest_is_the_one_noted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(install, "VENV", tmp_path)
    assert not install.is_installed("requirements.txt")
    install.stamp("requirements.txt").write_text(install.digest("requirements.txt"))
    assert install.is_installed("requirements.txt")
    assert not install.is_installed("tests/requirements.txt")
    install.stamp("requirements.txt").write_text("of an older lock")
    assert not install.is_installed("requirements.txt")


def test_the_wider_lock_of_the_tests_serves_a_run_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(install, "VENV", tmp_path)
    install.stamp("tests/requirements.txt").write_text(install.digest("tests/requirements.txt"))
    assert install.is_installed("requirements.txt")
    assert not install.is_installed("tests/requirements-postgres.txt")


@pytest.mark.parametrize("text", ["", "eighty", "0", "65536", "-1", "8000.5", "²"])
def test_a_port_that_is_none_is_refused_with_a_message(text: str) -> None:
    with pytest.raises(SystemExit, match="it must be a whole number from 1 to 65535"):
        serve.free_port(text)


def test_a_taken_port_is_named_with_what_to_do() -> None:
    with socket.socket() as holder:
        holder.bind((serve.HOST, 0))
        holder.listen()
        port = holder.getsockname()[1]
        with pytest.raises(SystemExit, match=f"Port {port} is taken .* make run PORT={port + 1}"):
            serve.free_port(str(port))
    assert serve.free_port(str(port)) == port


def server_programs(folder: Path, printed: str, *, module: bool = True) -> Path:
    """A folder that looks like a PostgreSQL server's, whose `postgres --version` prints the text."""
    programs = folder / "bin"
    programs.mkdir(parents=True)
    for name in ("postgres", "initdb"):
        (programs / name).write_text(f"#!/bin/sh\necho '{printed}'\n")
        (programs / name).chmod(0o755)
    if module:
        (folder / "share" / "extension").mkdir(parents=True)
        (folder / "share" / "extension" / "btree_gist.control").touch()
    return programs


@pytest.mark.parametrize(
    ("printed", "major", "fit"),
    [
        ("postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)", 15, True),
        ("postgres (PostgreSQL) 18beta1", 18, True),
        ("postgres (PostgreSQL) 14.9", 14, False),
        ("something else", 0, False),
    ],
)
def test_a_server_is_fit_from_version_15_on(tmp_path: Path, printed: str, major: int, fit: bool) -> None:
    programs = server_programs(tmp_path, printed)
    assert (with_pg.major_version(programs), with_pg.is_fit(programs)) == (major, fit)


def test_a_server_without_the_module_for_exclusion_constraints_is_not_fit(tmp_path: Path) -> None:
    programs = server_programs(tmp_path, "postgres (PostgreSQL) 99.1", module=False)
    assert not with_pg.is_fit(programs)


def test_the_programs_that_pg_bin_names_come_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    programs = server_programs(tmp_path, "postgres (PostgreSQL) 15.1")
    monkeypatch.setenv("PG_BIN", str(programs))
    assert with_pg.find_programs(tmp_path) == programs


def test_a_pg_bin_without_a_server_is_refused_with_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PG_BIN", str(tmp_path))
    with pytest.raises(SystemExit, match=r"PG_BIN=.* holds no PostgreSQL 15(.|\n)*apt-get install postgresql"):
        with_pg.find_programs(tmp_path)
