#!/bin/sh
# Runs everything that must hold: lint, import contracts, checks, all tests on SQLite and PostgreSQL.
#
#   sh tests/run.sh
#
# Makes its own environment in .test-venv, installs what is missing where it may, and says at the end
# what was left out and why. With CI=true a group that was left out counts as a failure.
set -u
cd "$(dirname "$0")/.."

failed="" left_out="" timings="" beside=""
made=$(mktemp -d)
trap '[ -z "$beside" ] || kill "$beside" 2>/dev/null; rm -rf "$made"' EXIT
trap 'exit 130' INT TERM

say() { printf '\n== %s\n' "$*"; }

leave_out() {
    say "left out: $1 ($2)"
    left_out="$left_out
  $1: $2"
}

step() {
    name=$1 began=$(date +%s)
    shift
    say "$name"
    if "$@"; then outcome=ok; else outcome=FAILED failed="$failed
  $name"; fi
    timings="$timings
  $(printf '%4d s  %-6s  %s' "$(($(date +%s) - began))" "$outcome" "$name")"
}

# Steps for a core that those after them leave idle: what they say is kept until they are caught up with.
begin_beside() {
    (
        failed="" timings=""
        "$@"
        printf '%s' "$timings" >"$made/beside.timings"
        printf '%s' "$failed" >"$made/beside.failed"
    ) >"$made/beside.log" 2>&1 &
    beside=$!
}

catch_up() {
    wait "$beside" || failed="$failed
  the steps beside others"
    beside=""
    cat "$made/beside.log"
    timings="$timings$(cat "$made/beside.timings")" failed="$failed$(cat "$made/beside.failed")"
}

give_up() {
    printf '%s\n' "$*" >&2
    exit 1
}

# ---- what the machine must have ---------------------------------------------------------------------

may_install() { [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; }

install() {
    say "installing $*"
    export DEBIAN_FRONTEND=noninteractive
    [ -e "$made/lists" ] || apt-get update -qq || true
    touch "$made/lists"
    apt-get install -y -qq --no-install-recommends "$@" >"$made/apt" 2>&1 || { tail -n 5 "$made/apt"; false; }
}

has_postgresql() { command -v initdb >/dev/null || ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1; }
has_chromium() { command -v chromium >/dev/null || command -v chromium-browser >/dev/null; }
has_redis() { command -v redis-server >/dev/null; }
new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }
makes_environments() { "$1" -c 'import ensurepip, venv' 2>/dev/null; }

has_pango() {
    "$python" -c 'import sys; from ctypes.util import find_library as found
sys.exit(not all(map(found, ("pango-1.0", "pangoft2-1.0", "harfbuzz-subset"))))' 2>/dev/null
}

want() {
    has=$1
    shift
    "$has" && return 0
    may_install && install "$@"
    "$has"
}

for python in ${PYTHON:-} python3 python3.13 python3.12 python3.11 none; do
    new_enough "$python" && break
done
[ "$python" = none ] && give_up "Python 3.11 or newer is needed; none was found."
makes_environments "$python" || { may_install && install python3-venv; }
makes_environments "$python" || give_up "$python cannot make environments; install its venv package."

want has_chromium chromium || leave_out "browser tests" "no chromium, and it could not be installed"
want has_postgresql postgresql || leave_out "tests on PostgreSQL" "no PostgreSQL, and it could not be installed"
want has_pango libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 \
    || leave_out "the statement as PDF" "no Pango, and it could not be installed"
want has_redis redis-server || leave_out "the worker on Redis" "no Redis, and it could not be installed"

# ---- the environment --------------------------------------------------------------------------------

bin=.test-venv/bin other=.test-venv-other-pandas fuzzer=.test-venv-fuzzer

sum_of() { { "$python" --version; cat "$@"; } | cksum; }

# An environment: its folder, then what is installed there; made once, and anew when either changes.
make() {
    folder=$1 wanted=$(shift; sum_of "$@")
    shift
    is_made "$folder" "$@" && return
    lists=""
    for list in "$@"; do lists="$lists -r $list"; done
    "$python" -m venv --clear "$folder" && "$folder/bin/python" -m pip install -q --disable-pip-version-check $lists \
        && echo "$wanted" >"$folder/made-of"
}

is_made() {
    folder=$1
    shift
    [ "$(cat "$folder/made-of" 2>/dev/null)" = "$(sum_of "$@")" ]
}

# Tools that would disturb ours have environments of their own, made beside it.
make_apart() { make "$@" >"$made/$1.log" 2>&1 & }

apart() {
    is_made "$1" "$2" && return
    tail -n 5 "$made/$1.log"
    leave_out "$3" "its environment could not be made"
}

say "making environments"
make_apart $other tests/other_pandas/requirements.txt
make_apart $fuzzer tests/fuzzer/requirements.txt
make .test-venv requirements.txt tests/requirements.txt || give_up "The environment could not be made; see above."
wait
apart $other tests/other_pandas/requirements.txt "water by pyet"
apart $fuzzer tests/fuzzer/requirements.txt "the interface by a fuzzer"

# Nothing of the person's own site reaches the tests.
for variable in $(env | sed -n 's/^\(GREENS_[A-Z_]*\)=.*/\1/p') DATABASE_URL DJANGO_SETTINGS_MODULE; do
    unset "$variable"
done
export GREENS_DATA_DIR="$made/data"
unset PYTHONDONTWRITEBYTECODE  # tests start the site a hundred times; each would compile all of it again
[ ! -e $other/made-of ] || export PYTHON_OF_OTHER_PANDAS="$PWD/$other/bin/python"
[ ! -e $fuzzer/made-of ] || export PYTHON_OF_THE_FUZZER="$PWD/$fuzzer/bin/python"

# The files in which tests are marked so: to look through all the others takes longer than many of these.
marked() { grep -rl "pytest\.mark\.$1" tests --include 'test_*.py'; }

as_in_production() {
    GREENS_DEBUG=false GREENS_SITE_URL=https://greens.example.org \
        GREENS_HOSTS=greens.example.org GREENS_SECRET_KEY=$($bin/python -c 'import secrets; print(secrets.token_urlsafe(50))') \
        "$@"
}

# Tests share the cores; sums of a few hundred rows are slower when each of them takes all.
export OPENBLAS_NUM_THREADS=1

# ---- what must hold ---------------------------------------------------------------------------------

browser="" ; has_chromium || browser=" and not browser"
pdf="" ; has_pango || pdf=" and not pdf"

on_one_core() {
    step "no migration missing" $bin/python manage.py makemigrations --check --dry-run
    step "ready for production" as_in_production $bin/python manage.py check --deploy --fail-level WARNING
    step "tables made by migrations" $bin/python -m pytest -rs -m "migrations and not bench" $(marked migrations)
}

step "lint" $bin/ruff check .
step "format" $bin/ruff format --check .
step "lint of templates" $bin/djlint --quiet --lint templates
step "import contracts" $bin/lint-imports
step "all tests, on SQLite" $bin/python -m pytest --nomigrations -n 3 --dist worksteal -rs --durations 5 \
    -m "not bench and not migrations$browser$pdf"
if has_postgresql; then
    step "database tests, on PostgreSQL" $bin/python -m tests.services \
        $bin/python -m pytest -n 3 --dist worksteal -rs --only-database \
        --ignore tests/house/test_bodies.py \
        -m "not bench and not browser and not story and not pdf"
fi
begin_beside on_one_core
step "speed of pages" $bin/python -m pytest --nomigrations -rs -m bench $(marked bench)
catch_up

# ---- how it went ------------------------------------------------------------------------------------

say "how it went$timings"
[ -z "$left_out" ] || say "left out$left_out"
[ -z "$left_out" ] && say "nothing was left out"
[ -z "$failed" ] || say "FAILED$failed"
[ "${CI:-}" = true ] && [ -n "$left_out" ] && failed="$failed left out"
[ -z "$failed" ]
