"""The comparison as the JSON document that scripts rely on; its sentences are always American English."""

from collections.abc import Callable, Mapping

from django.utils import translation

from shows.core.numbering.records import Comparison, Flag, House, Judgement, Pair, WayOut
from shows.wording import verdict

Document = dict[str, object]


def as_document(comparison: Comparison) -> Document:
    """The whole answer: pairs, both judgements, flags, readings, ways out, sentence."""
    house = comparison.house
    with translation.override("en-us"):
        return {
            "pairs": [_pair(pair, house) for pair in comparison.pairs],
            "against_labels": _judgement(comparison.against_labels, house),
            "against_statement": _judgement(comparison.against_statement, house),
            "flags": [_flag(flag, comparison) for flag in comparison.flags],
            "readings": [
                {
                    "reading": reading.reading,
                    "pairs": [_pair(pair, house) for pair in reading.pairs],
                    "against_labels": _judgement(reading.against_labels, house),
                    "against_statement": _judgement(reading.against_statement, house),
                }
                for reading in comparison.readings
            ],
            "ways_out": [_WAYS[way.way](way, house) for way in comparison.ways_out],
            "sentence": verdict.sentence(comparison),
        }


def _place(slot: int, house: House) -> Document:
    return {"position": house.name_of(slot), "label": house.slots[slot].label}


def _pair(pair: Pair, house: House) -> Document:
    return {"show": pair.number, **_place(pair.slot, house), "from": pair.source}


def _judgement(judgement: Judgement | None, house: House) -> Document | None:
    if judgement is None:
        return None
    return {
        "code": judgement.code,
        "blocks": [{"position": house.positions[index].name, "code": code} for index, code in judgement.blocks],
        "cycles": [list(cycle) for cycle in judgement.cycles],
        "tau": judgement.tau,
    }


def _flag(flag: Flag, comparison: Comparison) -> Document:
    if flag.flag == "unclear":
        return {"flag": "unclear", "question": verdict.flag_sentence(flag, comparison)}
    data = {key: list(value) if isinstance(value, tuple) else value for key, value in flag.data.items()}
    return {"flag": flag.flag, **data}


def _tape(way: WayOut, house: House) -> Document:
    tapes = [{**_place(int(str(slot)), house), "tape": text} for slot, text in way.changes]
    return {"way": "tape", "changes": len(tapes), "tapes": tapes}


def _move(way: WayOut, house: House) -> Document:
    moves = [{"number": number, **_place(int(str(slot)), house)} for number, slot in way.changes]
    return {"way": "move", "changes": len(moves), "moves": moves}


def _renumber(way: WayOut, _house: House) -> Document:
    table = [{"show": number, "becomes": label} for number, label in way.changes]
    return {"way": "renumber", "changes": len(table), "table": table}


_WAYS: Mapping[str, Callable[[WayOut, House], Document]] = {"tape": _tape, "move": _move, "renumber": _renumber}
