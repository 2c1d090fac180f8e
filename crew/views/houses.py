"""Opening a house together with the roster that serves it."""

from typing import cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from crew.access import require_some_head
from crew.actions import open_house
from crew.addresses import house_address
from crew.forms.houses import NewHouseForm
from venue.models import House, User
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def house_new(request: HttpRequest) -> HttpResponse:
    """A new house, its usual set-up and its roster; whoever opens it heads the one and dispatches the other."""
    require_some_head(request.user)
    form, user = NewHouseForm(request.POST or None), cast(User, request.user)
    made: list[House] = []

    def act() -> None:
        made.append(open_house(actor=actor_of(request), head=user, dispatcher=user, **form.facts)[0])

    if is_saved(form, act):
        messages.success(request, _("The house is on file. Add its first position now."))
        return redirect(house_address(made[0]))
    return render(request, "crew/house_new.html", {"form": form})
