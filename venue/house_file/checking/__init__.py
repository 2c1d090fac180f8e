"""What a schema can't say about a house file. Each check takes the sound part of a document and is independent."""

from venue.house_file.checking.names import name_problems, reference_problems
from venue.house_file.checking.orders import order_problems, order_warnings
from venue.house_file.checking.stays import stay_problems
from venue.house_file.checking.values import throw_warnings, value_problems
from venue.house_file.problems import Problem
from venue.house_file.sound import SoundPart

_PROBLEMS = (name_problems, reference_problems, value_problems, order_problems, stay_problems)
_WARNINGS = (order_warnings, throw_warnings)


def problems_in(part: SoundPart) -> list[Problem]:
    """Everything that is wrong, check by check."""
    return [problem for check in _PROBLEMS for problem in check(part)]


def warnings_in(part: SoundPart) -> list[Problem]:
    """What is odd but may be meant; for a document without problems."""
    return [warning for check in _WARNINGS for warning in check(part)]
