"""What every command keeps to: it answers and exits 0, or names what is wrong, a line each, and exits 2.

With `--json` the answer is one JSON document on standard output and nothing else. There is never a traceback
unless `--traceback` asks for it.
"""

import json
import os
import sys
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import DatabaseError
from django.utils import translation
from django.utils.translation import gettext as _

from venue.errors import DomainError

BAD_INPUT, FAILED, INTERRUPTED = 2, 1, 130

Options = Mapping[str, Any]


class CommandRefused(CommandError):
    """The input is bad: `lines` name every problem, each on one line."""

    def __init__(self, lines: Iterable[str], returncode: int = BAD_INPUT) -> None:
        self.lines = tuple(map(one_line, lines))
        super().__init__("\n".join(self.lines), returncode=returncode)


@dataclass(frozen=True)
class Answer:
    """What a command found: as a JSON document, and in short for people. Warnings go to standard error."""

    document: Any
    text: str
    warnings: tuple[str, ...] = ()


class AnswerCommand(ABC, BaseCommand):
    """A command whose `answer` finds an Answer, or raises a DomainError or CommandRefused."""

    requires_system_checks = ()

    @property
    def is_from_shell(self) -> bool:
        """Whether somebody typed the command, rather than a program calling it."""
        return bool(getattr(self, "_called_from_command_line", False))

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help=_("one JSON document on standard output"))

    @abstractmethod
    def answer(self, options: Options) -> Answer:
        """Find the answer. Options are those that `add_arguments` declares."""

    def refusal_lines(self, refusal: DomainError, options: Options) -> Iterable[str]:
        """The lines that name what is wrong; a command that reads files names them here."""
        return str(refusal).splitlines()

    def written(self, answer: Answer, *, as_json: bool) -> str:
        """The answer as it is printed."""
        return json.dumps(answer.document, ensure_ascii=False, allow_nan=False) if as_json else answer.text

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            answer = self.answer(options)
        except DomainError as refusal:
            raise CommandRefused(self.refusal_lines(refusal, options)) from refusal
        self.stdout.write(self.written(answer, as_json=options["json"]))
        self.stdout.flush()
        for warning in answer.warnings:
            self.stderr.write(one_line(warning), self.style.NOTICE)

    def execute(self, *args: Any, **options: Any) -> str | None:
        """Run the command; started from a shell, end with a line for each problem instead of an exception."""
        try:
            with translation.override("en-us" if options.get("json") else translation.get_language()):
                return super().execute(*args, **options)
        except Exception as error:
            if not self.is_from_shell or options.get("traceback"):
                raise
            self._end(error)

    def run_from_argv(self, argv: list[str]) -> None:
        _speak_utf_8()
        try:
            super().run_from_argv(argv)
        except KeyboardInterrupt:
            sys.exit(INTERRUPTED)

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        parser = super().create_parser(prog_name, subcommand, **kwargs)
        if self.is_from_shell:
            parser.__class__ = _OneLineParser  # the framework names the class itself
        return parser

    def _end(self, error: Exception) -> NoReturn:
        if isinstance(error, BrokenPipeError):
            _close_output()
            sys.exit(FAILED)
        refused = error if isinstance(error, CommandRefused) else _unexpected(error)
        for line in refused.lines:
            self.stderr.write(line)
        sys.exit(refused.returncode)


class _OneLineParser(CommandParser):
    """Says what is wrong with the arguments in one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD_INPUT, one_line(f"{self.prog}: {message}; see {self.prog} --help") + "\n")


def _unexpected(error: Exception) -> CommandRefused:
    if isinstance(error, CommandError):
        return CommandRefused([str(error)], error.returncode)
    if isinstance(error, DatabaseError):
        advice = _("the database does not answer: %(error)s; run “manage.py migrate”, or check DATABASE_URL")
        return CommandRefused([advice % {"error": error}], FAILED)
    if isinstance(error, OSError):
        return CommandRefused([_("reading or writing failed: %(error)s") % {"error": error}], FAILED)
    advice = _("unexpected %(kind)s: %(error)s; run again with --traceback to see where")
    return CommandRefused([advice % {"kind": type(error).__name__, "error": error}], FAILED)


def _speak_utf_8() -> None:
    """Answers are UTF-8 with line feeds, whatever the terminal is set to."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")


def _close_output() -> None:
    """Nobody reads on: the rest goes nowhere, so that closing down does not fail again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def one_line(text: str) -> str:
    """The text on one line: line ends folded to spaces, marks that do not show written out."""
    folded = " ".join(text.split())
    return "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in folded)


def input_bytes(source: str, most: int) -> bytes:
    """What the file named, or standard input for "-", holds; at most one byte more than `most`.

    Raises CommandRefused if it can't be read.
    """
    try:
        if source == "-":
            return _standard_input(most + 1)
        with Path(source).open("rb") as file:
            return file.read(most + 1)
    except OSError as error:
        reason = error.strerror or str(error)
    except ValueError as error:
        reason = str(error)
    line = _("%(source)s: can't be read: %(reason)s; name a file, or - for standard input")
    raise CommandRefused([line % {"source": source, "reason": reason}])


def _standard_input(most: int) -> bytes:
    if sys.stdin is None:
        raise ValueError(_("there is no standard input"))
    return sys.stdin.buffer.read(most)
