"""Our own addresses, and the floor: a view that validates nothing and stores 1 + 20 rows."""

from __future__ import annotations

import json
from itertools import cycle, islice

from django.db import transaction
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.urls import path
from django.views.decorators.csrf import csrf_exempt

from config.urls import urlpatterns as ours
from tests.bench.models import FloorReading, FloorSheet

ROWS = 20


@csrf_exempt
def floor(request: HttpRequest) -> JsonResponse:
    """The least a view could do to keep a sheet."""
    body = json.loads(request.body)
    contact, answers = body["contact"], body["answers"]
    with transaction.atomic():
        sheet = FloorSheet._default_manager.create(
            name=contact["name"], phone=contact["phone"], channel=body["channel"]
        )
        FloorReading._default_manager.bulk_create(
            FloorReading(sheet=sheet, slug=slug, text=str(answer))
            for slug, answer in islice(cycle(answers.items()), ROWS)
        )
    return JsonResponse({"id": sheet.pk}, status=201)


def bare(_request: HttpRequest) -> HttpResponse:
    """The least a view can answer."""
    return HttpResponse("<p>Here.</p>")


urlpatterns = [*ours, path("floor/", floor), path("bare/", bare)]
