"""Sentences for what is wrong with lamps, hours, faults and care in a house file."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

BOOK_SENTENCES: dict[str, Promise] = {
    "backward": _(
        "the meter would go back from %(first_h)s h at %(first_at)s to %(second_h)s h at %(second_at)s; "
        "correct one of the two, or add the meter that replaced it to meters"
    ),
    "ahead-of-later": _(
        "the meter would go back from %(first_h)s h at %(first_at)s to %(second_h)s h at %(second_at)s; "
        "correct one of the two, or add the meter that replaced it to meters"
    ),
    "faster-than-clock": _(
        "the meter would go from %(first_h)s h at %(first_at)s to %(second_h)s h at %(second_at)s, "
        "more hours than the clock has in between; correct one of the two"
    ),
    "strikes-backward": _(
        "strikes would go back from %(first_strikes)s at %(first_at)s to %(second_strikes)s at %(second_at)s; "
        "correct one of the two, or add the meter that replaced it to meters"
    ),
    "over-14": _(
        "the meter goes from %(first_h)s h at %(first_at)s to %(second_h)s h at %(second_at)s, "
        "more than 14 hours in a day; check both"
    ),
    "few-hours-a-strike": _(
        "from %(first_at)s to %(second_at)s there is less than half an hour to each strike; check both"
    ),
    "no-meter-then": _("%(unit)s has no meter then; write a meter in meters that begins no later, or correct the time"),
    "duplicate-reading": _("the meter was read at this time already, at %(first)s; keep one of the two"),
    "reading-differs": _("readings has other hours for %(unit)s at this time; correct one of the two"),
    "fitting-differs": _(
        "lamp %(lamp)s was fitted or taken out then at %(hours)s h; give that fitting in lamps the same hours"
    ),
    "meter-overlaps": _("the unit has another meter then, by %(other)s; end that one before"),
    "lamp-in-the-way": _("the unit has another lamp then, by %(other)s; write until and meter_out_h there"),
    "lamp-elsewhere": _("the lamp is in a unit already then, by %(other)s; write until and meter_out_h there"),
    "duplicate-lamp-kind": _("%(value)s is there already at %(first)s; give each kind once"),
    "duplicate-lamp": _("%(value)s is there already at %(first)s; give each lamp once"),
    "warns-after-stop": _("the warning (%(warn)s) comes after the stop (%(stop)s); write a smaller share"),
    "unknown-lamp": _("%(value)s is not the serial of a lamp in lamps; add the lamp, or correct the serial"),
    "unknown-fitting": _("lamp %(value)s was not fitted to this unit then, by lamps; correct the time"),
    "unknown-entry": _("log has no entry %(kind)s of this time for the same; add it, or correct the name"),
    "place-or-elsewhere": _("the unit is at a position and label, or elsewhere; leave one of the two out"),
    "where-is-it": _("is missing; write position and label, or elsewhere"),
    "closed-before-opened": _("it is closed before it was opened; write a later time"),
    "closed-says-when": _("is missing; say when the fault was closed"),
    "danger-is-out": _('with this danger the unit is out of service; write "out"'),
    "danger-closed-by-name": _("is missing; a danger is closed by a named person"),
    "limited-says-how": _("is missing; say what the unit can't do"),
    "limit-without-limited": _('goes with means "limited" only; correct one of the two'),
    "frames-out-which": _("is missing; write the numbers of the frames that are out: 2, 4"),
    "frames-out-of-frames": _('goes with limit_kind "frames" only; correct one of the two'),
    "unit-or-accessory": _("write the unit, or what accessory it is about, and not both"),
    "text-too-long-with-kind": _(
        "is longer than %(most)s characters with the word of its kind before it; write a shorter one"
    ),
    "only-of-a-relamp": _("only a relamp waits for answers; leave it out"),
    "not-attachable": _("is no JPEG, PNG or WebP picture and no PDF of at most 5 MB; take it out"),
    "there-already": _("is there already; keep one of the two"),
    "covers-needs": _("is missing; a plan that covers %(covers)s says which"),
    "covers-without": _("says nothing where covers is %(covers)s; leave it out"),
    "hours-or-days": _("is missing; write every_h, every_days or both"),
    "hours-are-for-units": _("an accessory counts no hours; write every_days"),
    "done-for-what": _("done names the unit, and for an accessory none"),
}
