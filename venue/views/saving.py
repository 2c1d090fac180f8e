"""The step between a sent form and its verb, the same in every view."""

from collections.abc import Callable
from typing import cast

from django.http import HttpRequest

from venue.errors import DomainError
from venue.forms.base import RefusedForm
from venue.history import Actor
from venue.models import User


def actor_of(request: HttpRequest) -> Actor:
    """The signed-in user as the history names him."""
    return Actor.of_user(cast(User, request.user))


def is_saved(form: RefusedForm, act: Callable[[], object]) -> bool:
    """Whether the form was sent, is sound, and the verb took it; what was refused stands in the form."""
    if not form.is_bound or not form.is_valid():
        return False
    try:
        act()
    except DomainError as refusal:
        form.refuse(refusal)
        return False
    return True
