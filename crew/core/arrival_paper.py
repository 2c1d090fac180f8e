"""An arrival check as it goes on paper: plain records whose texts are words already, in the order of the walk."""

from dataclasses import dataclass
from datetime import datetime

CODE_LENGTH = 12


@dataclass(frozen=True)
class PaperItem:
    """One item that somebody looked at: what was found, by whom and when, and the note."""

    title: str
    result: str
    who: str
    note: str
    is_failed: bool = False


@dataclass(frozen=True)
class PaperPlace:
    """One place: what belongs there and what was found. `number` is "" where no show number stands.

    `not_checked` says which items nobody looked at, "" where everything was; `told` are further lines, `cautions`
    what to know before going there.
    """

    number: str
    label: str
    where: str
    state: str
    items: tuple[PaperItem, ...]
    not_checked: str = ""
    told: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class PaperSignature:
    """One side's signature: who, when, and whether it still stands for what the paper says."""

    side: str
    told: str
    is_signed: bool


@dataclass(frozen=True)
class ArrivalPaper:
    """The whole check. `standing` says who signed; `printed_at` is what the house's clocks in `zone` show."""

    show: str
    house: str
    days: str
    answer: str
    standing: str
    places: tuple[PaperPlace, ...]
    in_the_way: tuple[str, ...]
    faults: tuple[str, ...]
    not_checked: tuple[str, ...]
    signatures: tuple[PaperSignature, ...]
    sha256: str
    zone: str
    printed_at: datetime


def short_code(sha256: str) -> str:
    """The first figures of the hash, in groups to be read aloud: "1a2b-3c4d-5e6f"."""
    return "-".join(sha256[start : start + 4] for start in range(0, CODE_LENGTH, 4))
