"""How a show counts, in whole words: what a statement means once it is read."""

from django.utils.translation import gettext as _

from shows.core.numbering.directions import (
    BARE_SIDES,
    Alternating,
    Block,
    Depth,
    Direction,
    Outward,
    Ring,
    Row,
    Start,
    Statement,
    Unreadable,
)
from shows.core.numbering.records import OTHER_SIDE, House
from shows.core.numbering.statement import read_statement
from shows.wording.numbers import number_list, words_and
from shows.wording.sides import BOTH
from venue.core.labels import sort_key


def meaning(text: str, house: House) -> str:
    """What the statement means; that nothing says how the show counts, or that the text can't be read."""
    if not text.strip():
        return _("Nothing says how the show counts.")
    read = read_statement(text, house)
    if isinstance(read, Unreadable):
        could_be = [f"“{each}”" for each in read.could_be]
        return _("This can't be read as a way of counting. Is it %(could_be)s?") % {
            "could_be": _(" or ").join(could_be)
        }
    return " ".join(_sentences(read, house))


def _sentences(read: Statement, house: House) -> list[str]:
    said = [_block(block, house) for block in read.blocks]
    if not read.blocks and read.direction:
        said = [_("The show counts %(way)s.") % {"way": _way(read.direction)}]
    if read.in_one_row:
        said.append(_("All positions are one row."))
    if read.by_position:
        said.append(_("It goes position by position."))
    if read.unused:
        said.append(_("Not used: %(numbers)s.") % {"numbers": number_list(sorted(read.unused, key=sort_key))})
    said += [_team(number, size) for number, size in read.teams.items()]
    return said or [_("It says nothing of a direction.")]


def _team(number: str, size: int) -> str:
    if not size:
        return _("Number %(number)s is a team.") % {"number": number}
    return _("Number %(number)s is a team of %(size)s.") % {"number": number, "size": size}


def _block(block: Block, house: House) -> str:
    values = {"positions": words_and([house.positions[index].name for index in block.positions])}
    if block.direction is None:
        return _("%(positions)s: no direction.") % values
    return _("%(positions)s: %(way)s.") % {**values, "way": _way(block.direction)}


def _way(direction: Direction) -> str:
    if isinstance(direction, Row):
        return _row(direction.first)
    if isinstance(direction, Depth):
        return _("from downstage to upstage") if direction.first == "front" else _("from upstage to downstage")
    if isinstance(direction, Ring):
        return _ring(direction)
    if isinstance(direction, Alternating):
        return _alternating(direction)
    return _outward(direction)


def _row(first: str) -> str:
    if first in BARE_SIDES:
        return _("from %(first)s, without saying whose") % {"first": first}
    values = {"first": BOTH.get(first, first), "last": BOTH.get(OTHER_SIDE.get(first, ""), "")}
    return _("from %(first)s to %(last)s") % values


def _ring(ring: Ring) -> str:
    way = _("clockwise seen from above") if ring.clockwise else _("counterclockwise seen from above")
    if ring.start is None:
        return _("%(way)s, without saying where it starts") % {"way": way}
    return _("%(way)s, from %(start)s") % {"way": way, "start": _start(ring.start)}


def _start(start: Start) -> str:
    words = {"bearing": _("%(value)s degrees from the stage end"), "clock": _("%(value)s o'clock")}
    words |= {"label": _("house label %(value)s"), "number": _("“%(value)s”, without saying of what")}
    return words.get(start.kind, "%(value)s") % {"value": BOTH.get(start.value, start.value)}


def _alternating(direction: Alternating) -> str:
    if direction.odd is None:
        return _("odd numbers on one side, even on the other")
    odd = BOTH.get(direction.odd, direction.odd)
    even = BOTH.get(OTHER_SIDE.get(direction.odd, ""), "")
    return _("odd numbers on %(odd)s, even on %(even)s") % {"odd": odd, "even": even or _("the other side")}


def _outward(direction: Outward) -> str:
    way = _("from the ends in to the center") if direction.inward else _("from the center outward")
    if direction.first is None:
        return _("%(way)s, without saying which side first") % {"way": way}
    return _("%(way)s, %(first)s first") % {"way": way, "first": BOTH.get(direction.first, direction.first)}
