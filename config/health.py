"""Is the process up (live), and can it do its work (ready)?"""

from django.conf import settings
from django.db import DatabaseError, connection
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe


@never_cache
@require_safe
def live(request: HttpRequest) -> HttpResponse:
    """The process answers. Asks nobody else."""
    return HttpResponse("ok", content_type="text/plain")


@never_cache
@require_safe
def ready(request: HttpRequest) -> JsonResponse:
    """200 when the database answers, else 503. A missing broker only delays work."""
    database = _database()
    body = {"database": database, "broker": _broker()}
    return JsonResponse(body, status=200 if database == "ok" else 503)


def _database() -> str:
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return "away"
    return "ok"


def _broker() -> str:
    if not settings.REDIS_URL:
        return "embedded"
    from redis import Redis, RedisError

    try:
        with Redis.from_url(
            settings.REDIS_URL, socket_connect_timeout=1, socket_timeout=1
        ) as broker:
            broker.ping()
    except RedisError:
        return "away"
    return "ok"
