"""A file of people: all of it or nothing, and nothing but what was shown."""

from collections import defaultdict
from collections.abc import Iterable

from django.db import transaction
from django.db.models import F

from crew.models import Certification, Person, Roster
from crew.people_errors import PeopleChanged, PeopleFileRefused, PeopleNotStored
from crew.people_file import JudgedPeople, judge_people
from venue.history import Actor, record

AT_ONCE = 500
MOST_NAMED = 20


@transaction.atomic
def load_people(*, actor: Actor, roster: Roster, text: str, shown: str = "") -> JudgedPeople:
    """Store what the text lists: people who are new, facts and certifications that differ. Nothing is ended or emptied.

    `shown` is the fingerprint of what the user saw and confirmed. Raises PeopleFileRefused with every problem,
    PeopleNotStored where nothing was confirmed yet, PeopleChanged where it was something else.
    """
    _lock(roster)
    judged = judge_people(roster, text)
    if judged.problems:
        raise PeopleFileRefused(judged)
    if judged.fingerprint != shown:
        raise PeopleChanged(judged) if shown else PeopleNotStored(judged)
    _store(judged)
    if judged.planned:
        added, changed = judged.new, judged.changes
        names = [each.person.name for each in judged.planned[:MOST_NAMED]]
        told = {"roster": roster.name, "added": len(added), "changed": len(changed), "names": names}
        record(actor, "people.loaded", roster, house=None, **told)
    return judged


def _lock(roster: Roster) -> None:
    """The roster, its people, what they hold: nobody changes them until the file is stored."""
    Roster.objects.select_for_update().get(pk=roster.pk)
    people = roster.persons.standing()
    held = Certification.objects.standing().filter(person__in=people)
    for rows in (people, held):
        list(rows.select_for_update().order_by("pk").values_list("pk"))


def _store(judged: JudgedPeople) -> None:
    Person.objects.bulk_create([each.person for each in judged.new], batch_size=AT_ONCE)
    for each in judged.changes:
        if each.changed:
            each.person.save_version(each.changed)
    held = [row for each in judged.planned for row in each.held]
    _renew(row for row in held if row.pk is not None)
    Certification.objects.bulk_create([row for row in held if row.pk is None], batch_size=AT_ONCE)


def _renew(rows: Iterable[Certification]) -> None:
    """Another last day; the rows are locked, and many are renewed through one day: a query for each day."""
    days = defaultdict(list)
    for row in rows:
        days[row.expires_on].append(row.pk)
    for day, keys in days.items():
        Certification.objects.filter(pk__in=keys).update(expires_on=day, version=F("version") + 1)
