"""A paperwork that waits: as it would be accepted with the corrections on the page. Nothing is stored here."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison
from shows.core.paperwork import Column, LineProblem, PaperworkUnreadable, SpotLine
from shows.core.paperwork import Paperwork as Read
from shows.core.paperwork.headers import column_letter
from shows.models import PUT_BY_PEOPLE, Engagement, Paperwork
from shows.reading import Changes, Taken, changes, read_for, spots_in, taken
from shows.tonight import Tonight
from venue.core.labels import plain_text

MAP, NUMBER, COLUMN = "map-", "number-", "column-"
"""How the corrections are named in an address: by field, by line, by column."""


@dataclass(frozen=True)
class Corrections:
    """What a person corrected: field -> header or letter (empty: not read), line -> number, the statement."""

    columns: Mapping[str, str] = field(default_factory=dict)
    numbers: Mapping[str, str] = field(default_factory=dict)
    statement: str = ""
    chosen: Mapping[int, str] = field(default_factory=dict)
    """Column, counted from 0 -> field, as chosen on a page that showed other columns before."""


@dataclass(frozen=True)
class Preview:
    """What acceptance would store and what it means; `refused` instead where nothing can be read."""

    columns: Mapping[str, str]
    read: Read | None
    taken: Taken
    comparison: Comparison | None
    changes: Changes | None
    freed: tuple[str, ...]
    refused: tuple[LineProblem, ...] = ()


def corrections_in(params: Mapping[str, str]) -> Corrections:
    """The corrections in an address or a form that was sent; names that make no sense are passed over."""
    chosen = {int(at): value for at, value in _named(params, COLUMN) if _is_index(at)}
    numbers = {line: number[:40] for line, number in _named(params, NUMBER) if _is_index(line) and number}
    columns = dict(_named(params, MAP))
    return Corrections(columns, numbers, plain_text(params.get("statement", ""))[:1000], chosen)


def _named(params: Mapping[str, str], prefix: str) -> Iterator[tuple[str, str]]:
    """What stands behind the prefix, with its value as plain text."""
    for name, value in params.items():
        if name.startswith(prefix):
            yield plain_text(name.removeprefix(prefix)), plain_text(value)


def _is_index(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 6


def corrections_of(paperwork: Paperwork) -> Corrections:
    """Those under which the paperwork was accepted."""
    return Corrections(paperwork.columns, paperwork.numbers, paperwork.statement)


def preview_of(paperwork: Paperwork, corrections: Corrections, tonight: Tonight) -> Preview:
    """The paperwork under the corrections, held against the places in use and what was accepted before."""
    columns: Mapping[str, str] = dict(corrections.columns)
    try:
        read = read_for(tonight.house, bytes(paperwork.content), columns, corrections.numbers)
        columns = {**columns, **_chosen(read.columns, corrections.chosen)}
        if columns != corrections.columns:
            read = read_for(tonight.house, bytes(paperwork.content), columns, corrections.numbers)
    except PaperworkUnreadable as unreadable:
        return Preview(columns, None, Taken((), ()), None, None, (), unreadable.problems)
    found = taken(read)
    statement = corrections.statement or read.statement or None
    comparison = compare(tonight.house, spots_in(found.facts), statement)
    stored = list(paperwork.engagement.spots.standing())
    differing = changes(stored, found.facts)
    freed = _freed(paperwork.engagement, differing) if stored else ()
    return Preview(columns, read, found, comparison, differing if stored else None, freed)


def _chosen(columns: Sequence[Column], chosen: Mapping[int, str]) -> dict[str, str]:
    """Field -> header or letter for each column that is to be read as something else than it was."""
    found: dict[str, str] = {}
    for index, wanted in chosen.items():
        if index < len(columns) and wanted != (columns[index].field or ""):
            before = columns[index].field
            if before and not wanted:
                found.setdefault(before, "")
            if wanted:
                found[wanted] = _name_of(columns, index)
    return found


def _name_of(columns: Sequence[Column], index: int) -> str:
    """The letter of a column, unless a header reads like it; then its own header."""
    letter = column_letter(index)
    return columns[index].header if any(column.header.upper() == letter for column in columns) else letter


def _freed(engagement: Engagement, differing: Changes) -> tuple[str, ...]:
    """The numbers put on a place by hand that would be gone."""
    by_hand = engagement.spot_places.standing().filter(source__in=PUT_BY_PEOPLE, spot__number__in=differing.gone)
    return tuple(dict.fromkeys(by_hand.order_by("spot__sort_key").values_list("spot__number", flat=True)))


def lines_with_problems(preview: Preview) -> list[tuple[SpotLine, list[LineProblem]]]:
    """Each line as read with what is wrong with it."""
    by_line: dict[int | None, list[LineProblem]] = {}
    for problem in preview.taken.problems:
        by_line.setdefault(problem.line, []).append(problem)
    return [(line, by_line.get(line.line, [])) for line in (preview.read.spots if preview.read else ())]
