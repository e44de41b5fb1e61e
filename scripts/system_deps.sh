#!/bin/sh
# What the tests need besides Python. Installs only what is missing, and only where that is
# possible (root and apt-get); otherwise says what to install. No service is started.
set -eu

have() { command -v "$1" >/dev/null 2>&1; }
have_postgres() { have initdb || ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1; }

missing=""
have redis-server || missing="$missing redis-server"
have_postgres || missing="$missing postgresql"
have chromium || have chromium-browser || have google-chrome || missing="$missing chromium"
have pdftoppm || missing="$missing poppler-utils"
[ -n "$missing" ] || exit 0

if [ "$(id -u)" -ne 0 ] || ! have apt-get; then
    echo "The tests need programs that are not on this machine:$missing" >&2
    echo "On Debian, as root: apt-get install$missing" >&2
    exit 1
fi

echo "Installing for the tests:$missing"
policy=${POLICY_RC_D:-/usr/sbin/policy-rc.d}
if [ ! -e "$policy" ]; then
    trap 'rm -f "$policy"' EXIT
    printf '#!/bin/sh\nexit 101\n' >"$policy"
    chmod +x "$policy"
fi
export DEBIAN_FRONTEND=noninteractive
apt-get update -qq
# shellcheck disable=SC2086
apt-get install -y -qq --no-install-recommends $missing >/dev/null
