#!/usr/bin/env bash
# The README's two commands on machines that have nothing but Python, pip and make.
#
# For each release of Debian in FRESH a bare root file system is made (mmdebstrap, the smallest variant), this working
# tree is put into it, and `make GOAL` is run there for each of GOALS, as root. How this machine reaches packages
# (certificates, and the settings of apt and pip) is copied in when it runs and is no part of the project.
#
#   tools/fresh.sh                                        bookworm (Python 3.11) and trixie (Python 3.13)
#   FRESH=bookworm GOALS=demo tools/fresh.sh              one of each
#   FRESH_PLACE=/var/tmp tools/fresh.sh                   where the file systems are made: 4 GB each
#
# Everything that is said goes to out/fresh-RELEASE.log, and the logs are printed at the end.
set -euo pipefail
cd "$(dirname "$0")/.."

FRESH=${FRESH:-bookworm trixie}
GOALS=${GOALS:-demo test}
PLACE=${FRESH_PLACE:-${TMPDIR:-/tmp}}
HERE=$PWD
LOGS=$HERE/out

[ "$(id -u)" = 0 ] || { echo "A bare root file system can only be entered by root: sudo make fresh" >&2; exit 1; }
command -v mmdebstrap >/dev/null || { echo "mmdebstrap is missing: apt-get install -y mmdebstrap" >&2; exit 1; }

root=''
mounts=()

end_inside() { # end what still runs there: processes whose root is the file system, and no others
  local process
  for process in /proc/[0-9]*; do
    if [ "$(readlink "$process/root" 2>/dev/null)" = "$root" ]; then kill -KILL "${process#/proc/}" 2>/dev/null || true; fi
  done
}

leave() { # end what runs, undo the mounts, the last first, and drop the file system
  if [ -n "$root" ]; then end_inside; fi
  for ((place = ${#mounts[@]} - 1; place >= 0; place--)); do
    umount --recursive --lazy "${mounts[place]}" || true
  done
  mounts=()
  # Nothing of this machine may still hang below what is removed.
  if [ -n "$root" ] && ! grep -q " $root/" /proc/self/mounts; then rm -rf --one-file-system "$root"; fi
  root=''
}
trap leave EXIT
trap 'exit 130' INT
trap 'exit 143' TERM HUP

bind() { # bind PLACE: show a folder of this machine at the same place in the file system
  mkdir -p "$root$1"
  mount --rbind "$1" "$root$1"
  mounts+=("$root$1")
  mount --make-rslave "$root$1"
}

pip_words() { # every word of pip's settings on this machine
  cat /etc/pip.conf ~/.config/pip/pip.conf ~/.pip/pip.conf 2>/dev/null | sed 's/^[a-z-]* *= *//' || true
  env | sed -n 's/^PIP_[A-Z_]*=//p'
}

copy_settings() { # how this machine reaches packages
  local kept
  for kept in /etc/resolv.conf /etc/hosts /etc/pip.conf ~/.config/pip ~/.pip /usr/local/share/ca-certificates \
    /etc/ssl/certs/ca-certificates.crt /etc/apt/apt.conf.d /etc/apt/auth.conf.d /etc/apt/keyrings; do
    [ -e "$kept" ] || continue
    mkdir -p "$root$(dirname "$kept")"
    cp -aL --no-preserve=ownership "$kept" "$root$(dirname "$kept")/"
  done
  chroot "$root" update-ca-certificates >/dev/null 2>&1
  # Folders of packages that pip's settings name are shown where they are; the files of an index lie beside `simple`.
  for kept in $(pip_words | tr ' ' '\n' | sed -n 's|^file://||; s|/simple/*$||; /^\/./p' | sort -u); do
    if [ -d "$kept" ]; then bind "$kept"; fi
  done
}

copy_tree() { # the files of the project as they are here, committed or not, without what was built
  mkdir "$root/gamutwright"
  git ls-files -z --cached --others --exclude-standard | xargs -0 -I {} sh -c 'test ! -e "$1" || printf "%s\0" "$1"' - {} |
    tar --create --null --files-from=- | tar --extract --no-same-owner --directory "$root/gamutwright"
}

inside() { # inside COMMAND...: run something there, with nothing of this shell but the way to packages
  local passed
  mapfile -t passed < <(env | grep -iE '^(https?_proxy|no_proxy|all_proxy|PIP_[A-Z_]*|SSL_CERT_(FILE|DIR)|REQUESTS_CA_BUNDLE|CURL_CA_BUNDLE)=' || true)
  chroot "$root" env -i HOME=/root LANG=C.UTF-8 PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
    "${passed[@]}" sh -c 'cd /gamutwright && "$@"' - "$@"
}

try() { # try RELEASE: all goals on one bare machine
  local release=$1 goal began
  root=$(mktemp -d "$PLACE/fresh-$release.XXXXXX")
  chmod 755 "$root"
  began=$SECONDS
  mmdebstrap --quiet --variant=minbase --include=python3,python3-venv,make,ca-certificates "$release" "$root"
  for goal in /proc /dev /sys; do bind "$goal"; done
  copy_settings
  copy_tree
  echo "== $release: made in $((SECONDS - began)) s; $(inside python3 -V), $(inside dpkg --get-selections | wc -l) packages"
  for goal in $GOALS; do
    echo "== $release: make $goal"
    began=$SECONDS
    if inside make "$goal"; then
      echo "== $release: make $goal passed in $((SECONDS - began)) s"
    else
      echo "== $release: make $goal FAILED after $((SECONDS - began)) s"
      return 1
    fi
  done
}

mkdir -p "$LOGS"
failed=0
for release in $FRESH; do
  (
    trap leave EXIT
    try "$release"
  ) >"$LOGS/fresh-$release.log" 2>&1 || failed=1
done
for release in $FRESH; do cat "$LOGS/fresh-$release.log"; done
exit $failed
