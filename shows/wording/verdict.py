"""The verdict on a numbering in one sentence, the questions to send the tour, and what the flags say."""

from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from django.utils.translation import gettext as _

from shows.core.numbering.filling import parity
from shows.core.numbering.judging import by_position, first_pairs
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, Comparison, Flag, House, Judgement, Pair
from shows.wording.numbers import house_place, number_list, show_at_house, words_and
from venue.core.labels import label_key


def sentence(comparison: Comparison) -> str:
    """An error against the show's own statement first, or the question that is open; then the labels' sentence."""
    parts = [statement_sentence(comparison), *questions(comparison), labels_sentence(comparison)]
    said = [part for part in parts if part]
    return " ".join(said) or _("No show number could be put on a place.")


def is_to_fix(comparison: Comparison) -> bool:
    """Wrong lights: the assignment breaks the show's own rule. It stops issuing."""
    judgement = comparison.against_statement
    return judgement is not None and judgement.code != "same"


def is_to_tell(comparison: Comparison) -> bool:
    """Right lights, different paint, and a label in use could be taken for another spot's number."""
    judgement = comparison.against_labels
    if judgement is None or judgement.code == "same":
        return False
    numbers = {label_key(pair.number) for pair in comparison.pairs}
    is_mistakable = any(comparison.house.label_keys[pair.slot] in numbers for pair in comparison.pairs)
    is_orderly = judgement.code == "same-order" or is_of_names(judgement)
    return is_mistakable or not is_orderly


def is_of_names(judgement: Judgement) -> bool:
    """Whether names stand for numbers or labels, so that nothing has an order: mixed, but nothing moved."""
    return judgement.code == "mixed" and not judgement.cycles


def kind(comparison: Comparison) -> Literal["fix", "tell", "ask", "agree", "none"]:
    """What has to be done first: fix wrong lights, ask the tour, tell of different paint; else agree or none.

    A number that stands by its label needs no answer on how the show counts.
    """
    if is_to_fix(comparison):
        return "fix"
    if is_to_ask(comparison):
        return "ask"
    if not comparison.pairs:
        return "none"
    return "tell" if is_to_tell(comparison) else "agree"


def is_to_ask(comparison: Comparison) -> bool:
    """The paperwork reads in two ways, or nothing says where some number stands that has no place yet."""
    placed = {label_key(pair.number) for pair in comparison.pairs}
    return any(
        flag.flag == "unclear"
        or (flag.flag == "convention-missing" and any(label_key(n) not in placed for n in _texts(flag, "numbers")))
        for flag in comparison.flags
    )


def labels_sentence(comparison: Comparison) -> str:
    """Do tonight's numbers and the painted labels agree? Empty without pairs."""
    judgement = comparison.against_labels
    if judgement is None:
        return ""
    firsts = first_pairs(comparison.pairs)
    return _LABEL_SENTENCES[judgement.code](judgement, firsts, comparison.house)


def _same(_judgement: Judgement, _pairs: Sequence[Pair], _house: House) -> str:
    return _("Show numbers are the house labels.")


def _same_order(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    return _("Same order: %(runs)s.") % {"runs": ", ".join(_runs(pairs, house))}


def _runs(pairs: Sequence[Pair], house: House) -> list[str]:
    """ "show 1–4 = house 5–8"; position by position where labels repeat."""
    if not any(house.label_keys[pair.slot] in house.repeated_labels for pair in pairs):
        return [_run(pairs, house)]
    return [
        _("%(run)s at %(position)s")
        % {"run": _run([pairs[i] for i in block], house), "position": house.positions[index].name}
        for index, block in by_position(pairs, house).items()
    ]


def _run(pairs: Sequence[Pair], house: House) -> str:
    return _("show %(numbers)s = house %(labels)s") % {
        "numbers": number_list(pair.number for pair in pairs),
        "labels": number_list(house.slots[pair.slot].label for pair in pairs),
    }


def _reversed(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    return _("House labels run the other way: %(first)s.") % {"first": show_at_house(pairs[0], house)}


def _reversed_in_blocks(judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    return " ".join(
        _("%(position)s runs the other way (%(numbers)s).")
        % {"position": house.positions[index].name, "numbers": _numbers_at(index, pairs, house)}
        for index, code in judgement.blocks
        if code == "reversed"
    )


def _numbers_at(position: int, pairs: Sequence[Pair], house: House) -> str:
    return number_list(pair.number for pair in pairs if house.position_of[pair.slot] == position)


def _blocks_moved(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    first = house.name_of(pairs[0].slot)
    return _("The show counts %(position)s first.") % {"position": first}


def _starts_elsewhere(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    return _("Same way round; %(first)s.") % {"first": show_at_house(pairs[0], house)}


def _other_way_round(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    return _("Other way round; %(first)s.") % {"first": show_at_house(_first_differing(pairs, house), house)}


def _first_differing(pairs: Sequence[Pair], house: House) -> Pair:
    """The first number that is not its own label: a mirrored ring may leave number 1 where it is."""
    return next((pair for pair in pairs if label_key(pair.number) != house.label_keys[pair.slot]), pairs[0])


def _swapped(judgement: Judgement, _pairs: Sequence[Pair], _house: House) -> str:
    return " ".join(_("%(numbers)s are swapped.") % {"numbers": words_and(cycle)} for cycle in judgement.cycles)


def _alternating(_judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    odd = [pair.slot for pair in pairs if parity(label_key(pair.number)) == 1]
    even = [pair.slot for pair in pairs if parity(label_key(pair.number)) == 0]
    side = _nearer_house_left(odd, even, house)
    if side is None:
        return _("Odd numbers on one half, even numbers on the other.")
    if side == HOUSE_LEFT:
        return _("Odd on house left, even on house right.")
    return _("Odd on house right, even on house left.")


def _nearer_house_left(odd: Sequence[int], even: Sequence[int], house: House) -> str | None:
    """The side on which the odd numbers stand: by x, by bearing in a bowl; None where neither is known."""

    def middle(slots: Sequence[int]) -> float | None:
        known = [_across(slot, house) for slot in slots]
        measured = [value for value in known if value is not None]
        return sum(measured) / len(slots) if len(measured) == len(slots) else None

    odd_middle, even_middle = middle(odd), middle(even)
    if odd_middle is None or even_middle is None or odd_middle == even_middle:
        return None
    return HOUSE_LEFT if odd_middle < even_middle else HOUSE_RIGHT


def _across(slot: int, house: House) -> float | None:
    """How far toward house right, in whatever the house has measured."""
    x, bearing, order = house.slots[slot].x, house.bearings[slot], house.slots[slot].order
    if house.positions[house.position_of[slot]].zone == "bowl":
        return None if bearing is None else -bearing
    return x if x is not None else order


def _mixed(judgement: Judgement, pairs: Sequence[Pair], house: House) -> str:
    differing = [pair for pair in pairs if label_key(pair.number) != house.label_keys[pair.slot]]
    table = "; ".join(show_at_house(pair, house) for pair in differing)
    if is_of_names(judgement):
        return _("Names have no order: %(table)s.") % {"table": table}
    return _("Numbers and labels are mixed: %(table)s.") % {"table": table}


_LABEL_SENTENCES: Mapping[str, Callable[[Judgement, Sequence[Pair], House], str]] = {
    "same": _same,
    "same-order": _same_order,
    "reversed": _reversed,
    "reversed-in-blocks": _reversed_in_blocks,
    "blocks-moved": _blocks_moved,
    "starts-elsewhere": _starts_elsewhere,
    "other-way-round": _other_way_round,
    "swapped": _swapped,
    "alternating": _alternating,
    "mixed": _mixed,
}


def statement_sentence(comparison: Comparison) -> str:
    """What is wrong against the show's own statement, and where the first wrong number belongs; else empty."""
    judgement = comparison.against_statement
    if judgement is None or judgement.code == "same":
        return ""
    fault = _fault(judgement, comparison)
    if not judgement.expected:
        return fault + "."
    number, slot = judgement.expected[0]
    place = house_place(slot, comparison.house)
    return _("%(fault)s; show %(number)s belongs on %(place)s.") % {"fault": fault, "number": number, "place": place}


def _fault(judgement: Judgement, comparison: Comparison) -> str:
    house = comparison.house
    if judgement.code == "reversed-in-blocks":
        backward = [house.positions[index].name for index, code in judgement.blocks if code == "reversed"]
        return _("%(positions)s: backward against the tour's own rule") % {"positions": words_and(backward)}
    if judgement.code == "swapped":
        swapped = ", ".join(words_and(cycle) for cycle in judgement.cycles)
        return _("%(numbers)s are swapped against the tour's own rule") % {"numbers": swapped}
    faults = {
        "reversed": _("Backward against the tour's own rule"),
        "blocks-moved": _("Positions in another order than the tour's own rule"),
        "starts-elsewhere": _("Starts elsewhere than the tour's own rule"),
        "other-way-round": _("Wrong way round against the tour's own rule"),
    }
    return faults.get(judgement.code, _("Out of order against the tour's own rule"))


def questions(comparison: Comparison) -> list[str]:
    """The questions to send the tour, where the paperwork can be read in more than one way or not at all."""
    asked: list[str] = []
    for flag in comparison.flags:
        if flag.flag == "unclear":
            asked += [_OPEN_QUESTIONS[word]() for word in flag.data["open"]]  # type: ignore[attr-defined]
        elif flag.flag == "convention-missing":
            asked.append(_convention_question(flag, comparison.house))
    return asked


_OPEN_QUESTIONS: Mapping[str, Callable[[], str]] = {
    "whose": lambda: _("Left and right as seen from the house, or from the stage?"),
    "overhead": lambda: _("The overhead spots have no direction of their own: as the house sees it, or the stage?"),
    "rows": lambda: _("Does the show count position by position, or all in one row?"),
    "outward": lambda: _("Which side comes first: house left, or house right?"),
}


def reading_words(reading: str) -> str:
    """What a reading of an unclear word means."""
    return {
        "house": _("as seen from the house"),
        "stage": _("as seen from the stage"),
        "by-position": _("position by position"),
        "one-row": _("all in one row"),
        "house-left-first": _("house left first"),
        "house-right-first": _("house right first"),
    }[reading]


def _convention_question(flag: Flag, house: House) -> str:
    if "quoted" in flag.data:
        could_be = [f"“{each}”" for each in flag.data["could_be"]]  # type: ignore[attr-defined]
        values = {"quoted": flag.data["quoted"], "could_be": _(" or ").join(could_be)}
        return _("“%(quoted)s” does not settle how the show counts: is it %(could_be)s?") % values
    if all(position.zone == "bowl" for position in house.positions):
        return _("Where does number 1 stand, and which way round does the show count?")
    return _("How does the show count: from which side, and whose left?")


def flag_sentence(flag: Flag, comparison: Comparison) -> str:
    """One flag in words."""
    return _FLAG_SENTENCES[flag.flag](flag, comparison)


def _short(flag: Flag, _comparison: Comparison) -> str:
    return _("No place left for show %(numbers)s.") % {"numbers": number_list(_texts(flag, "numbers"))}


def _spare(flag: Flag, _comparison: Comparison) -> str:
    values = {"position": flag.data["position"], "labels": number_list(_texts(flag, "labels"))}
    return _("Spare at %(position)s: house %(labels)s.") % values


def _asked(flag: Flag, comparison: Comparison) -> str:
    return " ".join(_OPEN_QUESTIONS[word]() for word in _texts(flag, "open"))


def _convention(flag: Flag, comparison: Comparison) -> str:
    numbers = number_list(_texts(flag, "numbers"))
    question = _convention_question(flag, comparison.house)
    return _("Nothing states how show %(numbers)s count. %(question)s") % {"numbers": numbers, "question": question}


def _not_ordered(flag: Flag, _comparison: Comparison) -> str:
    values = {"position": flag.data["position"], "labels": number_list(_texts(flag, "labels"))}
    return _("Nothing orders %(position)s, house %(labels)s: too close together. Name labels.") % values


def _duplicate(flag: Flag, _comparison: Comparison) -> str:
    numbers = words_and(_texts(flag, "numbers"))
    if "label" in flag.data:
        values = {"numbers": numbers, "label": flag.data["label"], "position": flag.data["position"]}
        return _("Show %(numbers)s all name house %(label)s at %(position)s.") % values
    return _("Named more than once: show %(numbers)s.") % {"numbers": numbers}


def _unknown_label(flag: Flag, _comparison: Comparison) -> str:
    found = _texts(flag, "found")
    values = {"number": flag.data["number"], "label": flag.data["label"], "found": words_and(found)}
    if found:
        return _("Show %(number)s: house label %(label)s stands at %(found)s; name the position.") % values
    return _("Show %(number)s: the house has no label %(label)s.") % values


def _unknown_place(flag: Flag, _comparison: Comparison) -> str:
    values = {"number": flag.data["number"], "text": flag.data["text"]}
    return _("Show %(number)s: “%(text)s” names no single place.") % values


def _missing(flag: Flag, _comparison: Comparison) -> str:
    parts = []
    if numbers := _texts(flag, "numbers"):
        parts.append(_("Missing: show %(numbers)s; its place is kept free.") % {"numbers": number_list(numbers)})
    if lines := _texts(flag, "lines"):
        parts.append(_("No number on line %(lines)s.") % {"lines": number_list(lines)})
    return " ".join(parts)


def _texts(flag: Flag, key: str) -> list[str]:
    return [str(each) for each in flag.data.get(key, ())]  # type: ignore[attr-defined]


_FLAG_SENTENCES: Mapping[str, Callable[[Flag, Comparison], str]] = {
    "short": _short,
    "spare": _spare,
    "unclear": _asked,
    "convention-missing": _convention,
    "not-ordered": _not_ordered,
    "duplicate": _duplicate,
    "unknown-label": _unknown_label,
    "unknown-place": _unknown_place,
    "missing-number": _missing,
}
