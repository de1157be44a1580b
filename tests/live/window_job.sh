#!/usr/bin/env bash
# Drives the real window through the job, on an X server of its own, as hands would; reads its state from the status file.
# usage: window_job.sh TONEMEND WIDTHxHEIGHT[-at-SCALE] FOLDER      pictures and status files are left in FOLDER
# SCALE: as a high-resolution screen has it, in pixels a point
# At 1280x720 every step is gone through; at another shape those whose look depends on it.
set -euo pipefail
tonemend=$1 shape=$2 folder=$3
tests=$(cd "$(dirname "$0")/.." && pwd)
size=${shape%%-*} scale=${shape##*-at-}
[ "$scale" = "$shape" ] && scale=1
width=${size%x*} height=${size#*x}
all_steps() { [ "$shape" = 1280x720 ]; }

for tool in Xvfb xdotool xprop import python3; do
    command -v $tool >/dev/null || { echo "FAILED: $tool is missing; install the packages of .ci/packages"; exit 1; }
done
rm -rf "$folder"
mkdir -p "$folder/config/tonemend" "$folder/data"
folder=$(cd "$folder" && pwd)
printf '{"width": %s, "height": %s}' "$width" "$height" >"$folder/config/tonemend/settings.json"
export XDG_CONFIG_HOME=$folder/config XDG_DATA_HOME=$folder/data TONEMEND_STATUS_FILE=$folder/status.json LIBGL_ALWAYS_SOFTWARE=1

# The server picks a free display and says which.
Xvfb -displayfd 9 -screen 0 "${size}x24" -noreset -nolisten tcp 9>"$folder/display" 2>"$folder/xvfb.log" &
server=$!
window=0
finish() { [ $window -ne 0 ] && kill $window 2>/dev/null; kill $server 2>/dev/null; wait 2>/dev/null; }
trap finish EXIT
for _ in $(seq 100); do [ -s "$folder/display" ] && break; sleep 0.1; done
DISPLAY=:$(cat "$folder/display")
export DISPLAY
# How X tells programs of pixels an inch; 96 is a scale of 1.
xprop -root -f RESOURCE_MANAGER 8s -set RESOURCE_MANAGER "Xft.dpi: $((96 * scale))"
# Sounds go nowhere.
printf 'pcm.!default { type null }\n' >"$folder/sound.conf"
export ALSA_CONFIG_PATH=$folder/sound.conf

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
    import -window root -define png:compression-level=1 "$folder/$1.png"
    require "s['cut'] == []"
    # At the ordinary type size everything stands where tests/data/window-layouts.txt says, in either theme.
    python3 - "$TONEMEND_STATUS_FILE" "$width" "$height" "$tests/data/window-layouts.txt" "$shape" <<'P'
import json, sys
status = json.load(open(sys.argv[1]))
boxes = status["boxes"]
width, height = float(sys.argv[2]), float(sys.argv[3])
golden = {}
for line in open(sys.argv[4]):
    if line.startswith(sys.argv[5] + "\t"):
        _, name, *numbers = line.rstrip("\n").split("\t")
        golden[name] = [float(n) for n in numbers]
if status["text_scale"] == 1 and boxes != golden:
    sys.exit(f"FAILED: not as tests/data/window-layouts.txt: {[n for n in boxes if boxes[n] != golden.get(n)]}")
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
# Without a picture: nothing is cut short.
uncut() {
    sleep 0.2
    require "s['cut'] == []"
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

finish_here() {
    key ctrl+q
    wait $window
    window=0
    [ ! -s "$folder/window.log" ] || { echo "FAILED: the window said on stderr:"; cat "$folder/window.log"; exit 1; }
    echo "the job is done"
    exit 0
}

step "The window opens on the practice bench, finds the card and says what to do first"
start
await "s['card'] and s['source'] == 'practice bench' and 'One lamp' in s['guidance']"
shot 1-start
resident() { awk '/VmRSS/ {print int($2 / 1024)}' "/proc/$window/status"; }
echo "resident at the start: $(resident) MiB"
key Return
await "'original' in s['guidance']"
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
step "The camera holds still on request, and says so"
key l
await "'Held still' in s['notice']"
step "One key keeps a reading at once"
key space
await "len(s['coats']) == 1 and s['coats'][0]['kept']"
job() { "$tonemend" job "$@" --store "$folder/data/tonemend/practice.sqlite"; }
job verify | grep -q 'all whole'
job show Practice | grep -q ' 1  .*  before '
if all_steps; then
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
fi
step "Overlays one at a time, each with its legend"
for overlay in 'ΔE map' clipped glare light figure blend; do
    key e
    await "s['overlay'] == '$overlay'"
    if all_steps; then shot "overlay-${overlay// /-}"; else uncut; fi
done
key e
await "s['overlay'] == 'overlay'"
step "The regions side by side; the first reading's picture against the present one; another reading; back"
key v
await "s['view'] == 'pair'"
shot view-pair
key v
await "s['view'] == 'wipe' and s['before'] == 1"
for _ in 1 2 3; do key Left; done
shot view-wipe
key v
await "s['view'] == 'before and now' and s['before'] == 1"
if all_steps; then
    key h
    await "s['before'] == 2"
fi
key e
shot view-before-and-now
for _ in 1 2 3 4 5 6; do key e; done
key v
await "s['view'] == 'whole' and s['overlay'] == 'overlay'"
if all_steps; then
step "A card marked by hand is read like the one that was found, until the mark is taken away"
measured=$(value "s['de2000']")
read -r -a corners <<<"$(python3 - "$TONEMEND_STATUS_FILE" <<'P'
import json, sys
s = json.load(open(sys.argv[1]))
x, y, w, h = s["boxes"]["picture"]
scale = min(w / 1920, h / 1080)
print(*(f"{round(x + w / 2 + (px - 960) * scale)} {round(y + h / 2 + (py - 540) * scale)}" for px, py in s["card_window"]))
P
)"
key m
for i in 0 2 4 6; do xdotool mousemove "${corners[$i]}" "${corners[$((i + 1))]}" sleep 0.15 click 1 sleep 0.15; done
await "s['regions']['card'] is not None and s['verdict'] is not None and abs(s['de2000'] - $measured) < 0.3"
shot bare-card
key Delete
await "s['regions']['card'] is None and s['card'] and s['verdict'] is not None"
key z
await "s['regions']['card'] is not None"
key z
await "s['regions']['card'] is None"
key Escape
step "A new piece keeps its readings apart; undo goes back to the old one"
key n
await "s['piece'] == 'Piece 2' and s['coats'] == []"
key z
await "s['piece'] == 'Piece 1' and len(s['coats']) == 4"
step "Frames one by one or their mean; a tick on each reading"
await "s['frames_averaged'] > 3"
key a
await "not s['average'] and s['frames_averaged'] <= 1"
key a
key u
await "s['average'] and s['tick']"
key u
step "What lamp it is, and what the repair was coloured with, are stated by a key and on their controls"
key i
await "s['light'] == 'daylight:6500'"
shot light-daylight
for light in daylight:5000 led:4000 led:2700 planckian:2856; do
    key i
    await "s['light'] == '$light'"
    uncut
done
key i
await "s['light'] == ''"
for colourants in other same earth; do
    key d
    await "s['colourants'] == '$colourants'"
    uncut
done
fi
step "The repair is watched while it dries; its chip has a clock, its readings are marked"
key y
await "s['drying'] is not None and s['drying']['readings'] >= 1"
await "'still-settling' in s['warnings']"
ls "$folder"/data/tonemend/drying/drying-*.log >/dev/null
shot drying
key y
await "s['drying'] is None and 'still-settling' not in s['warnings']"
if all_steps; then
    step "Undo takes the last mark away and deletes nothing"
    key z
    await "len(s['coats']) == 3"
    [ "$(job export "$folder/all.json" >/dev/null && python3 -c 'import json,sys; print(len(json.load(open(sys.argv[1]))["readings"]))' "$folder/all.json")" = 4 ]
fi
step "A job by name, a coat, a reading after; back to the first job by typing"
key F2
await "s['page'] == 'jobs' and s['desk_lines'] == 1"
shot jobs
xdotool type --delay 60 'Chapel bench'
await "s['typed'] == 'Chapel bench' and s['desk_lines'] == 0"
shot jobs-none
key ctrl+n
await "s['job'] == 'Chapel bench' and s['coats'] == [] and s['desk_lines'] == 2"
shot jobs-two
key F3
await "s['page'] == 'coat'"
xdotool type --delay 60 'Walnut 4'
key Down Down
xdotool type --delay 60 '2:1'
await "s['page'] == 'coat'"
shot coat
key Return
await "s['page'] == 'picture' and 'Step 1 is recorded' in s['notice']"
key F4
await "len(s['coats']) == 1 and s['coats'][0]['kept']"
job show 'chapel bench' | grep -q "dye 'Walnut 4', thinned 2:1"
job show 'chapel bench' | grep -q ' after '
step "The plan: what is wanting is said; with a kit it names the next coat, and Enter records it"
key F5
await "s['page'] == 'plan'"
shot plan-wanting
key Escape
await "s['page'] == 'picture'"
for words in "kit new mill" "kit add Honey --kind dye-alcohol --hue yellow" "kit add Walnut --kind dye-alcohol --hue brown" \
    "kit add Umber --kind pigment-oil --hue umber" "kit add Satin --kind clear" "board new scraps --wood oak --grit 180"; do
    "$tonemend" $words --store "$folder/data/tonemend/practice.sqlite" >/dev/null
done
key F5
await "s['page'] == 'plan' and s['schedules'] >= 0"
shot plan
key Right
await "s['schedules'] >= 0"
shot plan-as-they-are
key Right
key Down
key Escape
step "A sample board: the bare wood is read at the repair's mark, then the guide says what to put on"
key F6
await "s['page'] == 'board' and s['board_lines'] == 1"
key Return
await "s['board_lines'] > 3"
shot board
key Return
await "'Strip 1' in s['notice']"
key Return
await "'Strip 1 is read' in s['notice']"
"$tonemend" board show scraps --store "$folder/data/tonemend/practice.sqlite" | grep -q '1 coat  L'
shot board-read
key Escape
await "s['page'] == 'picture'"
key F2
xdotool type --delay 60 'practice'
await "s['desk_lines'] == 1"
key Return
await "s['job'] == 'Practice' and s['page'] == 'picture' and len(s['coats']) >= 1"
step "The bench turns: lamp, with the pair held under the one and read under the other; wet; light that falls off"
key j
await "s['second_light'] == 'held'"
shot second-light-held
key 1
await "s['card'] and s['frames_averaged'] > 3"
step "Another lamp than in the readings before is said"
await "'light-changed' in s['warnings']"
shot light-changed
key j
await "s['second_light'] in ('holds', 'caution', 'alarm', 'undecided')"
shot second-light
coats=$(value "len(s['coats'])")
key space
await "len(s['coats']) == $coats + 1 and s['coats'][-1]['kept']"
for _ in $(seq 20); do job show Practice | grep -q 'second light: light one ΔE2000 .*, light two ΔE2000' && break; sleep 0.5; done
job show Practice | grep -q 'second light: light one ΔE2000 .*, light two ΔE2000'
key j
await "s['second_light'] == ''"
if all_steps; then
    key 4
    await "s['de2000'] > 1.5"
    key 4
    await "s['de2000'] < 1.2"
fi
key 5
await "len(s['warnings']) > 1"
key w
await "s['page'] == 'warnings'"
shot 4-warnings
key w
key 5
key 5
key 5
if all_steps; then
    step "A lamp that flickers is said, and when it is over no more"
    await "'light-flickers' in s['warnings']"
    shot light-flickers
fi
key 5
await "'light-flickers' not in s['warnings']"
step "All keys on one page; light surround"
key F1
await "s['page'] == 'keys'"
shot 5-keys
key Escape
key t
await "s['theme'] == 'light' and s['page'] == 'picture'"
shot 6-light
step "Larger and smaller type"
if [ "$scale" = 1 ]; then
    key plus
    await "s['text_scale'] > 1.2"
    shot 7-larger
    key minus
    await "s['text_scale'] == 1"
fi
all_steps || finish_here
echo "drawn $(value "s['fps']") frames/s, $(value "s['draw_ms']") ms each; captured $(value "s['capture_fps']") frames/s; latency $(value "s['latency_ms']") ms; behind $(value "s['frame'] - s['measured_frame']") frames"
await "s['frame'] - s['measured_frame'] <= 2"
echo "resident after the job: $(resident) MiB"
regions=$(value "s['regions']")
coats=$(value "len(s['coats'])")
step "Left and started again: regions, theme and coats are back, and the first reading comes by itself"
key ctrl+q
wait $window
window=0
start
await "s['verdict'] is not None"
echo "from start to first reading: $((($(date +%s%N) - began) / 1000000)) ms"
require "str(s['regions']) == \"$regions\""
require "s['theme'] == 'light' and len(s['coats']) == $coats"
shot 8-again
step "The display's profile: a file, kept for the next start, until the desktop's is asked for"
key ctrl+q
wait $window
window=0
start --display /usr/share/color/icc/colord/WideGamutRGB.icc
await "s['display'] == 'WideGamutRGB.icc' and s['verdict'] is not None"
shot display-profile
key ctrl+q
wait $window
window=0
start --display desktop --light led:3333 --colourants same
await "s['display'] == 'sRGB (no profile)' and s['light'] == 'led:3333' and s['colourants'] == 'same'"
step "Light that is evened out is said"
key ctrl+q
wait $window
window=0
"$tonemend" practice "$folder/sheet.png" --flat-sheet --width 1920 --height 1080 >/dev/null
start --flat "$folder/sheet.png" --light none --colourants earth
await "s['evened_out'] and s['verdict'] is not None and s['light'] == ''"
shot evened-out
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
finish_here
