"""Settings for the test suite: quick hashing, a throw-away database (SQLite in memory by default)."""

from config.settings.base import *  # noqa: F403
from config.settings.base import BASE_DIR, LOGGING, database

DEBUG = False
SECRET_KEY = "for the tests only"
ALLOWED_HOSTS = ["testserver", "localhost"]
DATABASES = {"default": database(BASE_DIR / "throwbook-test.sqlite3")}
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
LOGGING["loggers"]["django.request"] = {"level": "ERROR"}  # type: ignore[index]  # refusals are asked for by thousands
WHITENOISE_AUTOREFRESH = True  # no look through staticfiles/ for every client that a test makes
