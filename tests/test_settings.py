"""What the settings promise: production refuses to start unready, SQLite is safe, pages are guarded."""

import logging
import os
import subprocess
import sys
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from django.db.utils import ConnectionHandler
from django.templatetags.static import static
from django.test import RequestFactory
from django.utils.module_loading import import_string

from config.client_address import client_address
from config.settings import base

ROOT = Path(__file__).resolve().parents[1]
READY = {
    "SECRET_KEY": "fifty letters or more, made up for this one test only",
    "ALLOWED_HOSTS": "house.example, www.house.example",
    "DATABASE_URL": "postgres://nobody@localhost/nothing",
}


def start_production(code: str = "", **environment: str) -> subprocess.CompletedProcess[str]:
    """Load the production settings in a process of their own, with nothing but this environment."""
    program = f"from config.settings import prod as settings\n{code}"
    environment |= {"PATH": os.environ["PATH"]}
    return subprocess.run([sys.executable, "-c", program], cwd=ROOT, env=environment, capture_output=True, text=True)


def test_production_does_not_start_without_its_environment_and_names_all_that_is_missing() -> None:
    started = start_production()
    assert started.returncode == 1
    assert all(f"{name} is missing" in started.stderr for name in READY)
    assert "Traceback" not in started.stderr


@pytest.mark.parametrize("missing", READY)
def test_production_names_the_one_variable_that_is_missing(missing: str) -> None:
    started = start_production(**{name: value for name, value in READY.items() if name != missing})
    assert started.returncode == 1
    assert [name for name in READY if name in started.stderr] == [missing]


@pytest.mark.parametrize(
    ("name", "value", "message"),
    [
        ("SECRET_KEY", "short", "SECRET_KEY is too short"),
        ("PROXY_COUNT", "two", "PROXY_COUNT is not a whole number"),
        ("DATABASE_URL", "mysql://a@b/c", "DATABASE_URL can't be read"),
        ("DATABASE_URL", "postgres://[", "DATABASE_URL can't be read"),
        ("DATABASE_URL", "throwbook.sqlite3", "DATABASE_URL can't be read"),
    ],
)
def test_production_says_which_value_can_not_be_used(name: str, value: str, message: str) -> None:
    started = start_production(**(READY | {name: value}))
    assert started.returncode == 1
    assert message in started.stderr
    assert "Traceback" not in started.stderr


def test_production_starts_with_a_pooled_database_and_its_hosts() -> None:
    code = "print(settings.ALLOWED_HOSTS, sorted(settings.DATABASES['default']['OPTIONS']), settings.DEBUG)"
    started = start_production(code, **READY)
    assert started.stdout == "['house.example', 'www.house.example'] ['pool'] False\n"


def test_the_server_does_not_start_before_its_style_sheets_are_collected(tmp_path: Path) -> None:
    code = f"settings.STATIC_ROOT = {str(tmp_path)!r}\nimport config.wsgi"
    started = start_production(code, **READY)
    assert started.returncode == 1
    assert "python manage.py collectstatic" in started.stderr
    assert "Traceback" not in started.stderr


def test_production_trusts_the_headers_of_a_proxy_only_when_told_of_one() -> None:
    code = "print(getattr(settings, 'SECURE_PROXY_SSL_HEADER', None))"
    assert start_production(code, **READY).stdout == "None\n"
    assert "X_FORWARDED_PROTO" in start_production(code, PROXY_COUNT="1", **READY).stdout


def test_production_sends_mail_only_by_a_server_that_is_named_with_whom_it_comes_from() -> None:
    code = "print(settings.EMAIL_IS_ON, getattr(settings, 'EMAIL_PORT', None))"
    assert start_production(code, **READY).stdout == "False None\n"
    server = {"EMAIL_HOST": "mail.example", "EMAIL_SECURITY": "tls"}
    assert "EMAIL_FROM is missing" in start_production(code, **READY, **server).stderr
    ready = READY | server | {"EMAIL_FROM": "Dispatch <dispatch@house.example>"}
    assert start_production(code, **ready).stdout == "True 587\n"
    wrong = start_production(code, **(ready | {"EMAIL_SECURITY": "both", "EMAIL_PORT": "0"})).stderr
    assert "EMAIL_SECURITY is not known" in wrong and "EMAIL_PORT is not a port" in wrong


@pytest.mark.django_db
def test_sqlite_keeps_a_write_ahead_log_syncs_in_full_and_checks_foreign_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("DATABASE_URL", raising=False)
    connection = ConnectionHandler({"default": base.database(tmp_path / "house.sqlite3")})["default"]
    with connection.cursor() as cursor:
        found = {name: pragma(cursor, name) for name in ("journal_mode", "synchronous", "foreign_keys")}
    connection.close()
    assert found == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
    assert connection.transaction_mode == "IMMEDIATE"


def pragma(cursor: Any, name: str) -> Any:
    return cursor.execute(f"PRAGMA {name}").fetchone()[0]


def test_a_sqlite_address_gets_the_same_care(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DATABASE_URL", "sqlite:////srv/house.sqlite3")
    found = base.database(Path("unused"))
    assert (found["NAME"], found["OPTIONS"]) == ("/srv/house.sqlite3", base.SQLITE_OPTIONS)


def test_passwords_are_kept_by_argon2() -> None:
    assert base.PASSWORD_HASHERS[0].endswith("Argon2PasswordHasher")


def test_every_static_file_is_found_by_the_names_that_production_gives(tmp_path: Path, settings: Any) -> None:
    settings.STATIC_ROOT = tmp_path
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
    }
    call_command("collectstatic", interactive=False, verbosity=0)
    address = static("css/base.css")
    assert address != "/static/css/base.css"
    assert (tmp_path / address.removeprefix("/static/")).exists()


@pytest.mark.parametrize(
    ("proxies", "forwarded", "expected"),
    [
        (0, "203.0.113.9", "198.51.100.1"),
        (1, "203.0.113.9", "203.0.113.9"),
        (1, "192.0.2.66, 203.0.113.9", "203.0.113.9"),
        (2, "192.0.2.66, 203.0.113.9, 198.51.100.2", "203.0.113.9"),
        (2, "203.0.113.9", "198.51.100.1"),
        (1, "not an address", "198.51.100.1"),
        (1, "2001:db8::7", "2001:db8::7"),
        (1, "", "198.51.100.1"),
    ],
)
def test_the_client_address_is_the_last_one_that_no_stranger_can_forge(
    settings: Any, proxies: int, forwarded: str, expected: str
) -> None:
    settings.PROXY_COUNT = proxies
    request = RequestFactory().get("/", REMOTE_ADDR="198.51.100.1", HTTP_X_FORWARDED_FOR=forwarded)
    assert client_address(request) == expected


def test_a_socket_without_a_proxy_header_gives_no_client_address() -> None:
    assert client_address(RequestFactory().get("/", REMOTE_ADDR="")) is None


def test_the_log_names_an_address_without_the_secret_that_opens_it() -> None:
    ref = "094f029f-e51c-4eb2-9c01-035b8b2b9d18"
    handler = logging.StreamHandler(written := StringIO())
    for name in base.LOGGING["handlers"]["stderr"]["filters"]:
        made = base.LOGGING["filters"][name]
        handler.addFilter(import_string(made["()"])())
    for address in (f"/mine/{ref}/s3cr3t/", f"/feeds/{ref}/s3cr3t.ics", f"/arrive/{ref}/s3cr3t/sign/", "/nowhere/"):
        handler.handle(logging.makeLogRecord({"msg": "%s: %s", "args": ("Not Found", address), "levelno": 30}))
    assert written.getvalue().splitlines() == [
        f"Not Found: /mine/{ref}/…/",
        f"Not Found: /feeds/{ref}/….ics",
        f"Not Found: /arrive/{ref}/…/sign/",
        "Not Found: /nowhere/",
    ]
