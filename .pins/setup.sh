# Sourced by tests/run and demo/run, not run by itself. POSIX sh.
#
# set_up KIND   makes $root/.venv hold the packages of .pins/KIND.txt (run or test) and the project itself, and
#               sets $python to the interpreter in it. Does nothing that is done already. What it does it says on
#               standard error, a line a step. Exits 2, with the reason, where it cannot.
#
# Needs $root, the checkout's top folder. $PYTHON, if set, is the one interpreter that is tried.

venv=$root/.venv

unset PYTHONPATH PYTHONHOME # either would mix other people's packages in

say() {
    printf '%s\n' "$*" >&2
}

# Sets $base to a Python that will do, or exits 2.
find_python() {
    refused=
    if [ -n "${PYTHON:-}" ]; then
        set -- "$PYTHON"
    else
        set -- python3 python3.14 python3.13 python3.12 python3.11 python
    fi
    for base in "$@"; do
        command -v "$base" >/dev/null 2>&1 || continue
        version=$("$base" -c 'import sys; print("%d.%d" % sys.version_info[:2])' 2>/dev/null) || continue
        if ! "$base" -c 'import sys; sys.exit(sys.version_info < (3, 11))'; then
            refused="$refused
  $base is Python $version: too old"
        elif ! "$base" -c 'import ensurepip, venv' 2>/dev/null; then
            refused="$refused
  $base is Python $version, without the venv module (on Debian: apt-get install python$version-venv)"
        else
            return 0
        fi
    done
    say "fitlore needs Python 3.11 or newer, with its venv module."
    if [ -n "$refused" ]; then
        say "Found:$refused"
    elif [ -n "${PYTHON:-}" ]; then
        say "PYTHON is set to $PYTHON, and no Python can be run under that name."
    else
        say "No Python was found under the names: $*"
    fi
    say "To use another, name it: PYTHON=/path/to/python3 sh $0"
    exit 2
}

# quietly WHAT COMMAND...   runs it, and shows what it printed only when it fails (exit 2).
quietly() {
    say "set-up: $1"
    shift
    if ! "$@" >"$venv/set-up.log" 2>&1; then
        cat "$venv/set-up.log" >&2
        say "set-up: that failed (above); Python is $version, and .pins/ was tried with 3.11, 3.12 and 3.13"
        exit 2
    fi
}

pip() {
    "$python" -m pip --disable-pip-version-check --no-input "$@"
}

# made_for NAME   prints what the environment was last made for under this name.
made_for() {
    cat "$venv/made-for-$1" 2>/dev/null || :
}

set_up() {
    kind=$1
    find_python
    python=$venv/bin/python
    # A moved checkout or another Python makes the environment useless, like other pins.
    home=$("$base" -c 'import sys; print(sys.version, sys.base_prefix)')
    run="$root $home $(cksum <"$root/.pins/run.txt")"
    all="$run $(cksum <"$root/.pins/test.txt")"
    if [ "$kind" = run ]; then wanted=$run; else wanted=$all; fi

    tests=$(made_for test) # may be missing, but not of another time than the rest
    if [ ! -x "$python" ] || [ "$(made_for run)" != "$run" ] || [ "${tests:-$all}" != "$all" ]; then
        say "set-up: new environment in .venv, with Python $version ($base)"
        "$base" -m venv --clear "$venv" || exit 2
    fi
    if [ "$(made_for "$kind")" != "$wanted" ]; then
        quietly "packages of .pins/$kind.txt into .venv" \
            pip install --require-hashes --only-binary :all: -r "$root/.pins/$kind.txt"
        [ "$kind" = run ] || printf '%s\n' "$all" >"$venv/made-for-test"
        printf '%s\n' "$run" >"$venv/made-for-run"
    fi
    project=$(cksum <"$root/pyproject.toml")
    if [ "$(made_for project)" != "$project" ]; then
        quietly "fitlore itself into .venv" \
            pip install --no-deps --no-index --no-build-isolation --editable "$root"
        printf '%s\n' "$project" >"$venv/made-for-project"
    fi
}
