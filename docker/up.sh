#!/bin/sh
# Starts the site of docker/compose.yaml, or what of it has changed, and waits until it answers.
#
#   sh docker/up.sh
set -eu
cd "$(dirname "$0")"

random() { head -c 48 /dev/urandom | base64 | tr -d '/+=\n'; }

# A secret once made is never made anew. The folder keeps others out; inside the containers each file
# is read by a user who does not own it.
secret() {
    [ -s "secrets/$1" ] || printf '%s' "$2" >"secrets/$1"
    chmod 444 "secrets/$1"
}

mkdir -p secrets
chmod 700 secrets
secret secret_key "$(random)"
secret database_password "$(random)"
secret email_url consolemail://

exec docker compose up --detach --build --wait "$@"
