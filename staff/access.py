"""Who may open a staff page: first logged in, then of the right group."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from django.contrib.auth.decorators import login_required
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse

from staff.security import address_of, tell

View = Callable[..., HttpResponse]


def needs(*permissions: str) -> Callable[[View], View]:
    """Ask for a login, then answer 403 to whoever lacks one of the permissions, and log it."""

    def decorate(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: object, **kwargs: object) -> HttpResponse:
            if not request.user.has_perms(permissions):
                tell(
                    "not-allowed",
                    person=request.user.pk,
                    address=address_of(request),
                    page=view.__name__,
                )
                raise PermissionDenied
            return view(request, *args, **kwargs)

        return login_required(guarded)

    return decorate


anybody_here = needs()
accounts_required = needs("staff.manage_accounts")
