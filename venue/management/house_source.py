"""The house file that a command is given."""

from collections.abc import Iterable

from venue.house_file.parsing import MOST_BYTES
from venue.house_file.problems import HouseExists, HouseFileRefused
from venue.house_file.reading import read_house_file
from venue.house_file.records import HouseFile
from venue.management.command import CommandRefused, input_bytes


def house_file_at(source: str) -> HouseFile:
    """The house file named, or standard input for "-". Raises CommandRefused with every problem in it."""
    try:
        return read_house_file(input_bytes(source, MOST_BYTES))
    except HouseFileRefused as refused:
        raise CommandRefused(problem_lines(source, refused)) from refused


def problem_lines(source: str, refused: HouseFileRefused) -> Iterable[str]:
    """A line a problem: file, path, what is wrong, what would be right."""
    return (f"{source}: {problem}" for problem in refused.problems)


def warning_lines(source: str, house_file: HouseFile) -> tuple[str, ...]:
    """A line a warning."""
    return tuple(f"{source}: {warning}" for warning in house_file.warnings)


def difference_lines(source: str, exists: HouseExists) -> Iterable[str]:
    """A line for the house that is there already, and one for each difference."""
    yield f"{source}: $.house.slug: {exists}"
    yield from (f"{source}: {each.where}: {each.sentence}" for each in exists.differences)
