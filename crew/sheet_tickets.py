"""Which certifications the lights of a call ask for, and whether their operators hold them on its last day."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from crew.core.filling.bars import calendar_days
from crew.models import Call, CallLine, Certification, CertificationKind
from crew.models.certifications import NeededFor
from crew.wording.cautions import ticket_words

Owned = tuple[int, int, int | None]
"""Person, kind, and the house of an orientation: primary keys."""


@dataclass(frozen=True)
class Tickets:
    """The kinds that the roster keeps for some work, by name, and who holds which."""

    house: int
    kinds: tuple[CertificationKind, ...]
    held: frozenset[Owned]

    def of(self, asks: Collection[NeededFor], person: int | None) -> tuple[str, ...]:
        """What a light asks for, a few words each; of a light without an operator only what that is."""
        wanted = (kind for kind in self.kinds if kind.needed_for in {NeededFor.HOUSE, *asks})
        return tuple(ticket_words(kind.name, None if person is None else self._holds(person, kind)) for kind in wanted)

    def _holds(self, person: int, kind: CertificationKind) -> bool:
        return (person, kind.pk, self.house if kind.needed_for == NeededFor.HOUSE else None) in self.held


def tickets_of(call: Call, standing: Iterable[CallLine]) -> Tickets:
    """For the call with its standing lines. Two queries, however many.

    An orientation that nobody needs is left out: it would stand on every line.
    """
    kinds = CertificationKind.objects.standing().filter(roster=call.roster_id).exclude(needed_for="")
    kept = tuple(kinds.exclude(needed_for=NeededFor.HOUSE, is_required=False).order_by("name", "pk"))
    people = {line.person_id for line in standing if line.person_id is not None and line.number_key}
    last_day = calendar_days(call.call_at, call.ends_at, call.zone)[1]
    valid = Certification.objects.valid_on(last_day).filter(person__in=people, kind__in=kept)
    held = valid.order_by().values_list("person_id", "kind_id", "house_id") if kept and people else ()
    return Tickets(call.engagement.house_id, kept, frozenset(held))
