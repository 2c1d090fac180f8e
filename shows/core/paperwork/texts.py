"""The plain text of a cell or line, also of hostile length."""

import unicodedata

from venue.core.labels import plain_text

_MOST_KEPT = 10_000


class _PlainCharacters(dict[int, str]):
    """Code point -> what `plain_text` makes of it, so that a long text costs one look-up a character."""

    def __missing__(self, code: int) -> str:
        if len(self) >= _MOST_KEPT:
            self.clear()
        plain = plain_text(f"|{chr(code)}|")[1:-1]
        self[code] = plain
        return plain


_PLAIN = _PlainCharacters()


def tidy_text(text: str) -> str:
    """The same as `plain_text(text)`, some ten times faster."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    return " ".join(unicodedata.normalize("NFKC", text).translate(_PLAIN).split())
