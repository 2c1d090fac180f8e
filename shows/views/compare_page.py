"""What the compare page shows, in the order of the verdict's kind."""

from typing import Any
from urllib.parse import quote

from django.utils.translation import gettext as _

from shows.core.numbering.records import Comparison, Judgement, Reading
from shows.forms.paperwork import StatementForm
from shows.plans import shown_plan, view_in
from shows.standing import Standing, answers
from shows.wording import choices, verdict
from shows.wording.landing import also_to_know, not_walked
from shows.wording.numbers import show_at_house
from shows.wording.statements import meaning
from shows.wording.why import cycle_words, judgement_words


def compare_context(standing: Standing, view: str, form: StatementForm | None = None) -> dict[str, Any]:
    """Everything that the template names."""
    engagement, comparison = standing.engagement, standing.comparison
    statement, ways = engagement.statement, _ways(comparison)
    chosen = _chosen(standing, ways)
    return {
        "engagement": engagement,
        "standing": standing,
        "verdict": standing.verdict,
        "fault": verdict.statement_sentence(comparison),
        "paint": verdict.labels_sentence(comparison),
        "is_to_tell": verdict.is_to_tell(comparison),
        "plan": shown_plan(comparison, engagement.setup, view_in(view)) if comparison.house.slots else None,
        "not_walked": not_walked(standing.not_walked),
        "also": also_to_know(standing),
        "ways": [way for way in ways if chosen is None or way["way"] != chosen["way"]],
        "chosen": chosen,
        "ask": _ask(standing),
        "meaning": meaning(statement, comparison.house),
        "statement_form": form or StatementForm(initial={"statement": statement, "version": engagement.version}),
        "why": [_judged(_("Against the house's labels"), comparison.against_labels, comparison),
                _judged(_("Against the tour's own rule"), comparison.against_statement, comparison)],
    }  # fmt: skip


def _ways(comparison: Comparison) -> list[dict[str, Any]]:
    return [
        {
            "way": out.way,
            "name": choices.NAMES[out.way],
            "means": choices.means(out),
            "price": choices.price(out),
            "changes": choices.change_lines(out, comparison.house),
        }
        for out in comparison.ways_out
    ]


def _chosen(standing: Standing, ways: list[dict[str, Any]]) -> dict[str, Any] | None:
    """The way that was chosen, while it still is one."""
    way = next((each for each in ways if each["way"] == standing.way), None)
    return {**way, "choice": standing.choice} if way else None


def _ask(standing: Standing) -> dict[str, Any] | None:
    """The question to send, the readings side by side, and what one tap would state."""
    if standing.verdict.kind != "ask":
        return None
    comparison, engagement = standing.comparison, standing.engagement
    question = " ".join(verdict.questions(comparison))
    text = _("%(show)s, follow spots: %(question)s") % {"show": engagement.name, "question": question}
    found = answers(comparison.house, standing.numbers.asked, engagement.statement, comparison)
    readings = [_reading(reading, standing, index) for index, reading in enumerate(comparison.readings)]
    return {"question": question, "text": text, "mail": f"mailto:?body={quote(text)}", "answers": found,
            "readings": [(each, _answer(each["reading"], found)) for each in readings]}  # fmt: skip


def _answer(reading: str, found: list[Any]) -> Any:
    return next((answer for answer in found if answer.reading == reading), None)


def _reading(reading: Reading, standing: Standing, index: int) -> dict[str, Any]:
    """One reading with its own drawing."""
    house = standing.comparison.house
    meant = Comparison(house, reading.pairs, reading.against_labels, reading.against_statement, (), (), ())
    return {
        "reading": reading.reading,
        "words": verdict.reading_words(reading.reading),
        "pairs": [show_at_house(pair, house) for pair in reading.pairs],
        "paint": verdict.labels_sentence(meant),
        "plan": shown_plan(meant, standing.engagement.setup, "house", f"reading-{index}"),
    }


def _judged(title: str, judgement: Judgement | None, comparison: Comparison) -> dict[str, Any]:
    if judgement is None:
        return {"title": title, "said": _("Not judged."), "blocks": [], "cycles": "", "tau": None}
    house = comparison.house
    return {
        "title": title,
        "said": judgement_words(judgement.code),
        "blocks": [(house.positions[index].name, judgement_words(code)) for index, code in judgement.blocks],
        "cycles": cycle_words(judgement.cycles),
        "tau": judgement.tau,
    }
