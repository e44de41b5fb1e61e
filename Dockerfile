FROM python:3.11-slim-bookworm AS build
WORKDIR /site
COPY requirements/base.txt requirements/base.txt
RUN python -m venv /venv \
 && /venv/bin/python -m pip install --no-cache-dir --require-hashes -r requirements/base.txt

FROM python:3.11-slim-bookworm
ENV PATH=/venv/bin:$PATH PYTHONUNBUFFERED=1 PYTHONDONTWRITEBYTECODE=1
# pg_dump, pg_restore and psql for `manage.py backup` and `restore`, as old as the server's.
RUN apt-get update \
 && apt-get install -y --no-install-recommends postgresql-client-15 \
 && rm -rf /var/lib/apt/lists/*
RUN useradd --system --create-home --uid 10001 fairgap
WORKDIR /site
COPY --from=build /venv /venv
COPY manage.py manage.py
COPY config config
COPY staff staff
COPY catalog catalog
COPY intake intake
COPY quotes quotes
COPY templates templates
COPY locale locale
# The key is for this one command; a running site brings its own.
RUN SECRET_KEY=only-to-collect DATABASE_URL=sqlite:////tmp/none.sqlite3 \
    python manage.py collectstatic --noinput
USER fairgap
EXPOSE 8000
CMD ["gunicorn", "config.wsgi", "--bind", "0.0.0.0:8000", "--workers", "2", "--threads", "4"]
