"""Follow spots, and where each stood, stands or will stand."""

from datetime import datetime
from typing import ClassVar, Self

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.core.ranges import WEIGHT_KG
from venue.fields import KeyField
from venue.guards import Guard, NoOverlap
from venue.models.base import (
    Ending,
    EndingQuerySet,
    Keyed,
    Ref,
    Versioned,
    ends_with_reason,
    in_ranges,
    not_empty,
    number,
    one_of,
)
from venue.models.house import House
from venue.models.places import Place

WATTS = (0.0, 1e6)
FRAMES = (0, 50)
ANGLE = (0.0, 179.0)
CANDELA = (0.0, 1e12)
KELVINS = (500.0, 50_000.0)
FAR_FIELD = (0.0, 305.0)
POWER_FACTOR = (0.05, 1.0)


class AnglePercent(models.IntegerChoices):
    """Of the peak, where the full angles of a data sheet end."""

    HALF = 50, _("50 % of the peak (beam angle)")
    TENTH = 10, _("10 % of the peak (field angle)")


class SizedBy(models.TextChoices):
    """What makes the beam smaller: a zoom gathers the light, an iris cuts it off."""

    ZOOM = "zoom", _("zoom")
    IRIS = "iris", _("iris")


class FrameOneEnd(models.TextChoices):
    LENS = "lens", _("lens end")
    LAMP = "lamp", _("lamp end")


class Magazine(models.TextChoices):
    FRONT = "front", _("at the very front")
    BETWEEN = "between", _("between the lenses")


class Unit(Ref, Versioned, Keyed, Ending):
    """A follow spot of the house. Full beam angles in degrees, intensity on the axis in candela.

    `angle_percent` says where the angles end; nearer than `far_field_m` the inverse square is a rough guide; a lamp's
    `watts` are less than the `input_w` that its supply takes in.

    `frames` is how many the color magazine holds; which end frame 1 is at is recorded, never assumed: blank
    means not recorded.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="units")
    tag = models.CharField(_("tag"), max_length=40)
    tag_key = KeyField(source="tag", derive=name_key, max_length=80)
    source = models.CharField(_("source"), max_length=40, blank=True, help_text=_("Short-arc, LED."))
    watts = number(_("watts"), *WATTS)
    frames = models.PositiveSmallIntegerField(
        _("frames"), null=True, blank=True, validators=(MaxValueValidator(FRAMES[1]),)
    )
    frame_1_end = models.CharField(_("frame 1 is at"), max_length=4, choices=FrameOneEnd, blank=True)
    magazine = models.CharField(_("color magazine"), max_length=8, choices=Magazine, blank=True)
    narrow_deg = number(_("narrowest beam"), *ANGLE)
    wide_deg = number(_("widest beam"), *ANGLE)
    narrow_cd = number(_("candela, narrowest"), *CANDELA)
    wide_cd = number(_("candela, widest"), *CANDELA)
    cct_k = number(_("color temperature"), *KELVINS)
    angle_percent = models.PositiveSmallIntegerField(
        _("the angles end at"), choices=AnglePercent, null=True, blank=True
    )
    sized_by = models.CharField(_("sized by"), max_length=4, choices=SizedBy, blank=True)
    far_field_m = number(_("shortest throw of the inverse square"), *FAR_FIELD)
    far_field_text = models.CharField(_("that throw as typed"), max_length=40, blank=True)
    weight_kg = number(_("weight, kilograms"), *WEIGHT_KG.hard)
    input_w = number(_("watts taken from the supply"), *WATTS)
    power_factor = number(_("power factor"), *POWER_FACTOR)
    hired_from = models.CharField(
        _("hired or borrowed from"), max_length=120, blank=True, help_text=_("Blank: the house's own.")
    )
    back_on = models.DateField(_("goes back on"), null=True, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("tag_key", "pk")
        indexes = (
            models.Index(
                fields=["house", "back_on"],
                name="unit_going_back",
                condition=Q(back_on__isnull=False, ended_at__isnull=True),
            ),
        )
        constraints = (
            models.UniqueConstraint(
                fields=["house", "tag_key"],
                name="unit_tag_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a unit of this tag already."),
            ),
            not_empty("unit_tag_not_empty", "tag_key", _("Write a tag.")),
            one_of("unit_frame_1_end_known", "frame_1_end", FrameOneEnd, or_blank=True),
            one_of("unit_magazine_known", "magazine", Magazine, or_blank=True),
            in_ranges(
                "unit_numbers_in_range",
                watts=WATTS,
                frames=FRAMES,
                narrow_deg=ANGLE,
                wide_deg=ANGLE,
                narrow_cd=CANDELA,
                wide_cd=CANDELA,
                cct_k=KELVINS,
                far_field_m=FAR_FIELD,
                weight_kg=WEIGHT_KG.hard,
                input_w=WATTS,
                power_factor=POWER_FACTOR,
            ),
            models.CheckConstraint(
                name="unit_angle_percent_known",
                condition=Q(angle_percent__isnull=True) | Q(angle_percent__in=AnglePercent.values),
                violation_error_message=_("Choose one of the values offered."),
            ),
            one_of("unit_sized_by_known", "sized_by", SizedBy, or_blank=True),
            models.CheckConstraint(
                name="unit_narrow_within_wide",
                condition=Q(narrow_deg__isnull=True) | Q(wide_deg__isnull=True) | Q(narrow_deg__lte=F("wide_deg")),
                violation_error_message=_("The narrowest beam is no wider than the widest."),
            ),
            ends_with_reason("unit_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.tag


class Elsewhere(models.TextChoices):
    """Where a unit is that stands at no place."""

    SHOP = "shop", _("in the shop")
    STORE = "store", _("in the store")
    LENT = "lent", _("lent out")


class PlacementQuerySet(models.QuerySet):
    """Placements by time."""

    def at(self, instant: datetime) -> Self:
        """Those in force at the instant."""
        return self.filter(Q(ends_at__isnull=True) | Q(ends_at__gt=instant), starts_at__lte=instant)

    def not_over_by(self, instant: datetime) -> Self:
        """Those in force at the instant or planned for later."""
        return self.filter(Q(ends_at__isnull=True) | Q(ends_at__gt=instant))

    def real(self) -> Self:
        """All but plans that were taken back, whose span is empty."""
        return self.exclude(ends_at=F("starts_at"))

    def still_open(self) -> Self:
        """Those without an end."""
        return self.filter(ends_at__isnull=True)


class Placement(Ref, Versioned):
    """A unit stands at a place, or is elsewhere, from `starts_at` (included) to `ends_at` (not included).

    No end: for good. It may lie in the future. A plan that is taken back ends at its own start. `elsewhere` says
    where a unit without a place is, `elsewhere_words` with whom.
    """

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="placements")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, null=True, blank=True, related_name="placements")
    elsewhere = models.CharField(_("elsewhere"), max_length=5, choices=Elsewhere, blank=True)
    elsewhere_words = models.CharField(_("where, with whom"), max_length=120, blank=True)
    starts_at = models.DateTimeField(_("from"))
    ends_at = models.DateTimeField(_("until"), null=True, blank=True)

    objects = PlacementQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (
        NoOverlap("placement_no_overlap_by_unit", by="unit"),
        NoOverlap("placement_no_overlap_by_place", by="place"),
    )

    class Meta:
        ordering = ("starts_at", "pk")
        indexes = (
            models.Index(fields=["ends_at"], name="placement_elsewhere_by_end", condition=Q(place__isnull=True)),
        )
        constraints = (
            models.CheckConstraint(
                name="placement_ends_after_start",
                condition=Q(ends_at__isnull=True) | Q(ends_at__gte=F("starts_at")),
                violation_error_message=_("It ends before it starts. Write a later end."),
            ),
            one_of("placement_elsewhere_known", "elsewhere", Elsewhere, or_blank=True),
            models.CheckConstraint(
                name="placement_at_a_place_or_elsewhere",
                condition=Q(place__isnull=False, elsewhere="", elsewhere_words="")
                | (Q(place__isnull=True) & ~Q(elsewhere="")),
                violation_error_message=_("Choose a place, or where else the unit is."),
            ),
        )

    def __str__(self) -> str:
        if self.place is None:
            return gettext("%(unit)s %(where)s") % {"unit": self.unit, "where": self.where}
        return gettext("%(unit)s at %(place)s") % {"unit": self.unit, "place": self.place}

    @property
    def where(self) -> str:
        """The place, or where else the unit is, in words."""
        if self.place is not None:
            return str(self.place)
        words = str(self.get_elsewhere_display())
        return f"{words}: {self.elsewhere_words}" if self.elsewhere_words else words

    @property
    def zone(self) -> str:
        """The house's time zone, in which a refusal states times."""
        return self.unit.house.time_zone
