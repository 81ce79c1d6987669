"""Coming in and going out, and whether the app is well."""

from __future__ import annotations

from django.conf import settings
from django.contrib import auth
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.views import LoginView
from django.db import DatabaseError, connection
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils.decorators import method_decorator
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from soapbench.science.words import say
from soapbench.workshop import entry
from soapbench.workshop.forms import SignInForm


@method_decorator(login_not_required, name="dispatch")
class SignIn(LoginView):
    """Sign in with name and password."""

    form_class = SignInForm
    template_name = "workshop/sign_in.html"

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        self.request.session.pop(entry.SIGNED_OUT, None)
        return super().form_valid(form)

    def form_invalid(self, form: AuthenticationForm) -> HttpResponse:
        return self.render_to_response(self.get_context_data(form=form), status=422)


sign_in = SignIn.as_view()


@login_not_required
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    auth.logout(request)
    request.session[entry.SIGNED_OUT] = True
    return redirect(settings.LOGOUT_REDIRECT_URL)


@login_not_required
@require_GET
def enter(request: HttpRequest, token: str) -> HttpResponse:
    """Sign in the person of a signed link, as the QR code on the machine carries it."""
    person = entry.person_of(token)
    if person is None:
        sentence = _("This link is too old or was cut short. Show the code on the machine again, or sign in here.")
        return render(request, "workshop/sign_in.html", {"form": SignInForm(request), "sentence": sentence}, status=403)
    request.session.pop(entry.SIGNED_OUT, None)
    auth.login(request, person, backend="django.contrib.auth.backends.ModelBackend")
    return redirect(settings.LOGIN_REDIRECT_URL)


@login_not_required
@require_GET
def healthz(request: HttpRequest) -> HttpResponse:
    """Answer "ok" when the database answers, for whoever watches over the server."""
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return HttpResponse(say("The database does not answer."), status=503, content_type="text/plain")
    return HttpResponse("ok", content_type="text/plain")


@login_not_required
def csrf_refused(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Say why a form was not taken: most often the page was older than the sign-in."""
    return HttpResponse(render_to_string("csrf.html"), status=403)
