"""Addresses of this room's pages."""

from __future__ import annotations

from intake import desk_urls

urlpatterns = [*desk_urls.urlpatterns]
