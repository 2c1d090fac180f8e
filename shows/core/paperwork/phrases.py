"""What the parts of a spot's line say: side, ordinal, whose left, house label, frames, channel, light, place.

Each phrase is taken out of its part; the words left over name the place, and what names none are notes. The
words are common practice (no source).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from shows.core.paperwork.records import MAX_FRAMES

_MAX_PARTS = 20
_LONGEST_PLACE = 5  # words

_SIDE = (
    r"(?:(?:house|stage)[\s-]?(?:left|right)|(?:house|stage)[\s-]?cent(?:er|re)|[HS][LR]\b"
    r"|opposite prompt(?: side)?|prompt side|left|right|cent(?:er|re))"
)
_ORDINAL = (
    r"(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth"
    r"|eleventh|twelfth)"
)
_FROM = rf"(?: (?:one |spot |place )?(?:in )?(?:from|off)(?: the)? (?:{_SIDE}|end|stage end)(?: end)?)"
_LABEL = r"#?(?P<value>[A-Za-z]{0,2}\d{1,3}[A-Za-z]?|[ABD-KM-QS-Z])(?!\w)"  # L, R and C after "house" are sides
_VALUE = r"\s*[:=#]?\s*(?P<value>.+)"


def _any_case(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


_HOUSE_VIEW = _any_case(
    r"\(?(?:\b(?:as )?(?:seen |viewed )?from (?:the )?(?:house|audience|seats)\b(?! left| right| cent)"
    r"|\b(?:as )?(?:you )?(?:look(?:ing)? at|fac(?:e|ing)) (?:the )?stage\b)\)?"
)
_STAGE_VIEW = _any_case(
    r"\(?(?:\b(?:as )?(?:seen |viewed )?from (?:the )?(?:stage|truss|deck)\b(?! left| right| cent| end)"
    r"|\b(?:as )?(?:you )?(?:look(?:ing)? at|fac(?:e|ing)) (?:the )?(?:audience|house)\b)\)?"
)
# In the order in which they are taken out: "2nd from house left" before "house left".
_PHRASES = (
    ("nth", _any_case(rf"(?<!\w)(?P<value>{_ORDINAL}{_FROM})(?!\w)")),
    ("nth", _any_case(rf"(?<!\w)(?P<value>{_ORDINAL})(?: (?:spot|place|one))?(?=$| {_SIDE}$)")),
    (
        "label",
        re.compile(
            rf"(?i:\b(?:(?:house|your)(?: (?:label|spot|number|no\.?|nr\.?))?|label|place|slot)) ?[:=]? ?{_LABEL}"
        ),
    ),
    ("channel", re.compile(r"(?i:\b(?:channel|chan|ch))\b[.:=# ]*(?P<value>[A-Za-z]|\d{1,2})(?!\w)")),
    (
        "least_lux",
        _any_case(r"(?:\b(?:at least|min(?:imum)?\.?|least) )?(?P<value>\d[\d.]* ?(?:lux|lx|fc|foot-?candles?))\b"),
    ),
    ("side", re.compile(rf"(?i:(?<!\w)(?:the |your |at |on )?(?P<value>{_SIDE})(?:[ -]hand)?(?: side)?(?!\w))")),
    ("side", re.compile(r"(?<![\w.])(?P<value>PS|OP|[HS][LR]|^[LRC]$)(?![\w.])")),
)
_KEYED = (
    ("frames", _any_case(r"(?:color )?(?:frames|colou?rs?|gels?)\b\s*[:=]?\s*(?P<value>.*)")),
    ("channel", _any_case(r"(?:headset|intercom)(?: channel| ch)?\b" + _VALUE)),
    ("pick_up", _any_case(r"(?:pick[\s-]?ups?|picks up|targets?|covers?)\b" + _VALUE)),
    ("notes", _any_case(r"(?:notes?|remarks?|comments?) ?[:=]" + _VALUE)),
)
_FRAME = _any_case(r"(?:frame|fr|f) ?(?P<frame>\d{1,2}) ?[:=]? (?P<value>.+)")
_GEL = re.compile(r"[A-Za-z]{0,3}\d{2,4}")
_COUNT = re.compile(r"\d|1[0-2]")
_PLACE = _any_case(
    r"\b(?:booths?|rails?|balcony|truss|cove|catwalk|box|boom|perch|tower|gallery|bridge|circle|concourse|bowl"
    r"|front|rear|side|foh|lift|deck|platform|projection|ceiling|beam|niche|floor|stand|tier|mezzanine|loge|roof"
    r"|apron|proscenium|wings?|pit|upstage|downstage)\b"
)
_FILLERS = _any_case(r"^(?:(?:at|in|on|of|from|and|is)\b(?: the\b)?\s*)+|(?:\s*\b(?:at|in|on|the|of|and))+$")
_SECTIONS = re.compile(r"\s+-+\s+|\s*[–—;|]\s*|\s*->\s*")
_PARTS = re.compile(r"\s*,\s*")
_COLON = re.compile(r"\s*:(?!\d)\s*")


@dataclass
class Phrases:
    """What the parts of one line have said so far: field -> text, the frames, and the words left over."""

    values: dict[str, str] = field(default_factory=dict)
    frames: dict[int, str] = field(default_factory=dict)
    left_over: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def take(self, name: str, text: str) -> bool:
        """Keep what was said of a field, if nothing was before."""
        is_new = name not in self.values
        if is_new:
            self.values[name] = text
        return is_new

    def fields(self) -> dict[str, str]:
        """Field -> text, as the columns of a table would give it."""
        frames = {f"frame {number}": text for number, text in self.frames.items()}
        notes = list(self.notes)
        if len(frames) == 1 and _COUNT.fullmatch(self.frames.get(1, "")):
            notes.append(f"frames: {frames.pop('frame 1')}")  # how many, not which
        place = _choose_place(self.left_over)
        notes += [text for text in self.left_over if text != place]
        texts = {**self.values, "position": place, "notes": "; ".join(notes)} | frames
        return {name: text for name, text in texts.items() if text}


def _choose_place(texts: list[str]) -> str:
    """The first text with a word for a place, else the first short one that begins with a letter."""
    named = (text for text in texts if _PLACE.search(text))
    short = (text for text in texts if text[0].isalpha() and len(text.split()) <= _LONGEST_PLACE)
    return next(named, None) or next(short, "")


def read_phrases(text: str) -> dict[str, str]:
    """Field -> text from what follows the number on a spot's line (plain text)."""
    said = Phrases()
    in_frames = False
    for count, (part, is_after_comma) in enumerate(_parts(text)):
        if count >= _MAX_PARTS:
            said.notes.append(part)
        else:
            in_frames = _read_part(part, said, in_frames and (is_after_comma or bool(_GEL.fullmatch(part))))
    return said.fields()


def _parts(text: str) -> Iterator[tuple[str, bool]]:
    """The parts of a line, and whether a part goes on after a comma."""
    for section in _SECTIONS.split(text):
        for index, part in enumerate(_PARTS.split(section)):
            pieces = [part] if _is_whole(part) else _COLON.split(part)
            yield from ((piece, index > 0) for piece in pieces if piece)


def _is_whole(part: str) -> bool:
    """Whether a colon in the part belongs to a phrase, as in "frames: pink"."""
    if ":" not in part or _FRAME.fullmatch(part) or any(pattern.fullmatch(part) for _, pattern in _KEYED):
        return True
    found = (pattern.search(part) for _, pattern in _PHRASES)
    return any(match is not None and ":" in match[0] for match in found)


def _read_part(part: str, said: Phrases, in_frames: bool) -> bool:
    """Read one part; returns whether the next may be one more frame."""
    for name, pattern in _KEYED:
        keyed = pattern.fullmatch(part)
        if keyed and name == "frames":
            _add_frame(said, keyed["value"])
            return True
        if keyed:
            if name == "notes" or not said.take(name, keyed["value"]):
                said.notes.append(keyed["value"])
            return False
    frame = _FRAME.fullmatch(part)
    if frame and 1 <= int(frame["frame"]) <= MAX_FRAMES:
        said.frames[int(frame["frame"])] = frame["value"]
    elif in_frames and not _says_more(part):
        _add_frame(said, part)
        return True
    else:
        _read_words(part, said)
    return False


def _add_frame(said: Phrases, color: str) -> None:
    if color:
        said.frames[max(said.frames, default=0) + 1] = color


def _says_more(part: str) -> bool:
    return any(pattern.search(part) for _, pattern in _PHRASES) or bool(_PLACE.search(part))


def _read_words(part: str, said: Phrases) -> None:
    """Take every phrase out of the part; what is left over is kept for the place or the notes."""
    rest = part
    for view, pattern in (("house", _HOUSE_VIEW), ("stage", _STAGE_VIEW)):
        seen = pattern.search(rest)
        if seen and said.take("whose_left", view):
            rest = _without(rest, seen)
    for name, pattern in _PHRASES:
        found = pattern.search(rest)
        if found and said.take(name, found["value"]):
            rest = _without(rest, found)
    rest = _FILLERS.sub("", rest.strip(" ().:=")).strip()
    if rest:
        said.left_over.append(rest)


def _without(text: str, match: re.Match[str]) -> str:
    return " ".join(f"{text[: match.start()]} {text[match.end() :]}".split())
