"""What a unit can't do, as a file says it in words, and as one of the limits that we know.

"frame 4 out" is the limit of frames with frame 4; what is known no better stays in its own words.
"""

import re
from dataclasses import replace

from venue.core.frame_numbers import FrameProblem, as_list, read_frames
from venue.core.names import name_key
from venue.house_file.records.care import LIMIT_WORDS, FaultRecord

_KINDS = {words: kind for kind, words in LIMIT_WORDS.items()}
_FRAMES_OUT = re.compile(r"frames? (.+?) (?:is |are )?out")


def with_known_limit(fault: FaultRecord) -> FaultRecord:
    """The fault with its limit's kind, and without words that only repeat it."""
    if fault.means != "limited":
        return fault
    if fault.limit_kind:
        told = replace(fault, frames_out=_frames(fault.frames_out) or fault.frames_out)
        return replace(told, limit="") if name_key(told.limit) == told.limit_words else told
    words = name_key(fault.limit)
    found = _FRAMES_OUT.fullmatch(words)
    frames = _frames(found[1]) if found else ""
    if frames:
        return replace(fault, limit_kind="frames", frames_out=frames, limit="")
    if words in _KINDS:
        return replace(fault, limit_kind=_KINDS[words], limit="")
    return replace(fault, limit_kind="other") if words else fault


def limit_over(stored: FaultRecord, file: FaultRecord) -> FaultRecord:
    """The file's fault as far as its limit goes: the same words, read from no kind, leave the stored limit as it is."""
    if "limit" not in file.given or "limit_kind" in file.given:
        return file
    is_same = name_key(file.as_written().limit) == name_key(stored.as_written().limit)
    about = {"limit", "limit_kind", "frames_out"}
    return replace(file, given=file.given - about if is_same else file.given | about)


def _frames(text: str) -> str:
    """The frames as they are stored; empty where the text lists none."""
    try:
        return as_list(read_frames(text, None))
    except FrameProblem:
        return ""
