"""How bright the pages are: chosen by a person, kept in a cookie, written into the page's first bytes."""

from django.db import models
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _


class Theme(models.TextChoices):
    """AUTO follows the device; BOOTH is for a dark house: near black, dim, without red."""

    AUTO = "auto", _("Auto")
    LIGHT = "light", _("Light")
    DARK = "dark", _("Dark")
    BOOTH = "booth", _("Booth")


COOKIE = "theme"
COOKIE_AGE = 365 * 24 * 60 * 60


def theme_of(request: HttpRequest) -> Theme:
    """The theme in the request's cookie; AUTO where there is none, or none that is known."""
    chosen = request.COOKIES.get(COOKIE, "")
    return Theme(chosen) if chosen in Theme.values else Theme.AUTO


def theme(request: HttpRequest) -> dict[str, object]:
    """Context processor: the theme in force and all that may be chosen."""
    return {"theme": theme_of(request), "themes": Theme}
