"""What a schema can't say about a house file. Each check is independent.

Those of the house take the sound part of a document, those of its book the records made from that.
"""

from venue.house_file.book.completing import Completed
from venue.house_file.checking.book import book_problems
from venue.house_file.checking.hours import hours_problems, hours_warnings
from venue.house_file.checking.light import light_problems
from venue.house_file.checking.names import name_problems, reference_problems
from venue.house_file.checking.orders import order_problems, order_warnings
from venue.house_file.checking.stays import stay_problems
from venue.house_file.checking.values import throw_warnings, value_problems
from venue.house_file.problems import Problem
from venue.house_file.sound import SoundPart

_PROBLEMS = (name_problems, reference_problems, value_problems, light_problems, order_problems, stay_problems)
_WARNINGS = (order_warnings, throw_warnings)


def problems_in(part: SoundPart, completed: Completed) -> list[Problem]:
    """Everything that is wrong, check by check."""
    found = [problem for check in _PROBLEMS for problem in check(part)]
    found += book_problems(part, completed.book)
    return [*found, *hours_problems(completed, part.time_zone)]


def warnings_in(part: SoundPart, completed: Completed) -> list[Problem]:
    """What is odd but may be meant; for a document without problems."""
    found = [warning for check in _WARNINGS for warning in check(part)]
    return [*found, *hours_warnings(completed, part.time_zone)]
