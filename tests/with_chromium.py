"""Make sure that Chromium is there for the browser tests: found, else Debian's package, else a message.

Standard library only: `python tests/with_chromium.py`.
"""

import os
import shutil
import subprocess
import sys

ADVICE = """Chromium was not found, and it could not be installed here.
Install your system's package (Debian: apt-get install chromium), or set CHROMIUM to the program's path."""


def main() -> None:
    if is_there():
        return
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        sys.exit(ADVICE)
    print("Installing Debian's chromium for the browser tests …", flush=True)
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (
        ["apt-get", "update", "-q"],
        ["apt-get", "install", "-y", "-q", "--no-install-recommends", "chromium"],
    ):
        subprocess.run(command, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, check=False)
    if not is_there():
        sys.exit(ADVICE)


def is_there() -> bool:
    """Whether a Chromium can be started from CHROMIUM or the path."""
    names = [os.environ.get("CHROMIUM") or "chromium", "chromium-browser"]
    return any(shutil.which(name) for name in names)


if __name__ == "__main__":
    main()
