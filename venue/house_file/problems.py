"""What is wrong in a house file, and where."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from venue.errors import DomainError
from venue.house_file.paths import Path, json_path
from venue.house_file.wording import difference_sentence, house_exists_sentence, problem_sentence


@dataclass(frozen=True)
class Problem:
    """One thing wrong: where, a code, and what its sentence names."""

    path: Path
    code: str
    data: Mapping[str, Any] = field(default_factory=dict)

    @property
    def where(self) -> str:
        """The place in the file, for people."""
        return json_path(self.path)

    @property
    def sentence(self) -> str:
        """What is wrong and what would be right."""
        return problem_sentence(self)

    def __str__(self) -> str:
        return f"{self.where}: {self.sentence}"


class HouseFileRefused(DomainError):
    """The file can't be used: `problems` names everything that is wrong with it. Nothing was stored."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(self.problems)

    def __str__(self) -> str:
        return "\n".join(map(str, self.problems))


@dataclass(frozen=True)
class Difference:
    """A value that differs at a path of the file; None stands for what one of the two does not have."""

    path: Path
    stored: Any
    file: Any

    @property
    def where(self) -> str:
        """The place in the file, for people."""
        return json_path(self.path)

    @property
    def sentence(self) -> str:
        """Both values."""
        return difference_sentence(self)


class HouseExists(DomainError):
    """A house of this slug is on file; `differences` name where the file says something else."""

    def __init__(self, slug: str, differences: Iterable[Difference]) -> None:
        self.slug, self.differences = slug, tuple(differences)
        super().__init__(slug)

    def __str__(self) -> str:
        return house_exists_sentence(self)


def first_at_each_path(problems: Iterable[Problem]) -> list[Problem]:
    """The problems without those that only repeat, in other words, that a value is wrong."""
    found: dict[Path, Problem] = {}
    for problem in problems:
        found.setdefault(problem.path, problem)
    return list(found.values())
