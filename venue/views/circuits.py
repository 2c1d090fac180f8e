"""Circuits of the house: listed, added, changed, ended."""

from uuid import UUID

from django.contrib import messages
from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import circuit_in, house_for, house_to_write
from venue.actions import add_circuit, change, end_circuit
from venue.forms.base import EndForm
from venue.forms.circuits import CircuitForm
from venue.models import Circuit, Place
from venue.views.saving import actor_of, is_saved
from venue.wording_supply import circuit_words, places_on


@require_safe
def circuit_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's circuits, each with the places that it feeds."""
    house, may_write = house_for(request.user, slug)
    places = Prefetch("places", Place.objects.standing().select_related("position"), to_attr="fed")
    circuits = house.circuits.standing().prefetch_related(places)
    rows = [{"circuit": each, "words": circuit_words(each), "places": places_on(each.fed)} for each in circuits]
    return render(request, "venue/circuit_list.html", {"house": house, "may_write": may_write, "rows": rows})


@require_http_methods(["GET", "HEAD", "POST"])
def circuit_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a circuit."""
    house = house_to_write(request.user, slug)
    form = CircuitForm(request.POST or None, instance=Circuit(house=house))
    if is_saved(form, lambda: add_circuit(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The circuit was added. Now say at each place which circuit it is on."))
        return redirect("venue:circuit_list", slug)
    return render(request, "venue/circuit_form.html", {"form": form, "house": house, "circuit": None})


@require_http_methods(["GET", "HEAD", "POST"])
def circuit_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a circuit."""
    house = house_to_write(request.user, slug)
    circuit = circuit_in(house, ref)
    form = CircuitForm(request.POST or None, instance=circuit)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=circuit, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The circuit was changed."))
        return redirect("venue:circuit_list", slug)
    return render(request, "venue/circuit_form.html", {"form": form, "house": house, "circuit": circuit})


@require_http_methods(["GET", "HEAD", "POST"])
def circuit_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """A circuit feeds nothing any more."""
    house = house_to_write(request.user, slug)
    circuit = circuit_in(house, ref)
    form = EndForm(request.POST or None, row=circuit)

    def act() -> None:
        circuit.version = form.seen
        end_circuit(actor=actor_of(request), circuit=circuit, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The circuit has ended. Its history is kept."))
        return redirect("venue:circuit_list", slug)
    return render(request, "venue/circuit_end.html", {"form": form, "house": house, "circuit": circuit})
