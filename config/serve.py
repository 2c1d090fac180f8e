"""What `make run` does once the packages are there: migrate, load the demo, serve on this machine only."""

import io
import os
import socket
import sys
import threading
import time

import django
from django.core.management import call_command
from django.core.servers import basehttp
from django.db import connection

HOST = "127.0.0.1"
SENT_EVERY_S = 30


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings.dev")
    port = free_port(os.environ.get("PORT", "8000"))
    django.setup()
    call_command("migrate", verbosity=0)
    call_command("load_demo")
    site = f"http://{HOST}:{port}"
    threading.Thread(target=send_forever, args=[site], daemon=True).start()
    try:
        basehttp.run(HOST, port, basehttp.get_internal_wsgi_application(), threading=True, on_bind=announce)
    except KeyboardInterrupt:
        print("\nStopped. The data are kept.")


def send_forever(site: str) -> None:
    """Send what waits every half minute, until the program ends: not at once, which would bury the sign-ins."""
    while True:
        time.sleep(SENT_EVERY_S)
        send_waiting(site)


def send_waiting(site: str) -> None:
    """Send what waits. Where that fails the server goes on, and the next round may do better."""
    try:
        call_command("send_outbox", site=site, stdout=io.StringIO())
    except Exception as error:
        print(f"Messages were not sent: {type(error).__name__}", file=sys.stderr)
    connection.close()


def free_port(text: str) -> int:
    """The port number asked for; ends the program with a message when it can't be used."""
    if not text.isascii() or not text.isdigit() or not 0 < int(text) < 65536:
        sys.exit(f"PORT is {text!r}; it must be a whole number from 1 to 65535.")
    port = int(text)
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except PermissionError:
            sys.exit(f"Port {port} is not open to this user. Choose one above 1023: make run PORT=8000")
        except OSError:
            sys.exit(
                f"Port {port} is taken by another program. "
                f"Stop that one, or choose another port: make run PORT={port + 1}"
            )
    return port


def announce(port: int | str) -> None:
    print(f"\nThrowbook is ready: http://{HOST}:{port}/   (Ctrl-C stops it)", flush=True)


if __name__ == "__main__":
    main()
