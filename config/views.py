"""Pages that belong to no room: something broke, or too many wrong passwords."""

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render

from config.middleware import request_id


def server_error(request: HttpRequest) -> HttpResponse:
    """Our fault. Says the id that finds the log lines."""
    if request.path.startswith("/api/"):
        problem = {
            "type": "about:blank",
            "title": "Something broke on our side",
            "status": 500,
            "detail": f"Nothing was stored. Please quote {request_id.get()} when you ask us.",
        }
        return JsonResponse(problem, status=500, content_type="application/problem+json")
    return render(request, "500.html", {"request_id": request_id.get()}, status=500)


def locked_out(
    request: HttpRequest,
    original_response: HttpResponse | None = None,
    credentials: dict[str, object] | None = None,
) -> HttpResponse:
    """Too many wrong passwords for this name from this address."""
    return render(request, "429.html", {"request_id": request_id.get()}, status=429)
