"""Circuits: added, ended; a change goes by `change`."""

from datetime import datetime
from typing import Any

from django.db import transaction

from venue.errors import CircuitInUse
from venue.history import Actor, record
from venue.models import Circuit, House, Place
from venue.storing import end, store


@transaction.atomic
def add_circuit(*, actor: Actor, house: House, name: str, **facts: Any) -> Circuit:
    """A circuit of the house, under the name at its panel. Raises AlreadyExists, Invalid."""
    circuit = store(Circuit(house=house, name=name, **facts))
    record(actor, "circuit.added", circuit, house=house, name=name)
    return circuit


@transaction.atomic
def end_circuit(*, actor: Actor, circuit: Circuit, at: datetime, reason: str) -> None:
    """The circuit feeds nothing any more. Raises CircuitInUse, AlreadyEnded, StaleVersion, Invalid without a reason."""
    Circuit.objects.select_for_update().get(pk=circuit.pk)  # no place can be put on it meanwhile
    places = Place.objects.standing().filter(circuit=circuit).select_related("position")
    if places:
        raise CircuitInUse(places)
    end(circuit, at=at, reason=reason)
    record(actor, "circuit.ended", circuit, house=circuit.house, name=circuit.name, reason=reason)
