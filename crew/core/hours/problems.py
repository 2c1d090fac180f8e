"""What can be wrong with a table of times or with a house's rules: codes with data, no sentences.

In a table, by line:

- `empty`, `binary`, `too-big`: limit (bytes), `too-many-lines`: limit
- `no-column`, `column-twice`, `unknown-column`: known; the column is named
- `open-quote`, `extra-cells`: cells
- `no-person`, `long-person`: limit (characters)
- `no-time`, `bad-time`: value, `time-missing`: value, zone (clocks never show it)
- `end-first`: start, end (of the call, or of the meal that `column` ends)
- `too-long`: limit (hours)
- `half-a-meal`, `meal-outside`, `meals-overlap`
- `calls-overlap`: person, first (the line of the other)
- `off-grid-start`: grid (minutes)

In rules, by path:

- `not-json`: line, column; `not-utf-8`; `too-deep`; `empty`; `too-big`: limit (bytes)
- `not-object`, `not-list`, `unknown-key`: known; `duplicate-key`, `missing`
- `bad-number`: value, least, most; `not-whole`: value; `bad-minutes`, `bad-choice`: value, known
- `bad-clock`, `bad-day`: value
- `no-night`: it begins and ends at one time
- `goes-with`: partner (one key says nothing without the other)
- `needs-rest`: a day since the turnaround needs the rest that is one
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Problem:
    """One thing wrong, in a line (from 1) and column of a table, or at a JSON path of rules."""

    code: str
    line: int | None = None
    path: str = ""
    column: str = ""
    data: Mapping[str, object] = field(default_factory=dict)
