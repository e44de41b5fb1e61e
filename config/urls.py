"""Every address. The rooms bring their own; what belongs to no room stands here."""

from contextlib import suppress

from csp.decorators import csp_update
from django.contrib import admin
from django.contrib.auth import views as auth
from django.urls import include, path
from drf_spectacular.views import SpectacularJSONAPIView, SpectacularSwaggerSplitView

from config import health

# The documentation page styles itself from its script; no other page may.
_docs = csp_update({"style-src": ["'self'", "'unsafe-inline'"], "img-src": ["'self'", "data:"]})(
    SpectacularSwaggerSplitView.as_view(url_name="openapi")
)

urlpatterns = [
    path("health/live", health.live, name="health-live"),
    path("health/ready", health.ready, name="health-ready"),
    path("accounts/login/", auth.LoginView.as_view(), name="login"),
    path("accounts/logout/", auth.LogoutView.as_view(), name="logout"),
    path("admin/", admin.site.urls),
    path("api/v1/openapi.json", SpectacularJSONAPIView.as_view(), name="openapi"),
    path("api/v1/docs/", _docs, name="api-docs"),
]
for _address, _room in (
    ("api/v1/", "intake.api_urls"),
    ("", "catalog.urls"),
    ("", "intake.urls"),
    ("", "quotes.urls"),
):
    with suppress(ModuleNotFoundError):  # until every room stands
        urlpatterns.append(path(_address, include(_room)))

handler500 = "config.views.server_error"
