"""Settings for one's own machine: the SQLite file, no secrets. DEBUG=1 shows errors in full."""

import os

from config.settings.base import *  # noqa: F403
from config.settings.base import BASE_DIR, database

DEBUG = os.environ.get("DEBUG") == "1"
MAY_LOAD_DEMO = True
SECRET_KEY = "for development only, never in production"
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]
DATABASES = {"default": database(BASE_DIR / "throwbook.sqlite3")}

EMAIL_BACKEND = "django.core.mail.backends.console.EmailBackend"

# Static files straight from static/, also without DEBUG.
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = True
