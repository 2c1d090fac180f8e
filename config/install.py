"""Make .venv and install one hashed lock into it: `python config/install.py requirements.txt`.

Run by any Python 3.11 or newer; standard library only. Does nothing when the lock is installed already.
"""

import hashlib
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
VENV_PYTHON = VENV / "bin" / "python"
RUN_LOCK = "requirements.txt"
TESTS_LOCK = "tests/requirements.txt"

NO_VENV = """Python's venv module is missing or incomplete, so .venv could not be made.
On Debian or Ubuntu: apt-get install python3-venv. Any system: put uv on PATH and run make again."""
NO_PACKAGES = """The packages of {lock} could not be installed; the lines above say why.
The first run needs a package index; after that .venv is used as it is."""


def main() -> None:
    """Install the lock named on the command line, unless it is there."""
    if sys.version_info < (3, 11):  # noqa: UP036 - any Python may be told to run this file
        sys.exit("Python 3.11 or newer is needed; this is {}.{}.".format(*sys.version_info[:2]))
    lock = sys.argv[1]
    if has_working_venv():
        if is_installed(lock):
            return
    else:
        make_venv()
    install(lock)
    stamp(lock).write_text(digest(lock))


def has_working_venv() -> bool:
    """Whether .venv holds a Python that still runs."""
    return VENV_PYTHON.exists() and subprocess.run([VENV_PYTHON, "-c", ""]).returncode == 0


def is_installed(lock: str) -> bool:
    """Whether .venv was last filled from this lock, or for a run from the wider one of the tests."""
    good_enough = [lock, TESTS_LOCK] if lock == RUN_LOCK else [lock]
    return stamp(lock).exists() and stamp(lock).read_text() in [digest(name) for name in good_enough]


def stamp(lock: str) -> Path:
    """Where the digest of the installed lock is kept: one place for both main locks, the last one counts."""
    return VENV / f"installed-{Path(lock).stem}"


def digest(lock: str) -> str:
    return hashlib.sha256((ROOT / lock).read_bytes()).hexdigest()


def make_venv() -> None:
    print("Making .venv …", flush=True)
    uv = shutil.which("uv")
    command = [uv, "venv", "--quiet", "--python", sys.executable] if uv else [sys.executable, "-m", "venv"]
    shutil.rmtree(VENV, ignore_errors=True)
    if subprocess.run([*command, str(VENV)]).returncode:
        shutil.rmtree(VENV, ignore_errors=True)
        sys.exit(NO_VENV)


def install(lock: str) -> None:
    print(f"Installing {lock} into .venv …", flush=True)
    command = [*installer(), "--quiet", "--require-hashes", "--requirement", str(ROOT / lock)]
    if subprocess.run(command).returncode:
        sys.exit(NO_PACKAGES.format(lock=lock))


def installer() -> list[str]:
    """The command that installs into .venv: uv where it is found, else pip."""
    python = str(VENV_PYTHON)
    if uv := shutil.which("uv"):
        return [uv, "pip", "install", "--compile-bytecode", "--python", python]
    if subprocess.run([python, "-c", "import pip"], stderr=subprocess.DEVNULL).returncode:
        subprocess.run([python, "-m", "ensurepip"])  # .venv was made by a uv that is gone
    return [python, "-m", "pip", "install", "--disable-pip-version-check", "--no-input", "--quiet"]


if __name__ == "__main__":
    main()
