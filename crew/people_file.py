"""A file of people held against the roster: every problem by its line, and what would be stored if there is none."""

import base64
import hashlib
import zlib
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice

from crew.access import houses_served
from crew.core.people_cells import Held, Known
from crew.core.people_table import PersonLine, read_people
from crew.models import Certification, CertificationKind, Person, Roster
from crew.models.certifications import NeededFor
from crew.wording.people import changes_words, facts_words, line_sentence, other_mail_sentence, problem_sentence
from venue.core.names import name_key
from venue.errors import Invalid
from venue.models import House
from venue.readings_file import FileProblem
from venue.storing import check_columns

MOST_BYTES = 5 * 1024 * 1024
MOST_PACKED = 2 * 1024 * 1024
"""What a form may carry back, below what the server takes of fields that are no files."""
MOST_SHOWN = 200
FACTS = ("phone", "email", "experience", "units_known", "seniority", "skill", "notes")


@dataclass(frozen=True)
class Planned:
    """What a line would store: a person, new or on file, with the facts that change, certifications with theirs."""

    line: int
    person: Person
    changed: list[str]
    held: list[Certification]
    is_new: bool

    @property
    def words(self) -> str:
        """What is new, in words; ways to reach somebody are named, not told."""
        if not self.is_new:
            return changes_words(self.person, self.changed, self.held)
        contact = [name for name in self.changed if name not in ("experience", "skill", "seniority")]
        return "; ".join(filter(None, (facts_words(self.person), changes_words(self.person, contact, self.held))))


@dataclass
class JudgedPeople:
    """What came of a file. `problems` keep it out, `odd` lines want a look, `already` counts those with nothing new.

    `unknown` are columns that nobody knows.
    """

    planned: list[Planned] = field(default_factory=list)
    problems: list[FileProblem] = field(default_factory=list)
    odd: list[FileProblem] = field(default_factory=list)
    already: int = 0
    unknown: tuple[str, ...] = ()

    @property
    def new(self) -> list[Planned]:
        return [each for each in self.planned if each.is_new]

    @property
    def changes(self) -> list[Planned]:
        return [each for each in self.planned if not each.is_new]

    @property
    def shown(self) -> list[Planned]:
        """The first of them, as a page shows them."""
        return list(islice(self.planned, MOST_SHOWN))

    @property
    def unshown(self) -> int:
        return max(0, len(self.planned) - MOST_SHOWN)

    @property
    def fingerprint(self) -> str:
        """The same as long as the same would be stored."""
        digest = hashlib.sha256()
        for each in self.planned:
            digest.update(repr(_plain(each)).encode("utf-8", "replace"))
        return digest.hexdigest()


def _plain(each: Planned) -> tuple[object, ...]:
    facts = [getattr(each.person, name) for name in ("name", *each.changed)]
    held = [(one.pk, one.version, one.kind_id, one.house_id, one.expires_on) for one in each.held]
    return each.line, each.person.pk, each.person.version, each.changed, facts, held


def packed(text: str) -> str:
    """The text as a form carries it back unseen."""
    return base64.urlsafe_b64encode(zlib.compress(text.encode(), 9)).decode()


def unpacked(carried: str) -> str | None:
    """The text that was packed; None for what is no such thing, or larger than a file may be."""
    unpacking = zlib.decompressobj()
    try:
        text = unpacking.decompress(base64.urlsafe_b64decode(carried.encode()), 2 * MOST_BYTES)
        return text.decode() if unpacking.eof else None
    except (ValueError, zlib.error):
        return None


def judge_people(roster: Roster, text: str) -> JudgedPeople:
    """Read the text and hold it against the roster. The number of queries does not depend on its length."""
    kinds = {kind.name_key: kind for kind in roster.certification_kinds.standing()}
    houses = {name_key(house.name): house for house in houses_served(roster)}
    known = Known({key: kind.needed_for == NeededFor.HOUSE for key, kind in kinds.items()}, tuple(houses))
    read = read_people(text, known)
    judged = JudgedPeople(unknown=read.unknown)
    judged.problems += [FileProblem(problem.line, line_sentence(problem)) for problem in read.problems]
    matched = _matched(read.lines, list(roster.persons.standing()), judged)
    stored = {(each.person_id, each.kind_id, each.house_id): each for each in _standing(roster)}
    for line in read.lines:
        if line.line in matched:
            person = matched[line.line] or Person(roster=roster, name=line.name)
            held = _held(person, line.held, kinds, houses, stored)
            _plan(line, person, held, judged)
    for told in (judged.problems, judged.odd):
        told.sort(key=lambda problem: problem.line)
    return judged


def _standing(roster: Roster) -> Iterable[Certification]:
    rows = Certification.objects.standing().filter(person__roster=roster, person__ended_at__isnull=True)
    return rows.select_related("kind", "house")


def _matched(lines: Sequence[PersonLine], people: Sequence[Person], judged: JudgedPeople) -> dict[int, Person | None]:
    """Whom each line means, None for somebody new; by name and e-mail first, then by the name alone."""
    by_name: dict[str, list[Person]] = defaultdict(list)
    for person in people:
        by_name[name_key(person.name)].append(person)
    found: dict[int, Person | None] = {}
    rest: dict[str, list[PersonLine]] = defaultdict(list)
    taken: dict[int, int] = {}
    for line in lines:
        same = [each for each in by_name[line.key] if line.mail_key and each.email.casefold() == line.mail_key]
        if not same:
            rest[line.key].append(line)
        elif len(same) > 1:
            _problem(judged, line, "several")
        elif same[0].pk in taken:
            _problem(judged, line, "line-twice", str(taken[same[0].pk]))
        else:
            found[line.line], taken[same[0].pk] = same[0], line.line
    for key, group in rest.items():
        _match_by_name(group, [each for each in by_name[key] if each.pk not in taken], found, judged)
    return found


def _match_by_name(
    group: Sequence[PersonLine], free: Sequence[Person], found: dict[int, Person | None], judged: JudgedPeople
) -> None:
    """Lines of one name whose e-mail is nobody's; `free` are those of the name whom no other line means."""
    first: dict[str, int] = {}
    for line in group:
        if first.setdefault(line.mail_key, line.line) != line.line:
            _problem(judged, line, "line-twice", str(first[line.mail_key]))
        elif not free:
            found[line.line] = None
        elif len(free) == len(group) == 1:
            found[line.line] = free[0]
            if line.mail_key and free[0].email:
                judged.odd.append(FileProblem(line.line, other_mail_sentence(line.name)))
        else:
            _problem(judged, line, "several")


def _problem(judged: JudgedPeople, line: PersonLine, code: str, other: str = "") -> None:
    judged.problems.append(FileProblem(line.line, problem_sentence(code, other, line.name)))


def _held(
    person: Person,
    held: Iterable[Held],
    kinds: Mapping[str, CertificationKind],
    houses: Mapping[str, House],
    stored: Mapping[tuple[int, int, int | None], Certification],
) -> list[Certification]:
    """Certifications that the line adds, or whose last day it changes; without a last day it says nothing of it."""
    found = []
    for each in held:
        kind, house = kinds[each.kind], houses.get(each.house)
        row = stored.get((person.pk, kind.pk, house.pk if house else None))
        if row is None:
            found.append(Certification(person=person, kind=kind, house=house, expires_on=each.expires_on))
        elif each.expires_on not in (None, row.expires_on):
            row.expires_on = each.expires_on
            found.append(row)
    return found


def _plan(line: PersonLine, person: Person, held: list[Certification], judged: JudgedPeople) -> None:
    changed = [name for name in FACTS if name in line.facts and _differs(name, getattr(person, name), line.facts[name])]
    for name in changed:
        setattr(person, name, line.facts[name])
    written = {"name", *changed}
    try:
        check_columns(person, {field.name for field in Person._meta.fields} - written)
    except Invalid as refusal:
        told = refusal.problems.items()
        judged.problems += [FileProblem(line.line, f"{name}: {' '.join(words)}") for name, words in told]
        return
    is_new = person.pk is None
    if is_new or changed or held:
        judged.planned.append(Planned(line.line, person, changed, held, is_new))
    else:
        judged.already += 1


def _differs(name: str, stored: object, told: object) -> bool:
    """Capitals don't make another e-mail."""
    return stored != told and not (name == "email" and str(stored).casefold() == str(told).casefold())
