"""Show numbers as cells hold them: what spreadsheets make of them, and what is no single number."""

import re
from collections.abc import Sequence

from shows.core.paperwork.records import MAX_NUMBER, Data
from venue.core.labels import label_key

_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_DATE = re.compile(
    rf"\d{{1,2}}[\s./-]*{_MONTH}(?:[\s.,/-]*\d{{2,4}})?"
    rf"|{_MONTH}[\s./-]*\d{{1,4}}(?:[\s.,/-]+\d{{2,4}})?"
    r"|\d{4}-\d{1,2}-\d{1,2}(?:[T ][\d:.]+)?"
    r"|\d{1,2}([./-])\d{1,2}\1\d{2,4}(?: [\d:.]+)?",
    re.IGNORECASE,
)
_FORMULA = re.compile(r"[=@].*|[+-]\s?[\w(].*")
_SEVERAL = re.compile(
    r"\D{0,20}\d{1,3}\s?(?:[,&+–—]|\s-\s|\band\b|\bto\b|\bthru\b|\bthrough\b)\s?\D{0,20}\d{1,3}", re.I
)
_DECIMAL = re.compile(r"\d+[.,]\d+")
_WHOLE = re.compile(r"(\d+)[.,]0+")
_BARE = re.compile(r"[A-Z]{0,2}\d{1,4}[A-Z]{0,2}|[A-Z]")


def has_whole_decimals(values: Sequence[str]) -> bool:
    """Whether every decimal number among the cells of a column is whole, as a spreadsheet writes 1 as 1.0."""
    return all(_WHOLE.fullmatch(value) for value in values if _DECIMAL.fullmatch(value))


def whole_number(value: str) -> str:
    """ "1.0" as "1"; any other text as it is."""
    whole = _WHOLE.fullmatch(value)
    return whole[1] if whole else value


def check_number(value: str) -> tuple[str | None, str | None, Data]:
    """The number that a cell holds, the code of its problem, and the problem's data."""
    if len(value) > MAX_NUMBER:
        return value[:MAX_NUMBER], "number-too-long", {"limit": MAX_NUMBER}
    for code, pattern in (("formula", _FORMULA), ("date-like", _DATE), ("several-numbers", _SEVERAL)):
        if pattern.fullmatch(value):
            return None, code, {"value": value}
    return (value if label_key(value) else None), None, {}


def is_bare_number(text: str) -> bool:
    """Whether the text is a show number and nothing else: 1, 2A, T2, "Spot 3", B."""
    return len(text) <= MAX_NUMBER and bool(_BARE.fullmatch(label_key(text)))
