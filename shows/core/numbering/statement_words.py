"""The words in which numbering is stated, and the scanner that turns a line into tokens.

The expressions are common practice (no source); in full or abbreviated (HL, SR, FOH, CW), in any case.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from venue.core.labels import plain_text


@dataclass(frozen=True)
class Token:
    kind: str
    value: str = ""


KIND_WORDS: Sequence[str] = (
    "booth", "catwalk", "rail", "balcony", "cove", "truss", "tower", "lift", "perch", "gallery", "bridge",
    "deck", "concourse", "dome", "box boom", "beam", "scaffold", "circle", "roof", "arch", "pit",
)  # fmt: skip

_SMALL = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6"}
_NUMBER = r"(?:(?:#|no\.\s*)?[a-z]{0,2}\d{1,4}[a-z]?)"
_SIZE = r"(?P<size>\d|two|three|four|five|six)"
_THE = r"(?:the\s+)?"
_STAGE = r"stage\b(?!\s*-?\s*(?:left|right|end))"
_CENTER = r"(?:cent(?:er|re)(?:\s*line)?|middle)"
_FACING = (
    r"(?:(?:as\s+)?(?:you|we|one|they)(?:\s+are|'re)?\s+|(?:when|while|if)\s+(?:you\s+)?(?:are\s+)?)?"
    r"(?:look(?:ing|s)?|fac(?:e|es|ing)|seen|view(?:ed|ing)?)\s+(?:out\s+)?(?:(?:at|to(?:wards?)?|into)\s+)?"
)
_SEEN_FROM = r"(?:(?:as\s+)?(?:seen|viewed|read|counted)\s+)?from\s+(?:on\s*)?"
_HOUSE = r"(?:house|audience|auditorium|seats|f\.?o\.?h\.?|front\s+of\s+house|booth|crowd|public)"
_ON_STAGE = r"(?:deck|truss(?:es)?|performers?|actors?|artists?|band)"
_UPSTAGE, _DOWNSTAGE = r"(?:upstage|u\.?s\b\.?)", r"(?:downstage|d\.?s\b\.?)"

# (kind, value, alternatives): the first that matches wins. Without a value of its own a token carries what
# the groups `value`, `team` and `size`, or `low` and `high` caught.
_WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("CLOCK_SET", "", (
        rf"(?:with\s+)?12(?:\s*o\W?\s*clock)?\s+(?:is\s+|being\s+|=\s*)?(?:at\s+)?{_THE}(?:stage(?:\s+end)?|upstage)",)),
    ("TEAM", "", (
        rf"(?P<team>{_NUMBER})\s*(?:is|are|=|as)?\s+an?\s+team(?:\s+of\s+{_SIZE})?",
        rf"team\s+of\s+(?P<size_1>\d|two|three|four|five|six)\s+(?:on|as|is|called|for)\s+(?:(?:number|spot)\s+)?"
        rf"(?P<team_1>{_NUMBER})")),
    ("DEPTH", "front", (
        rf"(?:from\s+)?{_THE}front\s+to\s+{_THE}(?:back|rear)", rf"{_DOWNSTAGE}\s+(?:to\s+{_UPSTAGE}|first)")),
    ("DEPTH", "back", (
        rf"(?:from\s+)?{_THE}(?:back|rear)\s+to\s+{_THE}front", rf"{_UPSTAGE}\s+(?:to\s+{_DOWNSTAGE}|first)")),
    ("OUTWARD", "", (
        rf"(?:from\s+)?{_THE}{_CENTER}[\s,]+(?:and\s+)?(?:out(?:wards?)?|to\s+{_THE}(?:outsides?|ends|sides|edges))\b"
        r"(?:\s+on\s+(?:both|each)\s+sides?)?",
        rf"out(?:wards?)?\s+from\s+{_THE}{_CENTER}", r"inside\s+out\b", r"outwards?\b", rf"from\s+{_THE}{_CENTER}")),
    ("INWARD", "", (
        rf"(?:from\s+)?{_THE}(?:outsides?|ends?|edges)[\s,]+in(?:wards?)?(?:\s+to\s+{_THE}{_CENTER})?\b",
        rf"in(?:wards?)?\s+to(?:wards?)?\s+{_THE}{_CENTER}", r"inwards?\b")),
    ("VIEW", "house", (
        rf"{_FACING}{_THE}{_STAGE}", r"(?:house|audience)(?:'?s)?\s+(?:point\s+of\s+)?(?:view|perspective)\b",
        rf"{_SEEN_FROM}{_THE}{_HOUSE}(?!\w)(?!\s*-?\s*(?:left|right|label|spot|number|to\b|#|\d))")),
    ("VIEW", "stage", (
        rf"{_FACING}{_THE}{_HOUSE}(?!\w)", r"(?:look|fac)(?:e|ing)?\s+out\b",
        r"(?:stage|performers?'?s?|actors?'?s?)\s+(?:point\s+of\s+)?(?:view|perspective)\b",
        rf"{_SEEN_FROM}{_THE}{_STAGE}(?!\s*to\b)", rf"{_SEEN_FROM}{_THE}{_ON_STAGE}\b(?!\s*to\b)")),
    ("SIDE", "house left", (
        r"house\s*-?\s*left", r"h\.?\s?l\b\.?", r"audience(?:'?s)?\s+left", r"camera\s+left",
        rf"left\s+(?:(?:side|hand|end)\s+)*of\s+{_THE}(?:house|audience)",
        r"stage\s*-?\s*right", r"s\.?\s?r\b\.?", r"(?:actor|performer)s?'?s?\s+right",
        rf"right\s+(?:(?:side|hand|end)\s+)*of\s+{_THE}stage")),
    ("SIDE", "house right", (
        r"house\s*-?\s*right", r"h\.?\s?r\b\.?", r"audience(?:'?s)?\s+right", r"camera\s+right",
        rf"right\s+(?:(?:side|hand|end)\s+)*of\s+{_THE}(?:house|audience)",
        r"stage\s*-?\s*left", r"s\.?\s?l\b\.?", r"(?:actor|performer)s?'?s?\s+left",
        rf"left\s+(?:(?:side|hand|end)\s+)*of\s+{_THE}stage")),
    ("SIDE", "opposite prompt", (r"(?:opposite\s+prompt|off\s+prompt|o\.?p\b\.?)(?:\s+(?:side|corner))?",)),
    ("SIDE", "prompt", (r"(?:prompt|p\.?s\b\.?)(?:\s+(?:side|corner))?",)),
    ("SIDE", "other", (rf"{_THE}(?:other|opposite)(?:\s+(?:side|end))?\b",)),
    ("SIDE", "one", (r"one\s+side\b",)),
    ("BEARING", "180", (rf"{_THE}far\s+end", rf"opposite\s+{_THE}stage\b")),
    ("BEARING", "", (
        r"bearing\s+(?P<value>\d{1,3}(?:\.\d+)?)(?:\s*(?:°|deg(?:rees?)?))?",
        r"(?P<value_1>\d{1,3}(?:\.\d+)?)\s*(?:°|deg(?:rees?)?\b)")),
    ("CLOCK", "", (
        r"(?P<value>1[0-2]|0?[1-9])\s*(?::\s*00\s*)?o\s*\W?\s*clock\b", r"(?P<value_1>1[0-2]|0?[1-9]):00\b")),
    ("BEARING", "0", (rf"{_THE}(?:stage\s+end|upstage\s+{_CENTER})", rf"{_THE}{_STAGE}")),
    ("ROTATION", "ccw", (r"(?:anti|counter)\s*-?\s*clock\s*-?\s*wise", r"c\.?c\.?w\b\.?", r"a\.?c\.?w\b\.?")),
    ("ROTATION", "cw", (r"clock\s*-?\s*wise", r"c\.?w\b\.?")),
    ("FROM_BELOW", "", (r"(?:as\s+)?(?:(?:seen|viewed)\s+)?from\s+(?:below|underneath|the\s+floor)",)),
    ("FILL", "", (r"(?:as\s+)?(?:(?:seen|viewed)\s+)?from\s+(?:above|overhead|the\s+air)", r"in\s+plan\b")),
    ("LABEL", "", (
        r"(?:house\s+)?label\s*#?\s*(?P<value>[a-z]{0,2}\d{1,3}[a-z]?|[a-z]{1,2}\b)",
        r"(?:house|your|the\s+house'?s)\s+(?:(?:spot|number|no\.?|#)\s*)?(?P<value_1>[a-z]{0,2}\d{1,3}[a-z]?)\b")),
    ("ODD", "", (r"odds?(?:\s+(?:numbers?|numbered|spots?|ones))*",)),
    ("EVEN", "", (r"evens?(?:\s+(?:numbers?|numbered|spots?|ones))*",)),
    ("ONE_ROW", "", (
        r"(?:all\s+)?(?:in|as)\s+(?:one|a|a\s+single)\s+(?:single\s+|continuous\s+)?(?:row|line)\b",
        r"(?:one|single)\s+row\b", r"(?:straight|right)\s+across\b")),
    ("BY_POSITION", "", (
        r"(?:position\s+by\s+position|booth\s+by\s+booth)\b", r"by\s+(?:booth|position|place)(?:\s+or\s+level)?\b",
        r"each\s+position\s+(?:in\s+turn|by\s+itself|on\s+its\s+own)")),
    ("BY_LEVEL", "", (r"level\s+by\s+level\b", r"by\s+levels?\b")),
    ("ZONE", "front", (
        r"front\s+of\s+house(?:\s+(?:spots?|lights?))?", r"f\.?o\.?h\b\.?", r"fronts?\b", r"house\s+spots\b")),
    ("ZONE", "rear", (r"rears?\b", r"backs?\b", rf"behind\s+{_THE}stage")),
    ("ZONE", "side", (r"sides?\s+(?:spots|lights|positions)", r"sides\b")),
    ("ZONE", "overhead", (r"overheads?\b",)),
    ("ZONE", "bowl", (rf"{_THE}(?:bowl|ring)\b",)),
    ("UNUSED", "", (
        r"(?:are\s+|is\s+)?(?:not\s+|un)used\b", r"(?:are\s+|is\s+)?not\s+in\s+use\b",
        r"(?:are\s+|is\s+)?(?:omitted|skipped|left\s+out)\b", r"(?:do|does)(?:\s+not|n'?t)\s+exist\b")),
    ("WITHOUT", "", (
        r"(?:no|without)\s+(?:spots?|numbers?)\b", r"(?:skip(?:s|ping)?|omit(?:s|ting)?|leav(?:es?|ing)\s+out)\b")),
    ("LIST", "", (rf"(?P<value>{_NUMBER}(?:\s*-\s*{_NUMBER}){{2,}})\b",)),
    ("RANGE", "", (
        rf"(?P<low>{_NUMBER})\s*(?:-|to|thru|through|\.\.)\s*(?P<high>{_NUMBER})\b(?!\s*-\s*{_NUMBER})",
        r"(?!l\s*(?:-|to|thru|through)\s*r\b|r\s*(?:-|to|thru|through)\s*l\b)"
        r"(?P<low_1>[a-z])\s*(?:-|\bthru\b|\bthrough\b|\bto\b)\s*(?P<high_1>[a-z])\b")),
    ("NUMBER", "", (rf"(?P<value>{_NUMBER})\b",)),
    ("SIDE", "left", (r"left(?:\s*-?\s*hand)?(?:\s+(?:side|end))?\b", r"l\b\.?")),
    ("SIDE", "right", (r"right(?:\s*-?\s*hand)?(?:\s+(?:side|end))?\b", r"r\b\.?")),
    ("TO", "", (r"->|=>|→|>", r"(?:to(?:wards?)?|thru|through|until)\b")),
    ("START", "", (r"(?:starts?|starting|begins?|beginning)(?:\s+(?:at|from|with|on|is))*\b", r"from\b")),
    ("FIRST", "", (r"first\b",)),
    ("SEP", "", (
        r"(?:and\s+)?then\b", r"followed\s+by\b", r"continu(?:es?|ed|ing)(?:\s+(?:on|with|after|to))*\b",
        r"(?:after\s+that|after|next|finally|last(?:ly)?|on\s+to)\b", r"(?P<value>and\b|or\b|[,/&]|-+)", r"[;.:|+]")),
    ("FILL", "", (
        r"(?:numbering|numbers?|numbered|follow\s*-?\s*spots?|spots?|lights?|units?|positions?|places?|fixtures?)\b",
        r"(?:counts?|counted|counting|runs?|running|reads?|goes|go|going|in\s+order|order|ordered|always)\b",
        r"(?:we|they|you|tour(?:'?s)?|shows?(?:'?s)?|are|is|all|the|of|our|at|on|with|in|as|it|its|an|a)\b",
        r"(?:each|every|both|direction|sequence|across|half|halves|end|side|calls?|called|that|which|for)\b",
        r"(?:seen|row|house|one)\b", r"[()\[\]\"'!=*#]")),
)  # fmt: skip

_SCANNERS = [(kind, value, re.compile("|".join(alternatives))) for kind, value, alternatives in _WORDS]
_ANY_WORD = re.compile(r"[^\s,;:.]+|.")


def clean(text: str) -> str:
    """The statement as the scanner takes it: one form of dashes and quotes, small letters."""
    dashed = re.sub(r"[‐-―−]", "-", plain_text(text))
    return re.sub(r"[‘’ʼ`´]", "'", dashed).casefold()


def scan(text: str, names: Sequence[str], words: Sequence[str]) -> Iterator[Token]:
    """The tokens of a cleaned statement; what nobody knows comes as WORD.

    `names` are position names and win over everything; `words` (kinds, words out of names) come last.
    """
    named, worded = [_phrases("NAME", phrases) for phrases in (names, words)]
    scanners = [*named, *_SCANNERS, *worded]
    at = 0
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        token, at = _next_token(text, at, scanners)
        yield token


def _phrases(kind: str, phrases: Sequence[str]) -> list[tuple[str, str, re.Pattern[str]]]:
    longest_first = sorted((phrase for phrase in phrases if phrase), key=len, reverse=True)
    return [(kind, phrase, re.compile(rf"(?:the\s+)?{re.escape(phrase)}(?:e?s)?(?!\w)")) for phrase in longest_first]


def _next_token(text: str, at: int, scanners: list[tuple[str, str, re.Pattern[str]]]) -> tuple[Token, int]:
    for kind, value, pattern in scanners:
        found = pattern.match(text, at)
        if found and found.end() > at and _ends_at_word(text, found.end()):
            return Token(kind, value or _value_of(found)), found.end()
    word = _ANY_WORD.match(text, at)
    return (Token("WORD", word[0]), word.end()) if word else (Token("WORD", text[at]), at + 1)


def _ends_at_word(text: str, end: int) -> bool:
    """Whether a match ends where a word ends, so that "l" is not read out of "lights"."""
    return end >= len(text) or not (text[end - 1].isalnum() and text[end].isalnum())


def _value_of(found: re.Match[str]) -> str:
    caught = {name.removesuffix("_1"): text for name, text in found.groupdict().items() if text is not None}
    if "team" in caught:
        size = caught.get("size", "0")
        return f"{caught['team']}={_SMALL.get(size, size)}"
    if "low" in caught:
        return f"{caught['low']}..{caught['high']}"
    return caught.get("value", "")
