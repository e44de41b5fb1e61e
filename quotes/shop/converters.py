"""A request's reference in an address, so that no other word below /shop/ is taken for one."""

from __future__ import annotations

from django.urls import register_converter
from django.urls.converters import StringConverter


class ReferenceConverter(StringConverter):
    """``FG-7K2M9P``, in whichever capitals."""

    regex = "[Ff][Gg]-[0-9A-Za-z]+"


register_converter(ReferenceConverter, "request_reference")
