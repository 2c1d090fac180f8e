"""manage.py make_head: the first user of an installation, or another head for a house."""

import getpass
import os
import sys
from contextlib import suppress

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management.base import CommandParser
from django.db import transaction
from django.utils.translation import gettext as _

from crew.actions import ensure_roster, grant_dispatch, open_house
from venue.actions import grant_membership
from venue.errors import AlreadyExists
from venue.history import Actor
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options
from venue.models import House, User
from venue.storing import store

PASSWORD_VARIABLE = "THROWBOOK_PASSWORD"


class Command(AnswerCommand):
    help = _(
        "Let a user head a house and dispatch its roster. A user who is not on file is made, with the password "
        "from the terminal or from THROWBOOK_PASSWORD; a house that is not on file is opened with --name."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("username", metavar="USERNAME", help=_("the name to sign in with"))
        parser.add_argument("--house", metavar="SLUG", required=True, help=_("the house's short name in addresses"))
        parser.add_argument("--name", default="", help=_("open the house under this name if it is not on file"))
        parser.add_argument("--zone", default="", help=_("the time zone of a house that is opened"))
        parser.add_argument("--printed-name", default="", help=_("the user's name as sheets print it"))

    def answer(self, options: Options) -> Answer:
        actor = Actor.of_command("make_head")
        user = User.objects.filter(username=options["username"]).first()
        password = None if user else _password(options["username"])
        with transaction.atomic():
            house = _house(options, actor)
            is_new = user is None
            user = user or _made_user(options, str(password))
            _grant(user, house, actor)
        told = {"name": user.username, "house": house.name}
        text = _("Made %(name)s head of %(house)s.") if is_new else _("%(name)s heads %(house)s.")
        return Answer({"username": user.username, "is_new": is_new, "house": house.slug, "role": "head"}, text % told)


def _house(options: Options, actor: Actor) -> House:
    """The house on file, else one that is opened. Raises CommandRefused, AlreadyExists, Invalid."""
    slug, name = options["house"], options["name"]
    house = House.objects.filter(slug=slug).first()
    if house is not None:
        return house
    if not name:
        line = _("there is no house “%(slug)s” on file; load its house file first, or open it with --name NAME")
        raise CommandRefused([line % {"slug": slug}])
    zone = {"time_zone": options["zone"]} if options["zone"] else {}
    return open_house(actor=actor, name=name, slug=slug, **zone)[0]


def _made_user(options: Options, password: str) -> User:
    user = User(username=options["username"], printed_name=options["printed_name"])
    user.set_password(password)
    return store(user)


def _grant(user: User, house: House, actor: Actor) -> None:
    """Head of the house, and dispatch of its roster: who has only one of them can't finish a call."""
    roster = ensure_roster(actor=actor, house=house)
    with suppress(AlreadyExists):
        grant_membership(actor=actor, house=house, user=user, role="head")
    if not roster.dispatch.standing().filter(user=user).exists():
        grant_dispatch(actor=actor, roster=roster, user=user)


def _password(username: str) -> str:
    """From the environment, else asked for twice on the terminal. Raises CommandRefused."""
    password = os.environ.get(PASSWORD_VARIABLE) or _asked()
    try:
        validate_password(password, User(username=username))
    except ValidationError as error:
        raise CommandRefused(error.messages) from error
    return password


def _asked() -> str:
    if not sys.stdin or not sys.stdin.isatty():
        line = _("no password: set %(variable)s, or run this on a terminal")
        raise CommandRefused([line % {"variable": PASSWORD_VARIABLE}])
    first, second = getpass.getpass(_("Password: ")), getpass.getpass(_("Once more: "))
    if first != second:
        raise CommandRefused([_("the two passwords differ; run the command again")])
    return first
