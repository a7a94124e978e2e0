#!/bin/sh
# A web process brings the database up to date before it serves; several at once wait for each other.
set -eu
[ "$1" != gunicorn ] || python manage.py migrate --no-input --skip-checks --verbosity 0
exec "$@"
