"""Telling a person what a tap did, or why it was refused."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.contrib import messages
from django.http import HttpRequest
from django.utils.functional import Promise

from venue.errors import DomainError


@contextmanager
def told(request: HttpRequest, done: str | Promise) -> Iterator[None]:
    """Say `done` after the block, or what the verb in it refused."""
    try:
        yield
    except DomainError as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, str(done))
