"""Addresses that open a page without an account stay out of the log: whoever reads it could open them."""

import logging

from django.urls import Resolver404, resolve

LEFT_OUT = "…"


class SecretsLeftOut(logging.Filter):
    """Writes an ellipsis for the secret of each address in a record; drops no record."""

    def filter(self, record: logging.LogRecord) -> bool:
        if isinstance(record.args, tuple):
            record.args = tuple(without_secret(each) if isinstance(each, str) else each for each in record.args)
        return True


def without_secret(text: str) -> str:
    """The text, if it is an address of the site with a secret in it, without that."""
    if not text.startswith("/"):
        return text
    try:
        secret = resolve(text).kwargs.get("secret")
    except Resolver404:
        return text
    return text.replace(secret, LEFT_OUT) if secret else text
