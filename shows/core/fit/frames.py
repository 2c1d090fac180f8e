"""Frames asked for against the magazine that is there.

show   1 2 3 4 5 6 7        frame 7: the unit has six
unit   1 2 3 x 5 6          frame 4: out of order
       ^ lens end           and where the show counts from the lamp end, all of them the other way round
"""

from collections.abc import Iterator
from math import prod

from shows.core.fit.records import Ask, Finding, Frame, UnitOffer

MOST_IN_A_FRAME = 2
"""A frame holds one color or two together (common practice, no source)."""
DARK = 0.05
"""What lets less through than this together is as good as black (common practice, no source)."""
LOADING_WAYS = ("merge", "drop", "swap", "other-spot", "on-the-nose", "other-unit")
"""Two colors in one frame; the frame is not used; it is swapped in the intermission; another number does it; a
corrector is taped on the nose; another unit takes the number."""


def frame_findings(ask: Ask, unit: UnitOffer) -> Iterator[Finding]:
    """What is in the way of the frames of a number; nothing where it asks for none."""
    if not ask.frames:
        return
    yield from _count(ask, unit)
    yield from _broken(ask, unit)
    yield from _direction(ask, unit)
    for frame in ask.frames:
        yield from _held(ask, frame, unit)


def _count(ask: Ask, unit: UnitOffer) -> Iterator[Finding]:
    if unit.frames is None:
        yield Finding("frames-not-recorded", "limits", ask.number, ways=("record",), facts={"unit": unit.tag})
        return
    for frame in ask.frames:
        if frame.number > unit.frames:
            facts = {"unit": unit.tag, "frames": unit.frames, "frame": frame.number, "holds": _holds(frame)}
            yield Finding("frame-short", "stops", ask.number, str(frame.number), LOADING_WAYS, "road", facts=facts)


def _broken(ask: Ask, unit: UnitOffer) -> Iterator[Finding]:
    for frame in ask.frames:
        if frame.number in unit.frames_out and frame.number <= (unit.frames or frame.number):
            facts = {"unit": unit.tag, "frame": frame.number, "holds": _holds(frame)}
            ways = ("mend", *LOADING_WAYS)
            yield Finding("frame-out", "stops", ask.number, str(frame.number), ways, "road", facts=facts)


def _direction(ask: Ask, unit: UnitOffer) -> Iterator[Finding]:
    if unit.frames == 0:
        return
    facts = {"unit": unit.tag, "unit_end": unit.frame_1_end, "show_end": ask.frame_1_end}
    if not unit.frame_1_end:
        yield Finding("frame-1-not-recorded", "note", ask.number, ways=("look",), facts=facts)
    elif not ask.frame_1_end:
        yield Finding("frame-1-not-said", "note", ask.number, ways=("ask-tour",), decider="road", facts=facts)
    elif unit.frame_1_end != ask.frame_1_end:
        ways = ("load-by-number", "load-reversed")
        yield Finding("magazine-other-way", "stops", ask.number, ways=ways, decider="road", facts=facts)


def _held(ask: Ask, frame: Frame, unit: UnitOffer) -> Iterator[Finding]:
    about, facts = str(frame.number), {"unit": unit.tag, "frame": frame.number, "holds": _holds(frame)}
    if len(frame.colors) > MOST_IN_A_FRAME:
        ways = ("drop", "other-spot", "on-the-nose")
        yield Finding("combination-impossible", "stops", ask.number, about, ways, "road", facts=facts)
    elif _transmission(frame) is not None and (_transmission(frame) or 0.0) < DARK and len(frame.colors) > 1:
        yield Finding("combination-dark", "limits", ask.number, about, ("drop", "other-spot"), "road", facts=facts)
    if any(color.is_diffusion for color in frame.colors):
        yield from _diffusion(ask, frame, unit, facts)


def _diffusion(ask: Ask, frame: Frame, unit: UnitOffer, facts: dict[str, object]) -> Iterator[Finding]:
    about = str(frame.number)
    if unit.magazine == "between":  # seen in published tests at about 175 feet
        yield Finding(
            "diffusion-does-nothing", "limits", ask.number, about, ("on-the-nose", "drop"), "road", facts=facts
        )
    elif not unit.magazine:
        yield Finding("diffusion-not-sure", "note", ask.number, about, ("look",), facts=facts)
    if len(frame.colors) > 1:
        yield Finding("no-hard-edge", "note", ask.number, about, ("ask-tour",), "road", facts=facts)


def _transmission(frame: Frame) -> float | None:
    known = [color.transmission for color in frame.colors if color.transmission is not None]
    return prod(known) if len(known) == len(frame.colors) else None


def _holds(frame: Frame) -> str:
    return " + ".join(color.code for color in frame.colors)
