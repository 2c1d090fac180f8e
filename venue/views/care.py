"""Care: what is due, recorded as done with one tap, and the plans that it follows from."""

from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Exists, F, OuterRef, Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from venue.access import care_item_in, care_plan_in, house_for, house_to_write
from venue.actions import add_care_plan, care_done, change_care_plan, end_care_plan
from venue.condition import due_items
from venue.errors import DomainError
from venue.forms.base import EndForm
from venue.forms.care import PRESETS, CarePlanEditForm, CarePlanForm
from venue.models import CareItem, House, LogEntry, Unit
from venue.views.asked import query_of, unit_asked
from venue.views.saving import actor_of, is_saved
from venue.wording_care import covers_words, every_words

A_PAGE = 50
LATELY = 5


@require_safe
def care_list(request: HttpRequest, slug: str) -> HttpResponse:
    """What is due, the most pressing first; of one unit where it is named. What was done lately stands below."""
    house, may_write = house_for(request.user, slug)
    unit = unit_asked(request, house)
    page = Paginator(_items(house, unit), A_PAGE).get_page(request.GET.get("page"))
    order = ("overdue", "due", "soon", "later", "unknown")
    due = sorted(due_items(page.object_list, timezone.now()), key=lambda each: order.index(each.state))
    context = {
        "house": house,
        "may_write": may_write,
        "unit": unit,
        "page": page,
        "due": due,
        "lately": _lately(house, unit),
        "has_plans": house.care_plans.standing().exists(),
        "query": query_of(request, "unit"),
    }
    return render(request, "venue/care_list.html", context)


def _items(house: House, unit: Unit | None) -> QuerySet[CareItem]:
    items = CareItem.objects.standing().filter(Q(unit__isnull=True) | Q(unit__ended_at__isnull=True), house=house)
    if unit is not None:
        items = items.filter(unit=unit)
    return items.select_related("plan", "unit", "house").order_by(F("due_on").asc(nulls_last=True), "pk")


def _lately(house: House, unit: Unit | None) -> QuerySet[LogEntry]:
    """The entries that recorded care as done: what a wrong tap is taken back by."""
    done = CareItem.objects.standing().filter(entry=OuterRef("pk"))
    entries = LogEntry.objects.counting().filter(Exists(done), house=house)
    if unit is not None:
        entries = entries.filter(unit=unit)
    return entries.select_related("unit").order_by("-at", "-pk")[:LATELY]


@require_POST
def care_item_done(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Record care as done: one tap."""
    house = house_to_write(request.user, slug)
    item = care_item_in(house, ref)
    try:
        care_done(actor=actor_of(request), item=item, at=timezone.now())
    except DomainError as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("%(item)s: done. A wrong tap is taken back below.") % {"item": item})
    return redirect("venue:care_list", slug)


@require_safe
def care_plan_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's care plans, and those that it may begin with."""
    house, may_write = house_for(request.user, slug)
    plans = house.care_plans.standing().select_related("unit")
    shown = [{"plan": plan, "every": every_words(plan), "covers": covers_words(plan)} for plan in plans]
    context = {"house": house, "may_write": may_write, "plans": shown, "presets": PRESETS}
    return render(request, "venue/care_plan_list.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def care_plan_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Make a plan, from a preset where one is named."""
    house = house_to_write(request.user, slug)
    preset, unit = request.GET.get("preset", ""), unit_asked(request, house)
    form = CarePlanForm(request.POST or None, house=house, preset=preset, unit=unit)
    if is_saved(form, lambda: add_care_plan(actor=actor_of(request), house=house, at=timezone.now(), **form.values())):
        messages.success(request, _("The plan is made. What it covers is due until it is recorded as done."))
        return redirect("venue:care_list", slug)
    return render(request, "venue/care_plan_form.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def care_plan_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a plan."""
    house = house_to_write(request.user, slug)
    plan = care_plan_in(house, ref)
    form = CarePlanEditForm(request.POST or None, plan=plan)

    def act() -> None:
        values, now = form.values(), timezone.now()
        change_care_plan(actor=actor_of(request), plan=plan, seen=form.seen, values=values, at=now)

    if is_saved(form, act):
        messages.success(request, _("The plan was changed."))
        return redirect("venue:care_plan_list", slug)
    return render(request, "venue/care_plan_form.html", {"form": form, "house": house, "plan": plan})


@require_http_methods(["GET", "HEAD", "POST"])
def care_plan_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """End a plan."""
    house = house_to_write(request.user, slug)
    plan = care_plan_in(house, ref)
    form = EndForm(request.POST or None, row=plan)

    def act() -> None:
        plan.version = form.seen
        end_care_plan(actor=actor_of(request), plan=plan, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The plan has ended. What was done by it stays in the log."))
        return redirect("venue:care_plan_list", slug)
    return render(request, "venue/care_plan_end.html", {"form": form, "house": house, "plan": plan})
