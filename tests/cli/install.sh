#!/usr/bin/env bash
# Installs into a folder of its own and runs the program from there.
# usage: install.sh CMAKE BUILD SAMPLES
set -euo pipefail
cmake=$1 build=$2 samples=$3
prefix=$(mktemp -d)
trap 'rm -rf "$prefix"' EXIT
unset TONEMEND_CALIBRATION_DIR TONEMEND_VIDEO_PLUGIN
fail() { echo "FAILED: $*"; exit 1; }

"$cmake" --install "$build" --prefix "$prefix" >"$prefix/log" || { cat "$prefix/log"; fail "cmake --install"; }
cd "$prefix"
bin/tonemend --version | grep -q '[0-9]' || fail "--version says nothing"
# A card that lies in the installed folder and nowhere else.
mv share/tonemend/calibration/six-step-card.txt share/tonemend/calibration/installed-card.txt
regions=$(python3 -c 'import json, sys
truth = json.load(open(sys.argv[1]))
print("--original", ",".join(map(str, truth["original"]["region"])), "--repair", ",".join(map(str, truth["repair"]["region"])))' \
    "$samples/seat-first-coat.jpg.truth.json")
# shellcheck disable=SC2086
bin/tonemend compare "$samples/seat-first-coat.jpg" $regions --card installed-card --json >reading.json || fail "compare"
python3 - "$samples/seat-first-coat.jpg.truth.json" <<'P'
import ctypes, json, sys
difference, known = json.load(open("reading.json"))["difference"], json.load(open(sys.argv[1]))["de2000"]
assert abs(difference["de2000"] - known) <= difference["de2000_u95"], (difference, known)
# With all that it links to.
assert ctypes.CDLL("./lib/tonemend/tonemend_video.so").tonemend_video_open
P
echo "installed, and it compares"
