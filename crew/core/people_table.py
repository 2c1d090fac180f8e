"""A table of people as an office keeps it; every problem by its line.

    name,phone,email,experience,certifications
    Tove Brandauer,555-0142,tove@crew.example,some,"Climb and harness: 2027-03-31; Arc-lamp handling"

The first line names the columns, in people's own words; a column may be named after a certification that the roster
keeps and then holds its last days. Columns are parted by commas, semicolons or tabs; quotes are those of RFC 4180.
"""

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from crew.core.people_cells import CellCode, Held, Known, read_experience, read_held, read_kind, read_under, read_whole
from venue.core.csv_text import FORMULA_STARTS
from venue.core.names import name_key

Column = Literal[
    "name",
    "first_name",
    "last_name",
    "phone",
    "email",
    "experience",
    "units_known",
    "seniority",
    "skill",
    "certifications",
    "notes",
]
LineCode = (
    CellCode
    | Literal[
        "no-header",
        "no-column",
        "column-twice",
        "too-many-lines",
        "bad-quotes",
        "more-cells",
        "no-name",
        "certification-twice",
    ]
)

MOST_LINES = 5_000
NUMBERS: Mapping[Column, tuple[int, int]] = {"seniority": (1, 100_000), "skill": (1, 9)}
WRITTEN: Mapping[Column, str] = {
    "name": "name",
    "phone": "phone",
    "email": "email",
    "experience": "experience",
    "units_known": "units known",
    "seniority": "seniority",
    "skill": "grade",
    "certifications": "certifications",
    "notes": "notes",
}
"""The columns as a file of people is written: names that are read again."""

_WORDS: Mapping[Column, frozenset[str]] = {
    "name": frozenset({"name", "full name", "person", "who", "operator", "member", "name on sheets"}),
    "first_name": frozenset({"first name", "first", "given name", "forename"}),
    "last_name": frozenset({"last name", "last", "surname", "family name"}),
    "phone": frozenset({"phone", "telephone", "mobile", "cell", "tel", "phone number", "mobile phone", "cell phone"}),
    "email": frozenset({"email", "e mail", "mail", "email address", "e mail address", "mail address"}),
    "experience": frozenset({"experience", "on follow spots", "spot experience", "follow spot experience"}),
    "units_known": frozenset({"units known", "units", "known units", "knows", "unit types", "spots known"}),
    "seniority": frozenset({"seniority", "place on the list", "list", "seniority number", "list number", "referral"}),
    "skill": frozenset({"grade", "skill", "skill grade", "skill level"}),
    "certifications": frozenset({"certifications", "certification", "certificates", "certs", "qualifications"}),
    "notes": frozenset({"notes", "note", "remarks", "comments"}),
}
_TEXTS: tuple[Column, ...] = ("phone", "email", "units_known", "notes")


@dataclass(frozen=True)
class LineProblem:
    """What is wrong in a line; `value` is what stands there, `column` where."""

    line: int
    code: LineCode
    column: str = ""
    value: str = ""


@dataclass(frozen=True)
class PersonLine:
    """A line that could be read: the facts that it states, by column, and the certifications held."""

    line: int
    name: str
    facts: Mapping[str, str | int]
    held: tuple[Held, ...]

    @property
    def key(self) -> str:
        """What two spellings of the name share."""
        return name_key(self.name)

    @property
    def mail_key(self) -> str:
        return str(self.facts.get("email", "")).casefold()


@dataclass
class ReadPeople:
    """What could be read, every problem, and the columns that nobody knows."""

    lines: list[PersonLine] = field(default_factory=list)
    problems: list[LineProblem] = field(default_factory=list)
    unknown: tuple[str, ...] = ()


def read_people(text: str, known: Known) -> ReadPeople:
    """Read the table. Empty lines are passed over; an empty cell says nothing."""
    found = ReadPeople()
    rows = _rows(text)
    line, header = next(rows, (1, []))
    heads = _Heads.read(line, header or [], known, found)
    for count, (line, row) in enumerate(rows):
        if row is None or count >= MOST_LINES:
            problem = LineProblem(line, "bad-quotes") if row is None else _too_many(line)
            found.problems.append(problem)
            break
        if heads is not None:
            _read_line(line, row, heads, found)
    return found


def _rows(text: str) -> Iterator[tuple[int, list[str] | None]]:
    """Rows that hold something, each with the number of its first line; None where quotes go wrong, and no more."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), skipinitialspace=True, strict=True)
    line = 1
    while True:
        try:
            row = next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield line, None
            return
        if any(cell.strip() for cell in row):
            yield line, [_plain(cell) for cell in row]
        line = reader.line_num + 1


def _delimiter(text: str) -> str:
    """What parts the columns of the first line that holds something."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max(",;\t", key=first.count)


def _plain(cell: str) -> str:
    """The cell without the quote that keeps a spreadsheet from taking it for a formula."""
    text = cell.strip()
    return text[1:] if text.startswith("'") and text[1:].startswith(FORMULA_STARTS) else text


def _too_many(line: int) -> LineProblem:
    return LineProblem(line, "too-many-lines", value=str(MOST_LINES))


@dataclass
class _Heads:
    """Which column stands where, and which certification a column is named after."""

    known: Known
    width: int
    columns: dict[Column, int] = field(default_factory=dict)
    kinds: dict[int, Held] = field(default_factory=dict)

    @classmethod
    def read(cls, line: int, header: Sequence[str], known: Known, found: ReadPeople) -> "_Heads | None":
        """The heads; None, with the problems told, where one is missing or comes twice."""
        heads, unknown = cls(known, len(header)), []
        for index, cell in enumerate(header):
            if cell and not heads._take(index, cell, line, found):
                unknown.append(cell)
        found.unknown = tuple(unknown)
        if not heads.columns and not found.problems:
            found.problems.append(LineProblem(line, "no-header"))
        elif not heads.columns.keys() & {"name", "last_name"}:
            found.problems.append(LineProblem(line, "no-column", "name"))
        return None if found.problems else heads

    def _take(self, index: int, cell: str, line: int, found: ReadPeople) -> bool:
        """Whether anybody knows the column."""
        kind = read_kind(cell, self.known)
        if isinstance(kind, Held):
            self.kinds[index] = kind
            return True
        if kind != "unknown-certification":
            found.problems.append(LineProblem(line, kind, cell, cell))
            return True
        words = " ".join(re.sub(r"[^a-z]+", " ", cell.casefold()).split())
        column = next((name for name, known in _WORDS.items() if words in known), None)
        if column is not None and column in self.columns:
            found.problems.append(LineProblem(line, "column-twice", cell, cell))
        elif column is not None:
            self.columns[column] = index
        return column is not None


def _read_line(line: int, row: Sequence[str], heads: _Heads, found: ReadPeople) -> None:
    problems: list[LineProblem] = []
    if any(row[heads.width :]):
        problems.append(LineProblem(line, "more-cells", value=" ".join(row[heads.width :])))
    cells = {name: row[index] if index < len(row) else "" for name, index in heads.columns.items()}
    name = cells.get("name") or f"{cells.get('first_name', '')} {cells.get('last_name', '')}".strip()
    if not name_key(name):
        problems.append(LineProblem(line, "no-name", "name", name))
    facts = _facts(line, cells, problems)
    held = _all_held(line, cells.get("certifications", ""), row, heads, problems)
    found.problems += problems
    if not problems:
        found.lines.append(PersonLine(line, name, facts, held))


def _facts(line: int, cells: Mapping[Column, str], problems: list[LineProblem]) -> dict[str, str | int]:
    facts: dict[str, str | int] = {name: cells[name] for name in _TEXTS if cells.get(name)}
    if cells.get("experience"):
        facts["experience"] = read_experience(cells["experience"])
        if facts["experience"] == "bad-experience":
            problems.append(LineProblem(line, "bad-experience", "experience", cells["experience"]))
    for name, (low, high) in NUMBERS.items():
        if cells.get(name):
            number = read_whole(cells[name], low, high)
            if number is None:
                problems.append(LineProblem(line, "bad-number", WRITTEN[name], cells[name]))
            else:
                facts[name] = number
    return facts


def _all_held(
    line: int, listed: str, row: Sequence[str], heads: _Heads, problems: list[LineProblem]
) -> tuple[Held, ...]:
    """What the list of certifications and the columns named after one say, each certification once."""
    entries = [(entry.strip(), read_held(entry, heads.known)) for entry in listed.split(";") if entry.strip()]
    under = ((row[index], read_under(kind, row[index])) for index, kind in heads.kinds.items() if index < len(row))
    found: dict[tuple[str, str], Held] = {}
    for written, held in [*entries, *under]:
        if isinstance(held, str):
            problems.append(LineProblem(line, held, "certifications", written))
        elif held is not None and found.setdefault((held.kind, held.house), held) != held:
            problems.append(LineProblem(line, "certification-twice", "certifications", written))
    return tuple(found.values())
