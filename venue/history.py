"""Who did what to which subject: lines that are only ever added."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from django.db.models import Model

from venue.models import Event, House, User
from venue.models.record import ActorKind

CONTACT_WORDS = re.compile(r"e.?mail|phone|mobile|address|contact", re.IGNORECASE)
MAIL_ADDRESS = re.compile(r"[^\s@]+@[^\s@]+\.[^\s@]+")


@dataclass(frozen=True)
class Actor:
    """Who acts: a signed-in user, the holder of a link, or a command. `name` is printed in the history."""

    kind: ActorKind
    name: str
    user: User | None = None

    @classmethod
    def of_user(cls, user: User) -> Actor:
        return cls(ActorKind.USER, user.name_on_paper, user)

    @classmethod
    def of_link(cls, name: str) -> Actor:
        return cls(ActorKind.LINK, name)

    @classmethod
    def of_command(cls, name: str) -> Actor:
        return cls(ActorKind.COMMAND, name)


def record(actor: Actor, verb: str, subject: Model, /, *, house: House | None, **data: Any) -> Event:
    """Add a line: `verb` is a code such as "unit.placed", `subject` a row with a `ref`.

    `data` holds what the sentence names: texts, numbers, times. Ways to reach a person never enter it: such
    names are a ValueError, and a mail address inside a text is struck out.
    """
    return Event.objects.create(
        house=house,
        actor_kind=actor.kind,
        actor_user=actor.user,
        actor_name=actor.name,
        verb=verb,
        subject_kind=str(subject._meta.model_name),
        subject_ref=subject.ref,  # type: ignore[attr-defined]
        data=without_contacts(data),
    )


def without_contacts(value: Any) -> Any:
    """The value without mail addresses, at any depth. Raises ValueError if a name says it is a contact."""
    if isinstance(value, dict):
        refused = [name for name in value if CONTACT_WORDS.search(name)]
        if refused:
            raise ValueError(f"contact values never enter the history: {', '.join(refused)}")
        return {name: without_contacts(item) for name, item in value.items()}
    if isinstance(value, list | tuple):
        return [without_contacts(item) for item in value]
    return MAIL_ADDRESS.sub("…", value) if isinstance(value, str) else value
