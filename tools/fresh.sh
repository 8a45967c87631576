#!/bin/sh
# From a fresh machine to a running octavo. Safe to call again: what is there already is left as it is.
#   sh tools/fresh.sh demo    install, read the sample pages, leave pictures of what was read
#   sh tools/fresh.sh test    install with the developers' tools, run the tests (further words go to pytest)
# Needs a POSIX shell and Python 3.11 or later.
set -eu

say() { printf 'fresh: %s\n' "$*" >&2; }
stop() { say "$1"; exit "${2:-69}"; }
have() { command -v "$1" >/dev/null 2>&1; }

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"
  elif have sudo; then sudo "$@"
  else return 1
  fi
}

# need WHAT APT_PACKAGES DNF_PACKAGES BREW_PACKAGES: install through the first package manager that is here.
need() {
  say "installing $1"
  # shellcheck disable=SC2086  # the lists of packages are meant to be split
  if have apt-get; then
    { as_root apt-get update && as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $2; } >&2 && return 0
    stop "$1 is missing and could not be installed. As root, run: apt-get install $2"
  elif have dnf; then
    as_root dnf install -y $3 >&2 && return 0
    stop "$1 is missing and could not be installed. As root, run: dnf install $3"
  elif have brew && [ -n "$4" ]; then
    brew install $4 >&2 && return 0
    stop "$1 is missing and could not be installed. Run: brew install $4"
  fi
  stop "$1 is missing and this machine has no apt-get, dnf or brew. Install it, then run this again."
}

find_python() {
  for name in python3.13 python3.12 python3.11 python3.14 python3 python; do
    if have "$name" && "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
      printf '%s\n' "$name"
      return 0
    fi
  done
  return 1
}

make_venv() {
  if [ -x .venv/bin/python ] && .venv/bin/python -c 'import sys, pip; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
    return 0
  fi
  python=$(find_python) || stop "Python 3.11 or later is needed and was not found. Install it, then run this again."
  if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
    need "Python's venv module" python3-venv python3 python
  fi
  say "making .venv with $("$python" --version)"
  "$python" -m venv --clear .venv
}

# install EXTRA: the locked versions; done again only when the lock, the project file or the wish has changed.
install() {
  want=$(cat pyproject.toml uv.lock | cksum)
  stamp=.venv/octavo-$1.installed
  if [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$want" ] && .venv/bin/python -c 'import octavo.tools' 2>/dev/null; then
    return 0
  fi
  rm -f "$stamp"
  .venv/bin/python -c 'import uv' 2>/dev/null || {
    say "installing the installer (uv)"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check uv
  }
  say "installing octavo with the locked versions${1:+ ($1)}"
  extra=""
  [ "$1" = run ] || extra="--extra $1"
  # shellcheck disable=SC2086  # nothing or two words
  UV_PYTHON_DOWNLOADS=never .venv/bin/python -m uv sync --quiet --locked --inexact --python .venv/bin/python $extra
  printf '%s\n' "$want" >"$stamp"
}

programs() {
  have tesseract && tesseract --list-langs 2>/dev/null | grep -qx eng ||
    need "Tesseract with English" "tesseract-ocr tesseract-ocr-eng" "tesseract tesseract-langpack-eng" tesseract
  .venv/bin/python -c 'import cv2' 2>/dev/null ||
    need "what OpenCV loads (libGL, GLib)" "libgl1 libglib2.0-0" "mesa-libGL glib2" ""
  .venv/bin/python -c 'import cv2' 2>/dev/null || stop "OpenCV cannot be loaded: $(.venv/bin/python -c 'import cv2' 2>&1 | tail -n 1)"
}

demo() {
  make_venv
  install run
  programs
  pictures=build/demo
  code=0
  .venv/bin/octavo read sample_charts --show-work "$pictures" || code=$?
  [ "$code" -le 2 ] || exit "$code"
  say "pictures of what was read, step by step: $pictures"
  say "now yours: .venv/bin/octavo read YOUR-FILE"
}

tests() {
  make_venv
  install dev
  programs
  .venv/bin/python -m pytest "$@"
}

cd "$(dirname "$0")/.."
case "${1:-}" in
  demo) demo ;;
  test) shift; tests "$@" ;;
  *) stop "say what to do: sh tools/fresh.sh demo, or sh tools/fresh.sh test" 64 ;;
esac
