#!/bin/sh
# Brings the site up to date: a backup that is proved first, then the new code, then what it changes.
#
#   sh docker/upgrade.sh
set -eu
cd "$(dirname "$0")"

docker compose exec --no-TTY backup python manage.py backup
git pull --ff-only
exec sh up.sh
