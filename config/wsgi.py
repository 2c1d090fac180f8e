"""The production entry point."""

import os
import sys

from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings.prod")
application = get_wsgi_application()

if getattr(staticfiles_storage, "hashed_files", None) == {}:
    sys.exit(
        "Throwbook did not start: its style sheets are not collected yet. Run this first, and after each "
        "update: DJANGO_SETTINGS_MODULE=config.settings.prod python manage.py collectstatic --noinput"
    )
