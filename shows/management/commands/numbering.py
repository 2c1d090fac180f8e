"""manage.py numbering: hold a show's numbers against a house's labels, from two files."""

from collections.abc import Iterable, Mapping
from functools import partial

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Spot
from shows.core.numbering.statement import reads_as_statement
from shows.core.paperwork import MAX_BYTES, Paperwork, PaperworkUnreadable
from shows.numbering_answer import as_document
from shows.numbering_input import house_in_file, spots_on
from shows.wording.answer import as_text
from shows.wording.paperwork import problem_at_line
from shows.workbooks import read_received
from venue.core.labels import label_key
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options, input_bytes
from venue.management.house_source import house_file_at, warning_lines


class Command(AnswerCommand):
    help = _("Hold a show's numbers against a house's labels.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("house", metavar="HOUSE.json", help=_("house file"))
        parser.add_argument(
            "paperwork", metavar="PAPERWORK", help=_("CSV, XLSX or pasted text; - reads standard input")
        )
        parser.add_argument("--statement", help=_("how the show counts, in its own words"))
        parser.add_argument(
            "--assign",
            action="append",
            default=[],
            metavar="SHOW=LABEL,…",
            help=_("put show numbers on house labels (LABEL or Position/LABEL)"),
        )
        parser.add_argument(
            "--map",
            action="append",
            default=[],
            metavar="FIELD=HEADER",
            help=_("which column holds a field"),
        )

    def answer(self, options: Options) -> Answer:
        house_file = house_file_at(options["house"])
        house = house_in_file(house_file)
        paperwork = _paperwork(options["paperwork"], house, _settings(options["map"], "--map FIELD=HEADER"))
        spots = spots_on(paperwork)
        assign = _assignment(options["assign"], spots)
        comparison = compare(house, spots, _statement(options, paperwork), assign)
        problems = tuple(f"{options['paperwork']}: {problem_at_line(problem)}" for problem in paperwork.problems)
        warnings = warning_lines(options["house"], house_file) + problems
        return Answer(as_document(comparison), as_text(comparison), warnings)


def _statement(options: Options, paperwork: Paperwork) -> str | None:
    """The statement given by hand, else the paperwork's own."""
    return paperwork.statement if options["statement"] is None else options["statement"]


def _paperwork(source: str, house: House, columns: Mapping[str, str]) -> Paperwork:
    is_statement = partial(reads_as_statement, house=house)
    try:
        return read_received(input_bytes(source, MAX_BYTES), reads_as_statement=is_statement, columns=columns)
    except PaperworkUnreadable as unreadable:
        raise CommandRefused(f"{source}: {problem_at_line(each)}" for each in unreadable.problems) from unreadable


def _settings(texts: Iterable[str], form: str) -> dict[str, str]:
    """What "A=B" options say; raises CommandRefused naming each that is not of that form."""
    split = [(text, *map(str.strip, text.partition("=")[::2])) for text in texts if text.strip()]
    bad = [text for text, name, value in split if not name or not value]
    if bad:
        line = _("%(form)s: can't read “%(text)s”; write it as %(form)s")
        raise CommandRefused(line % {"form": form, "text": text} for text in bad)
    return {name: value for _text, name, value in split}


def _assignment(texts: Iterable[str], spots: Iterable[Spot]) -> dict[str, str]:
    """Show number to label, from "1=4,2=3"; every number must be one of the paperwork's."""
    pieces = [piece for text in texts for piece in text.split(",")]
    assign = _settings(pieces, "--assign SHOW=LABEL")
    known = {spot.key for spot in spots if spot.key}
    unknown = [number for number in assign if label_key(number) not in known]
    if unknown:
        line = _("--assign: the paperwork has no show number %(number)s; name one that it has")
        raise CommandRefused(line % {"number": number} for number in unknown)
    return assign
