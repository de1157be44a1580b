#!/usr/bin/env bash
# Drives the real window through the job, on an X server of its own, as hands would; reads its state from the status file.
# usage: window_job.sh TONEMEND WIDTHxHEIGHT[-at-TEXTSCALE] FOLDER      pictures and status files are left in FOLDER
set -euo pipefail
tonemend=$1 shape=$2 folder=$3
size=${shape%%-*} text_scale=${shape##*-at-}
[ "$text_scale" = "$shape" ] && text_scale=1
width=${size%x*} height=${size#*x}

for tool in Xvfb xdotool import python3; do
    command -v $tool >/dev/null || { echo "FAILED: $tool is missing; install the packages of .ci/packages"; exit 1; }
done
rm -rf "$folder"
mkdir -p "$folder/config/tonemend" "$folder/data"
folder=$(cd "$folder" && pwd)
printf '{"width": %s, "height": %s, "text_scale": %s}' "$width" "$height" "$text_scale" >"$folder/config/tonemend/settings.json"
export XDG_CONFIG_HOME=$folder/config XDG_DATA_HOME=$folder/data TONEMEND_STATUS_FILE=$folder/status.json LIBGL_ALWAYS_SOFTWARE=1

# The server picks a free display and says which.
Xvfb -displayfd 9 -screen 0 "${size}x24" -nolisten tcp 9>"$folder/display" 2>"$folder/xvfb.log" &
server=$!
window=0
finish() { [ $window -ne 0 ] && kill $window 2>/dev/null; kill $server 2>/dev/null; wait 2>/dev/null; }
trap finish EXIT
for _ in $(seq 100); do [ -s "$folder/display" ] && break; sleep 0.1; done
DISPLAY=:$(cat "$folder/display")
export DISPLAY

# holds EXPRESSION: a Python expression over the status `s`.
holds() {
    python3 - "$TONEMEND_STATUS_FILE" "$1" <<'P'
import json, sys
try:
    s = json.load(open(sys.argv[1]))
except (OSError, ValueError):
    sys.exit(1)
sys.exit(0 if eval(sys.argv[2]) else 1)
P
}
value() { python3 -c 'import json,sys; s = json.load(open(sys.argv[1])); print(eval(sys.argv[2]))' "$TONEMEND_STATUS_FILE" "$1"; }
step() { echo "-- $*"; }
await() {
    for _ in $(seq 150); do holds "$1" && return 0; sleep 0.1; done
    echo "FAILED: not within 15 s: $1"
    cat "$TONEMEND_STATUS_FILE" || true
    exit 1
}
require() { holds "$1" || { echo "FAILED: $1"; cat "$TONEMEND_STATUS_FILE"; exit 1; }; }
# A window manager would put the picture in order; here the pointer gives the window its keys.
key() { xdotool key --delay 40 "$@"; }
start() {
    rm -f "$TONEMEND_STATUS_FILE"
    began=$(date +%s%N)
    "$tonemend" --source practice "$@" 2>"$folder/window.log" &
    window=$!
    await "s['frame'] > 0"
    xdotool mousemove $((width / 4)) $((height / 3))
}
shot() {
    sleep 0.4
    import -window root "$folder/$1.png"
    require "s['cut'] == []"
    python3 - "$TONEMEND_STATUS_FILE" "$width" "$height" <<'P'
import json, sys
boxes = json.load(open(sys.argv[1]))["boxes"]
width, height = float(sys.argv[2]), float(sys.argv[3])
names = sorted(boxes)
for i, name in enumerate(names):
    x, y, w, h = boxes[name]
    if x < 0 or y < 0 or w <= 0 or h <= 0 or x + w > width or y + h > height:
        sys.exit(f"FAILED: {name} lies outside the window: {boxes[name]}")
    for other in names[i + 1:]:
        p, q, r, s = boxes[other]
        if x < p + r and p < x + w and y < q + s and q < y + h:
            sys.exit(f"FAILED: {name} and {other} overlap")
P
}
# drag X0 Y0 X1 Y1: shares of the picture's box.
drag() {
    local at
    at=$(value "'%d %d %d %d' % tuple(s['boxes']['picture'][i % 2] + s['boxes']['picture'][2 + i % 2] * v for i, v in enumerate([$1, $2, $3, $4]))")
    # shellcheck disable=SC2086
    set -- $at
    xdotool mousemove "$1" "$2" sleep 0.15 mousedown 1 sleep 0.15 mousemove $((($1 + $3) / 2)) $((($2 + $4) / 2)) sleep 0.1 \
        mousemove "$3" "$4" sleep 0.15 mouseup 1 sleep 0.15
}

step "The window opens on the practice bench, finds the card and says what to do first"
start
await "s['card'] and s['source'] == 'practice bench' and 'original' in s['guidance']"
shot 1-start
step "Two regions: one drawn by hand, one by key and arrows"
key o
drag 0.12 0.62 0.34 0.86
await "s['regions']['original'] is not None and s['guidance'].find('repair') > 0"
key r
await "s['verdict'] is not None"
for _ in 1 2 3; do key Right; done
before=$(value "s['regions']['repair'][0][0]")
key shift+Up
await "s['regions']['repair'][0][0] < $before"
await "s['verdict'] == 'off' and 5 < s['de2000'] < 7"
shot 2-regions
key Escape
step "One key keeps a reading at once"
key space
await "len(s['coats']) == 1 and s['coats'][0]['kept']"
ls "$folder"/data/tonemend/jobs/bench/0001-*.json "$folder"/data/tonemend/jobs/bench/0001-*.frame.png >/dev/null
step "A presenter's key does too, after the second coat and the third"
key 2
await "s['de2000'] < 4"
key Next
await "len(s['coats']) == 2 and s['coats'][1]['kept']"
key 2
await "s['de2000'] < 2.2"
key space
await "len(s['coats']) == 3 and s['coats'][2]['kept']"
key 2
await "s['de2000'] < 1.0"
key space
await "len(s['coats']) == 4 and s['coats'][3]['kept']"
shot 3-coats
step "Undo takes the last mark away and deletes nothing"
key z
await "len(s['coats']) == 3"
ls "$folder"/data/tonemend/jobs/bench/0004-*.json.undone "$folder"/data/tonemend/jobs/bench/0004-*.png >/dev/null
step "The bench turns: lamp, wet, light that falls off; the reading stands or warns"
key 1
await "s['frame'] > 0 and s['card']"
key 4
await "s['de2000'] > 1.5"
key 4
await "s['de2000'] < 1.2"
key 5
await "len(s['warnings']) > 1"
key w
await "s['page'] == 'warnings'"
shot 4-warnings
key w
key 5
key 5
key 5
step "All keys on one page; light surround"
key F1
await "s['page'] == 'keys'"
shot 5-keys
key Escape
key t
await "s['theme'] == 'light' and s['page'] == 'picture'"
shot 6-light
step "Larger and smaller type"
if [ "$text_scale" = 1 ]; then
    key plus
    await "s['text_scale'] > 1.2"
    shot 7-larger
    key minus
    await "s['text_scale'] == 1"
fi
echo "drawn $(value "s['fps']") frames/s, $(value "s['draw_ms']") ms each; captured $(value "s['capture_fps']") frames/s; latency $(value "s['latency_ms']") ms; behind $(value "s['frame'] - s['measured_frame']") frames"
require "s['frame'] - s['measured_frame'] <= 2"
regions=$(value "s['regions']")
step "Left and started again: regions, theme and coats are back, and the first reading comes by itself"
key ctrl+q
wait $window
window=0
start
await "s['verdict'] is not None"
echo "from start to first reading: $((($(date +%s%N) - began) / 1000000)) ms"
require "str(s['regions']) == \"$regions\""
require "s['theme'] == 'light' and len(s['coats']) == 3"
shot 8-again
step "A source that cannot be is refused in one line"
key ctrl+q
wait $window
window=0
if "$tonemend" --source /no/such/picture.jpg 2>"$folder/refusal.log"; then echo "FAILED: opened what is not there"; exit 1; fi
[ "$(wc -l <"$folder/refusal.log")" = 1 ] && grep -q 'no/such/picture.jpg' "$folder/refusal.log"
start
step "A damaged settings file is said and costs nothing but the settings"
key ctrl+q
wait $window
window=0
printf '{' >"$folder/config/tonemend/settings.json"
start
await "'damaged' in s['notice']"
key ctrl+q
wait $window
window=0
[ ! -s "$folder/window.log" ] || { echo "FAILED: the window said on stderr:"; cat "$folder/window.log"; exit 1; }
echo "the job is done"
