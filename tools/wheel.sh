#!/bin/sh
# Build source archive and wheel, install the wheel alone into a clean environment outside the checkout, and use it there
# as somebody does who has only `pip install gamutwright`. Usage: tools/wheel.sh PYTHON (one with `build`).
set -eu
python=$1
here=$(pwd)
clean=$(mktemp -d)
trap 'rm -rf "$clean"' EXIT
rm -rf dist
"$python" -m build --outdir dist . >"$clean/build.log" 2>&1 || { cat "$clean/build.log"; exit 1; }
ls -l dist
"$python" -m venv "$clean/venv"
"$clean/venv/bin/python" -m pip install --quiet --constraint constraints.txt dist/*.whl
du -sm "$clean/venv/lib" | awk '{print $1 " MB installed"}'
cd "$clean"
unset PYTHONPATH
export GAMUTWRIGHT_CACHE="$clean/cache"
venv/bin/gamutwright describe G acoustic --level foundation >described.txt
grep -q "lydian ♭7" described.txt
venv/bin/gamutwright find "cardinality = 7 AND is_maximally_even" --json >found.json
venv/bin/gamutwright draft D dorian --minutes 2 --language de -o dorisch.md
venv/bin/gamutwright check dorisch.md
venv/bin/gamutwright picture D dorian -o dorian.svg
venv/bin/python - <<'PYTHON'
import pathlib

import gamutwright as gw

assert pathlib.Path(gw.__file__).is_relative_to(pathlib.Path.cwd() / "venv"), gw.__file__
assert gw.scale("G acoustic").facts["tritones"].value == 2
assert len(gw.find("cardinality = 7 AND is_maximally_even")) == 7
assert gw.lesson("dorisch.md").check().is_proved
PYTHON
cd "$here"
echo "the wheel works alone"
