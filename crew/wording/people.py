"""The words about people: how long certifications last, days off, calls; what is wrong with a line of a file."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crew.core.lasting import Lasting, lasting_of
from crew.core.namesakes import Bearer, By, told_apart
from crew.core.people_table import LineProblem
from crew.models import CallLine, Certification, DaysOff, Person
from crew.models.rosters import Experience
from crew.moments import day_words
from venue.wording_moves import moment_words

LASTING: Mapping[Lasting, str | Promise] = {
    "for-good": gettext_lazy("for good"),
    "lasts": gettext_lazy("through %(day)s"),
    "ends-soon": gettext_lazy("ends soon: through %(day)s"),
    "expired": gettext_lazy("expired: last day was %(day)s"),
}

APART: Mapping[By, str | Promise] = {
    "list": gettext_lazy("no. %(n)s on the list"),
    "grade": gettext_lazy("grade %(n)s"),
    "entry": gettext_lazy("entered as number %(n)s of this name"),
}

LINE_SENTENCES: Mapping[str, str | Promise] = {
    "no-header": gettext_lazy("no column is known. Name the columns in the first line: name, phone, email …"),
    "no-column": gettext_lazy("there is no column for the name. Call one of them “name”."),
    "column-twice": gettext_lazy("“%(value)s” is one column too many of its kind. Keep one of them."),
    "too-many-lines": gettext_lazy("more than %(value)s people at once. Split the file."),
    "bad-quotes": gettext_lazy("the quotes don't close, or text follows them. Check this line and those before it."),
    "more-cells": gettext_lazy("more cells than columns: “%(value)s”. Put quotes round what has a comma in it."),
    "no-name": gettext_lazy("there is no name."),
    "bad-experience": gettext_lazy("experience: “%(value)s” is none of none, some, lead."),
    "bad-number": gettext_lazy("%(column)s: “%(value)s” won't do. Write a whole number: a grade from 1 to 9, a place "
                               "on the list from 1 to 100000."),
    "bad-date": gettext_lazy("“%(value)s” has no last day that can be read. Write it like 2027-03-31."),
    "unknown-certification": gettext_lazy("“%(value)s” is no certification of this roster. Write it as the settings "
                                          "do, or add it there."),
    "certification-twice": gettext_lazy("“%(value)s” is there twice, with two last days. Keep one of them."),
    "which-house": gettext_lazy("“%(value)s”: of which house? Write its name after it, in parentheses."),
    "unknown-house": gettext_lazy("“%(value)s” names a house that this roster doesn't serve."),
    "house-not-asked": gettext_lazy("“%(value)s” is not of one house. Leave the house out."),
    "line-twice": gettext_lazy("%(value)s is in line %(column)s already. Keep one of the two."),
    "several": gettext_lazy("%(value)s: more than one may be meant. Write each one's e-mail, here and on the roster."),
}  # fmt: skip
"""By the code of the problem; `value` is what stands there."""


def certification_name(certification: Certification) -> str:
    """ "Climb and harness", "House orientation (Lantern Street)"."""
    if certification.house is None:
        return certification.kind.name
    return f"{certification.kind.name} ({certification.house.name})"


def lasting_words(certification: Certification, today: date) -> str:
    """ "through Mar 31, 2027", "expired: last day was Feb 1, 2026"."""
    day = certification.expires_on
    return str(LASTING[lasting_of(day, today)]) % {"day": day_words(day) if day else ""}


def days_off_words(row: DaysOff) -> str:
    """ "Mar 2, 2026", "Mar 2, 2026 – Mar 8, 2026"."""
    first, last = day_words(row.first_day), day_words(row.last_day)
    return first if first == last else f"{first} – {last}"


def called_sentence(name: str, calls: Sequence[str]) -> str:
    """On which calls somebody is who is off then, and what to do about it."""
    text = ngettext(
        "%(name)s is on a call in these days: %(calls)s. Take them off there, or shorten the days off.",
        "%(name)s is on calls in these days: %(calls)s. Take them off there, or shorten the days off.",
        len(calls),
    )
    return text % {"name": name, "calls": "; ".join(calls)}


def apart_words(persons: Iterable[Person]) -> dict[int, str]:
    """By the key of each whose name another of these has too, what tells them apart: "no. 14 on the list"."""
    bearers = [Bearer(each.pk, each.name, each.seniority, each.skill) for each in persons]
    return {key: str(APART[by]) % {"n": n} for key, (by, n) in told_apart(bearers).items()}


def name_apart(person: Person, apart: Mapping[int, str]) -> str:
    """The name, with what tells its bearers apart, by `apart_words`."""
    return f"{person.name}, {apart[person.pk]}" if person.pk in apart else person.name


def facts_words(person: Person) -> str:
    """ "has led, grade 2, no. 14 on the list": what tells people apart on a list; empty where nothing is recorded."""
    found = [str(person.get_experience_display())] if person.experience else []
    if person.experience == Experience.NONE:
        found = [_("no shows yet")]
    if person.skill is not None:
        found.append(_("grade %(grade)s") % {"grade": person.skill})
    if person.seniority is not None:
        found.append(_("no. %(place)s on the list") % {"place": person.seniority})
    return ", ".join(found)


def line_words(line: CallLine) -> str:
    """ "The Weathervane Revue, Mar 3, 2026, 6:30 PM"."""
    return f"{line.call.engagement.name}, {moment_words(line.starts_at, line.call.zone)}"


def due_words(expired: int, soon: int) -> list[str]:
    """How many certifications have expired or will soon; nothing where none does."""
    found = []
    if expired:
        words = ngettext("%(n)s certification has expired.", "%(n)s certifications have expired.", expired)
        found.append(words % {"n": expired})
    if soon:
        words = ngettext("%(n)s certification ends within 30 days.", "%(n)s certifications end within 30 days.", soon)
        found.append(words % {"n": soon})
    return found


def line_sentence(problem: LineProblem) -> str:
    """What is wrong in a line of a file of people, and what would be right."""
    return problem_sentence(problem.code, problem.column, problem.value)


def problem_sentence(code: str, column: str = "", value: str = "") -> str:
    """The same of any code."""
    value = value if len(value) <= 60 else value[:59] + "…"
    return str(LINE_SENTENCES[code]) % {"column": column, "value": value}


def other_mail_sentence(name: str) -> str:
    """The name is on the roster with another e-mail."""
    return _("%(name)s is on file with another e-mail, which would be replaced. If this is somebody else of the same "
             "name, add them by hand.") % {"name": name}  # fmt: skip


def changes_words(person: Person, changed: list[str], held: list[Certification]) -> str:
    """What a line of a file would change of somebody: "phone, grade; Climb and harness through Mar 31, 2027"."""
    columns = {field.name: field for field in Person._meta.concrete_fields}
    facts = ", ".join(str(columns[name].verbose_name) for name in changed)
    said = [f"{certification_name(each)} {_through(each)}" for each in held]
    return "; ".join([facts, *said] if facts else said)


def _through(certification: Certification) -> str:
    day = certification.expires_on
    return str(LASTING["lasts" if day else "for-good"]) % {"day": day_words(day) if day else ""}
