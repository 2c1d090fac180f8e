"""What the preview of a paperwork shows."""

from dataclasses import dataclass
from typing import Any

from shows.core.paperwork import LineProblem, SpotLine
from shows.models import Engagement, Paperwork
from shows.preview import COLUMN, MAP, NUMBER, Corrections, Preview, lines_with_problems
from shows.tonight import Tonight
from shows.wording import verdict
from shows.wording.fields import change_lines, field_choices, field_name
from shows.wording.paperwork import problem_at_line, problem_sentence
from shows.wording.statements import meaning


@dataclass(frozen=True)
class ShownLine:
    """One line: what was read of it, what is wrong with it, and whether its number can be put right here."""

    line: int
    number: str
    facts: list[tuple[str, str]]
    text: str
    problems: list[str]
    asks_number: bool
    corrected: str


def preview_context(
    engagement: Engagement, paperwork: Paperwork, preview: Preview, corrections: Corrections, tonight: Tonight
) -> dict[str, Any]:
    """Everything that the template names."""
    read = preview.read
    statement = corrections.statement or (read.statement if read else None) or ""
    return {
        "engagement": engagement,
        "paperwork": paperwork,
        "preview": preview,
        "columns": _columns(preview),
        "choices": field_choices(),
        "which": [_which(problem) for problem in preview.refused if problem.field],
        "refused": [problem_at_line(problem) for problem in preview.refused],
        "lines": [_shown(line, problems, corrections) for line, problems in lines_with_problems(preview)],
        "whole": [problem_at_line(each) for each in preview.taken.problems if _is_of_no_spot(each, preview)],
        "statement_read": read.statement if read else None,
        "statement": corrections.statement,
        "meaning": meaning(statement, tonight.house),
        "verdict": verdict.sentence(preview.comparison) if preview.comparison else "",
        "changes": change_lines(preview.changes) if preview.changes else [],
        "hidden": _hidden(preview, corrections),
    }


def _columns(preview: Preview) -> list[tuple[str, str, str]]:
    """Each column's name in the form, its header, and the field it is read as."""
    columns = preview.read.columns if preview.read else ()
    return [(f"{COLUMN}{at}", column.header, column.field or "") for at, column in enumerate(columns)]


def _which(problem: LineProblem) -> dict[str, Any]:
    """The question which column is meant: by letter where several headers read alike, else by header."""
    letters, headers, examples = (_texts(problem, name) for name in ("letters", "headers", "examples"))
    names = letters or headers
    notes = examples or (headers if letters else ())
    options = [
        (name, f"{name} · {notes[at]}" if at < len(notes) and notes[at] and notes[at] != name else name)
        for at, name in enumerate(names)
    ]
    return {"name": f"{MAP}{problem.field}", "field": field_name(str(problem.field)), "options": options}


def _texts(problem: LineProblem, name: str) -> tuple[str, ...]:
    found = problem.data.get(name)
    return found if isinstance(found, tuple) else ()


def _shown(line: SpotLine, problems: list[LineProblem], corrections: Corrections) -> ShownLine:
    facts = [(field_name(field), value) for field in _FIELDS if (value := getattr(line, field))]
    frames = [(field_name(f"frame {at}"), text) for at, text in enumerate(line.frames, start=1) if text]
    corrected = corrections.numbers.get(str(line.line), "")
    return ShownLine(
        line=line.line,
        number=line.number or "",
        facts=facts + frames,
        text=line.text,
        problems=[problem_sentence(problem) for problem in problems],
        asks_number=bool(corrected) or any(problem.field == "number" for problem in problems),
        corrected=corrected,
    )


_FIELDS = ("label", "position", "side", "nth", "whose_left", "channel", "pick_up", "least_lux", "notes")


def _is_of_no_spot(problem: LineProblem, preview: Preview) -> bool:
    """Whether the problem stands at no line that is shown."""
    shown = {line.line for line in preview.read.spots} if preview.read else set()
    return problem.line not in shown


def _hidden(preview: Preview, corrections: Corrections) -> list[tuple[str, str]]:
    """The corrections in force, to be sent along."""
    columns = [(f"{MAP}{field}", header) for field, header in preview.columns.items()]
    return columns + [(f"{NUMBER}{line}", number) for line, number in corrections.numbers.items()]
