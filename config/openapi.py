"""The API's description and the page that shows it; loaded when somebody asks for one of them."""

from __future__ import annotations

from typing import Any

from drf_spectacular.utils import extend_schema
from drf_spectacular.views import SpectacularJSONAPIView, SpectacularSwaggerSplitView

from intake.api_schema import DESCRIBED

for _call, _words in DESCRIBED:
    extend_schema(**_words)(_call)

description = SpectacularJSONAPIView.as_view()
page = SpectacularSwaggerSplitView.as_view(url_name="openapi")


def with_our_words(endpoints: list[Any], **_rest: Any) -> list[Any]:
    """Every call as it is. Asked before a description is made, so that this module is loaded."""
    return endpoints
