"""Secrets of links: made once, handed out once, kept only as a hash."""

import hashlib
import secrets


def new_secret() -> str:
    """256 random bits as text for an address."""
    return secrets.token_urlsafe(32)


def hash_of(secret: str) -> str:
    """What is stored of a secret: SHA-256 in hexadecimal. A secret this long needs no slow hash."""
    return hashlib.sha256(secret.encode()).hexdigest()
