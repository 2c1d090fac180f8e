"""What an operator must know before going to a place, as the position's record has it."""

from collections.abc import Iterator

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from venue.models import Place, Position
from venue.models.positions import FallProtection, ShowExit

FALL_WORDS = {
    FallProtection.RESTRAINT.value: gettext_lazy("restraint"),
    FallProtection.HARNESS.value: gettext_lazy("harness"),
}


def cautions_at(place: Place, operated_from: Place | None) -> tuple[str, ...]:
    """A sentence a caution, of where the operator is; what is not recorded is not said.

    `operated_from` is from where a remote-run unit at the place is run, None where its operator stands at it.
    """
    position = operated_from.position if operated_from else place.position
    remote = (_("run from %(place)s") % {"place": operated_from},) if operated_from else ()
    return (*remote, *_at_position(position))


def needs_at(place: Place, operated_from: Place | None) -> tuple[str, ...]:
    """What working there takes, in a few words each, as a line of a call names it: "harness", "no exit until end"."""
    return tuple(_needs(operated_from.position if operated_from else place.position))


def ticket_words(name: str, is_held: bool | None) -> str:
    """ "Climb and harness (held)"; only the name where nobody is there yet who could hold it."""
    if is_held is None:
        return name
    return (_("%(name)s (held)") if is_held else _("%(name)s (NOT HELD)")) % {"name": name}


def _needs(position: Position) -> Iterator[str]:
    if position.fall_protection in FALL_WORDS:
        yield str(FALL_WORDS[position.fall_protection])
    if position.show_exit == ShowExit.NO:
        yield _("no exit until end")
    if position.needs:
        yield position.needs
    if position.load_limit_kg is not None:
        yield _("load limit %(load)s kg") % {"load": f"{position.load_limit_kg:.10g}"}
    if position.seats_lost:
        lost = ngettext("%(n)s seat lost to it", "%(n)s seats lost to it", position.seats_lost)
        yield lost % {"n": position.seats_lost}


def _at_position(position: Position) -> Iterator[str]:
    if position.access:
        yield _("way up: %(words)s") % {"words": position.access}
    if position.fall_protection not in {"", FallProtection.NONE}:
        needed = {"what": position.get_fall_protection_display()}
        yield _("fall protection needed: %(what)s; ask for the rescue plan before going up") % needed
    if position.show_exit == ShowExit.NO:
        yield _("no way out during the show")
    if position.show_exit_words:
        yield _("way out: %(words)s") % {"words": position.show_exit_words}
    if position.power_switched_at:
        yield _("power is switched off at: %(words)s") % {"words": position.power_switched_at}
