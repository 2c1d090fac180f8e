"""What the fit of a show on a house finds, in sentences: what it is, what can be done, who decides."""

from collections.abc import Callable, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.core.fit.records import Finding
from shows.models.arrival import CheckItem
from venue.core.lengths import UnitSystem
from venue.core.light import Span
from venue.wording_light import lux_words, size_words

GRAVITY: Mapping[str, str | Promise] = {
    "stops": gettext_lazy("Stops the show"),
    "limits": gettext_lazy("Other than asked for"),
    "note": gettext_lazy("Good to know"),
}
DECIDERS: Mapping[str, str | Promise] = {
    "house": gettext_lazy("The house head decides."),
    "road": gettext_lazy("The show's road crew decides, with the house head."),
    "electrician": gettext_lazy("A qualified electrician decides."),
    "rigger": gettext_lazy("A qualified rigger decides."),
}
WAYS: Mapping[str, str | Promise] = {
    "assign": gettext_lazy("Put the number on a place"),
    "put-unit": gettext_lazy("Put a unit there"),
    "other-place": gettext_lazy("Take another place"),
    "other-unit": gettext_lazy("Take another unit"),
    "other-spot": gettext_lazy("Give it to another number"),
    "other-size": gettext_lazy("Call another size"),
    "other-circuit": gettext_lazy("Take another circuit"),
    "electrician-decides": gettext_lazy("An electrician looked at it and lets it stand"),
    "mend": gettext_lazy("Have it mended before the show"),
    "record": gettext_lazy("Record it in the house book"),
    "look": gettext_lazy("Look at it on arrival"),
    "ask-tour": gettext_lazy("Ask the tour"),
    "measure": gettext_lazy("Measure it"),
    "merge": gettext_lazy("Put two colors into one frame"),
    "drop": gettext_lazy("Leave that frame out"),
    "swap": gettext_lazy("Swap frames in the intermission"),
    "on-the-nose": gettext_lazy("Tape a corrector on the nose and free a frame"),
    "load-by-number": gettext_lazy("Load by the numbers painted on the frames"),
    "load-reversed": gettext_lazy("Load in reverse, so that the show's frame 1 is its frame 1"),
    "less-light": gettext_lazy("The show takes less light"),
    "free-shutters": gettext_lazy("Free the shutters before the show"),
    "relamp": gettext_lazy("Relamp now"),
    "relamp-before": gettext_lazy("Relamp before that event"),
    "rescue-plan": gettext_lazy("Write the position's rescue plan"),
    "tell-dispatch": gettext_lazy("Tell dispatch"),
    "clear": gettext_lazy("Have it moved out of the way"),
    "go-on": gettext_lazy("Go on as it is"),
    "douse-brighter": gettext_lazy("Douse the brighter one to the level of the other"),
    "correct-color": gettext_lazy("Correct the color of one of them"),
    "correct-paperwork": gettext_lazy("Correct the number in the paperwork"),
}


def finding_sentence(finding: Finding, system: UnitSystem) -> str:
    """What was found, in one sentence; light in the house's units."""
    return _SENTENCES[finding.code](dict(finding.facts), system)


def way_choices(finding: Finding) -> list[tuple[str, str]]:
    """The ways out of a finding as choices of a form."""
    return [(way, str(WAYS[way])) for way in finding.ways]


def ready_sentence(numbers: int, open_numbers: list[str]) -> str:
    """Whether the house can do what the show asks."""
    if not numbers:
        return _("The show has no numbers yet. Bring in its paperwork first.")
    if not open_numbers:
        return _("Ready: nothing that stops the show is undecided.")
    listed = ", ".join(open_numbers)
    return ngettext(
        "Not ready: show %(numbers)s is stopped.", "Not ready: shows %(numbers)s are stopped.", len(open_numbers)
    ) % {"numbers": listed}


Facts = dict[str, object]
Sentence = Callable[[Facts, UnitSystem], str]


def _plain(text: str | Promise) -> Sentence:
    return lambda facts, _system: str(text) % facts


def _light(text: str | Promise) -> Sentence:
    def sentence(facts: Facts, system: UnitSystem) -> str:
        least, lux = facts.get("least_lux"), facts.get("lux")
        words = {
            "unit": facts.get("unit"),
            "least": lux_words(least, system) if isinstance(least, float | int) else "",
            "lux": lux_words(lux, system) if isinstance(lux, Span) else _("not known"),
        }
        return str(text) % words

    return sentence


def _size(text: str | Promise) -> Sentence:
    def sentence(facts: Facts, _system: UnitSystem) -> str:
        return str(text) % {**facts, "size": size_words(str(facts["size"]))}

    return sentence


ENDS: Mapping[object, str | Promise] = {"lens": gettext_lazy("lens end"), "lamp": gettext_lazy("lamp end")}


def _ends(facts: Facts, _system: UnitSystem) -> str:
    words = {"unit": facts["unit"], "unit_end": ENDS[facts["unit_end"]], "show_end": ENDS[facts["show_end"]]}
    return _("%(unit)s counts its frames from the %(unit_end)s, the show from the %(show_end)s") % words


def _levels(facts: Facts, _system: UnitSystem) -> str:
    value = facts.get("value")
    percent = round(100 * value) if isinstance(value, float) else 0
    return _("Does not match show %(other)s: the levels differ by %(percent)d %%") % {**facts, "percent": percent}


def _check(facts: Facts, _system: UnitSystem) -> str:
    words = {**facts, "item": CheckItem(str(facts["item"])).label}
    return _("The arrival check at %(position)s, place %(label)s failed: %(item)s (%(words)s)") % words


_SENTENCES: Mapping[str, Sentence] = {
    "check-failed": _check,
    "no-place": _plain(gettext_lazy("Has no place yet")),
    "no-unit": _plain(gettext_lazy("No unit stands at %(position)s, place %(label)s")),
    "unit-away": _plain(gettext_lazy("No unit stands at %(position)s, place %(label)s: %(away)s")),
    "unit-out": _plain(gettext_lazy("%(unit)s: %(words)s")),
    "danger": _plain(gettext_lazy("%(unit)s: %(words)s")),
    "lamp-past-stop": _plain(
        gettext_lazy("Lamp %(lamp)s in %(unit)s is past its stop: only a named person's decision in the lamp's book")
    ),
    "lamp-will-not-last": _plain(gettext_lazy("Lamp %(lamp)s in %(unit)s passes its stop in: %(event)s")),
    "no-rescue-plan": _plain(
        gettext_lazy("%(position)s is climbed or worked in a harness, and no rescue plan is on file")
    ),
    "fall-protection-not-recorded": _plain(
        gettext_lazy("%(position)s is up high, and nobody recorded what keeps people from falling")
    ),
    "needs-certification": _plain(
        gettext_lazy("%(position)s: fall protection is needed, so the operator's certification too")
    ),
    "no-exit": _plain(gettext_lazy("%(position)s: no way out while the show runs")),
    "house-staff-only": _plain(gettext_lazy("%(position)s: house staff only may operate there")),
    "position-needs": _plain(gettext_lazy("%(position)s: %(words)s")),
    "in-the-way": _plain(gettext_lazy("Something is in the way of %(position)s, place %(label)s: %(words)s")),
    "circuit-over": _plain(
        gettext_lazy("Circuit %(circuit)s is over its recorded rating by %(over_a).1f A: do not plug in more")
    ),
    "frames-not-recorded": _plain(gettext_lazy("Nobody recorded how many frames %(unit)s has")),
    "frame-short": _plain(gettext_lazy("Frame %(frame)s (%(holds)s): %(unit)s has %(frames)s frames")),
    "frame-out": _plain(gettext_lazy("Frame %(frame)s (%(holds)s) of %(unit)s is out of order")),
    "frame-1-not-recorded": _plain(gettext_lazy("Nobody recorded at which end frame 1 of %(unit)s is")),
    "frame-1-not-said": _plain(gettext_lazy("The show does not say from which end it counts its frames")),
    "magazine-other-way": _ends,
    "combination-impossible": _plain(
        gettext_lazy("Frame %(frame)s (%(holds)s): a frame holds one color, or two together")
    ),
    "combination-dark": _plain(gettext_lazy("Frame %(frame)s (%(holds)s) lets next to no light through")),
    "diffusion-does-nothing": _plain(
        gettext_lazy(
            "Frame %(frame)s (%(holds)s): the magazine of %(unit)s is between the lenses, diffusion does nothing there"
        )
    ),
    "diffusion-not-sure": _plain(
        gettext_lazy(
            "Frame %(frame)s (%(holds)s): nobody recorded where the magazine of %(unit)s is, so diffusion may "
            "do nothing"
        )
    ),
    "no-hard-edge": _plain(gettext_lazy("Frame %(frame)s (%(holds)s): diffusion with a color leaves no hard edge")),
    "light-not-known": _light(gettext_lazy("At least %(least)s is asked for; what %(unit)s gives there is not known")),
    "light-short": _light(gettext_lazy("At least %(least)s is asked for; %(unit)s gives %(lux)s there")),
    "light-may-be-short": _light(gettext_lazy("At least %(least)s is asked for; %(unit)s gives %(lux)s there")),
    "size-not-known": _size(gettext_lazy("Whether %(unit)s reaches %(size)s from there is not known")),
    "cant-close": _size(gettext_lazy("%(unit)s can't close to %(size)s from there")),
    "cant-open": _size(gettext_lazy("%(unit)s can't open to %(size)s from there")),
    "no-full-blackout": _plain(gettext_lazy("%(unit)s makes no full blackout")),
    "not-on-camera": _plain(gettext_lazy("%(unit)s is not for use on camera")),
    "no-strip": _plain(gettext_lazy("The shutters of %(unit)s are taped: no strip across the stage")),
    "fixed-iris": _plain(gettext_lazy("The iris of %(unit)s is fixed: one size only")),
    "limited": _plain(gettext_lazy("%(unit)s: %(words)s")),
    "steep-for-camera": _plain(gettext_lazy("The throw is steeper than 26.6 degrees, a shadow on the eyes on camera")),
    "pair-unknown": _plain(gettext_lazy("Has to match show %(other)s, which the show does not have")),
    "pair-sources-differ": _plain(gettext_lazy("Does not match show %(other)s: the sources differ")),
    "pair-levels-differ": _levels,
    "pair-colors-differ": _plain(
        gettext_lazy("Does not match show %(other)s: the color temperatures differ, and can be corrected")
    ),
    "pair-no-correction": _plain(
        gettext_lazy("Does not match show %(other)s: no filter on file brings the colors together")
    ),
    "pair-no-size-in-common": _plain(gettext_lazy("Does not match show %(other)s: they have no size in common")),
}
