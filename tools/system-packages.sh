#!/bin/sh
# What the system itself must bring for a command of the Makefile, beside Python's own libraries.
#
#   tools/system-packages.sh WHAT PYTHON VENV
#
# WHAT is python, demo or test: each needs what the one before needs, and more. Run as root, as in a fresh container or
# on a fresh server, it installs what is missing with the system's package manager and says so. Anybody else is stopped
# before any work, with the one line to type; nothing is installed behind a person's back.
set -eu

what=$1 python=$2 venv=$3
# Users' paths may lack ldconfig.
PATH=$PATH:/usr/sbin:/sbin

has_library() { # has_library FILE: whether programs find a shared library
  ldconfig -p 2>/dev/null | grep -q "[[:space:]]$1 "
}

has_browser() {
  for name in chromium chromium-browser google-chrome google-chrome-stable; do
    command -v "$name" >/dev/null 2>&1 && return
  done
  return 1
}

has_font() { # has_font FILE: whether a SoundFont lies where the system keeps them
  for folder in $(echo "${XDG_DATA_DIRS:-/usr/local/share:/usr/share}" | tr : ' '); do
    [ ! -f "$folder/sounds/sf2/$1" ] || return 0
  done
  return 1
}

find_missing() { # sets `missing` to Debian packages, `lacking` to what they are for
  missing='' lacking=''
  if ! command -v "$python" >/dev/null 2>&1; then
    lack "Python ($python)" "$(basename "$python") $(basename "$python")-venv"
  elif [ ! -x "$venv/bin/pip" ] && ! "$python" -c 'import ensurepip, venv' >/dev/null 2>&1; then
    lack "the part of Python that makes virtual environments" "$(basename "$python")-venv"
  fi
  [ "$(uname -s)" = Linux ] || return 0
  case $what in demo | test)
    # Skia draws with the system's OpenGL libraries, which desktops have and bare servers lack.
    has_library libGL.so.1 || lack "OpenGL (libGL.so.1)" libgl1
    has_library libEGL.so.1 || lack "OpenGL without a screen (libEGL.so.1)" libegl1
    ;;
  esac
  case $what in test)
    # Learners open films and pages in a browser, and so do the tests.
    has_browser || lack "a browser (chromium)" chromium
    # Playwright drives it, by a program that it brings along.
    has_library libatomic.so.1 || lack "libatomic (libatomic.so.1)" libatomic1
    # Sampled instruments are played by the real library, on a small SoundFont.
    has_library libfluidsynth.so.3 || lack "FluidSynth (libfluidsynth.so.3)" libfluidsynth3
    has_font TimGM6mb.sf2 || lack "a SoundFont (TimGM6mb.sf2)" timgm6mb-soundfont
    ;;
  esac
}

lack() { # lack WORDS PACKAGES
  lacking="${lacking:+$lacking, }$1"
  missing="${missing:+$missing }$2"
}

check_python() {
  command -v "$python" >/dev/null 2>&1 || return 0
  "$python" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 14))' && return
  echo "Gamutwright needs Python 3.11, 3.12 or 3.13, and $python is $("$python" -V 2>&1)." >&2
  echo "Name another one with: make PYTHON=python3.11 ..." >&2
  exit 1
}

check_python
find_missing
[ -n "$missing" ] || exit 0

if ! command -v apt-get >/dev/null 2>&1; then
  echo "This machine lacks: $lacking." >&2
  echo "Install that with its package manager; on Debian the packages are: $missing" >&2
  exit 1
fi
if [ "$(id -u)" != 0 ]; then
  echo "This machine lacks: $lacking. Nothing was done. Type this line, then the same command again:" >&2
  echo "sudo apt-get update && sudo apt-get install -y --no-install-recommends $missing" >&2
  exit 1
fi

echo "This machine lacks: $lacking. Installing with apt-get: $missing"
export DEBIAN_FRONTEND=noninteractive
apt-get update -qq
# shellcheck disable=SC2086 # several packages
apt-get install -y -qq --no-install-recommends $missing >/dev/null
check_python
find_missing
[ -z "$missing" ] || {
  echo "apt-get installed them, and still this machine lacks: $lacking." >&2
  exit 1
}
