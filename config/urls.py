"""Every address. The rooms bring their own; what belongs to no room stands here."""

from csp.decorators import csp_update
from django.contrib import admin
from django.urls import include, path
from django.views.i18n import set_language
from drf_spectacular.views import SpectacularJSONAPIView, SpectacularSwaggerSplitView

from config import health

# The documentation page styles itself from its script; no other page may.
_docs = csp_update({"style-src": ["'self'", "'unsafe-inline'"], "img-src": ["'self'", "data:"]})(
    SpectacularSwaggerSplitView.as_view(url_name="openapi")
)

urlpatterns = [
    path("health/live", health.live, name="health-live"),
    path("health/ready", health.ready, name="health-ready"),
    path("language/", set_language, name="set_language"),
    path("", include("staff.urls")),  # before the admin: its door is the same as everybody's
    path("admin/", admin.site.urls),
    path("api/v1/openapi.json", SpectacularJSONAPIView.as_view(), name="openapi"),
    path("api/v1/docs/", _docs, name="api-docs"),
    path("api/v1/", include("intake.api_urls")),
    path("", include("catalog.urls")),
    path("", include("intake.urls")),
    path("", include("quotes.urls")),
]

handler500 = "config.views.server_error"
