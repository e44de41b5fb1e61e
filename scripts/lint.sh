#!/bin/sh
# Every linter, each to its end; fails if one of them did. Arguments: what mypy reads.
set -u
bin=.venv/bin
failed=""
run() {
    echo "== $*"
    "$@" || failed="$failed
  $*"
}

run $bin/ruff check .
run $bin/ruff format --check .
run $bin/mypy "$@"
run $bin/lint-imports --no-cache
run $bin/djlint templates --lint --quiet

# Production's settings, a key nobody keeps.
SECRET_KEY=$($bin/python -c "import secrets; print(secrets.token_urlsafe(64))")
export SECRET_KEY
run $bin/python manage.py check --deploy --fail-level WARNING
run $bin/python manage.py makemigrations --check --dry-run

[ -z "$failed" ] || { echo "Failed:$failed"; exit 1; }
