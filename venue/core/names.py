"""Names as people compare them: case, white space and Unicode form do not make two names."""

from venue.core.labels import plain_text


def name_key(text: str) -> str:
    """What two spellings of one name share: "Rear  Booth" and "rear booth" give "rear booth"."""
    return plain_text(text).casefold()
