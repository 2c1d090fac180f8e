"""The call templates of a roster."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import roster_for, template_in
from crew.actions import add_template, change_template, end_template
from crew.forms.call_templates import ChangedTemplateForm, TemplateForm
from crew.forms.calls import ReasonForm
from crew.wording.templates import template_words
from venue.views.saving import actor_of, is_saved

FORM = ["GET", "HEAD", "POST"]


@require_safe
def template_list(request: HttpRequest, ref: UUID) -> HttpResponse:
    """What the roster's new calls may begin with."""
    roster, _may_write = roster_for(request.user, ref)
    rows = [{"template": each, "words": template_words(each)} for each in roster.call_templates.standing()]
    return render(request, "crew/template_list.html", {"roster": roster, "rows": rows})


@require_http_methods(FORM)
def template_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """One more template."""
    roster, _may_write = roster_for(request.user, ref)
    form = TemplateForm(request.POST or None)
    if is_saved(form, lambda: add_template(actor=actor_of(request), roster=roster, values=form.values)):
        messages.success(request, _("The template is on file. New calls offer it."))
        return redirect("crew:template_list", ref)
    return render(request, "crew/template_form.html", {"form": form, "roster": roster})


@require_http_methods(FORM)
def template_edit(request: HttpRequest, ref: UUID, template_ref: UUID) -> HttpResponse:
    """Change a template."""
    roster, _may_write = roster_for(request.user, ref)
    template = template_in(roster, template_ref)
    form = ChangedTemplateForm(request.POST or None, template=template)

    def act() -> None:
        change_template(actor=actor_of(request), template=template, values=form.values, seen=form.seen)

    if is_saved(form, act):
        messages.success(request, _("The template is changed. Calls made before stay as they are."))
        return redirect("crew:template_list", ref)
    return render(request, "crew/template_form.html", {"form": form, "roster": roster, "template": template})


@require_http_methods(FORM)
def template_end(request: HttpRequest, ref: UUID, template_ref: UUID) -> HttpResponse:
    """No new call begins with it."""
    now = timezone.now()
    roster, _may_write = roster_for(request.user, ref)
    template = template_in(roster, template_ref)
    form = ReasonForm(request.POST or None)
    if is_saved(form, lambda: end_template(actor=actor_of(request), template=template, at=now, **form.cleaned_data)):
        messages.success(request, _("The template is off the list."))
        return redirect("crew:template_list", ref)
    return render(request, "crew/template_end.html", {"form": form, "roster": roster, "template": template})
