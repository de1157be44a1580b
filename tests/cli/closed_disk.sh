#!/usr/bin/env bash
# A full disk and a folder that is closed to writing, real ones: a small file system in memory of the test's own.
# usage: closed_disk.sh TONEMEND SAMPLES
set -euo pipefail
tonemend=$1 samples=$2
if [ "${CLOSED_DISK_INSIDE:-}" = "" ]; then
    exec env CLOSED_DISK_INSIDE=yes unshare -rm "$0" "$@"
fi
folder=$(mktemp -d)
trap 'umount "$folder" 2>/dev/null || true; rmdir "$folder"' EXIT
mount -t tmpfs -o size=9m tmpfs "$folder"
fail() { echo "FAILED: $*"; exit 1; }
store=$folder/jobs.sqlite
keep() {
    "$tonemend" compare "$samples/seat-first-coat.jpg" --original 250,691,389,389 --repair 883,704,389,389 --card six-step-card \
        --job seat --store "$store" --tolerance "$1"
}
kept=0
# Another tolerance each time, so that the annotated picture is another too.
for i in 1 2 3 4 5 6 7 8 9; do
    if keep "$i" >/dev/null 2>/tmp/closed-disk-said.$$; then kept=$((kept + 1)); else break; fi
done
said=$(cat /tmp/closed-disk-said.$$; rm -f /tmp/closed-disk-said.$$)
echo "kept $kept, then: $said"
[ "$kept" -ge 1 ] && [ "$kept" -lt 9 ] || fail "the disk was to be full after a few"
grep -qE 'disk is full|free space|room' <<<"$said" || fail "not said that the disk is full"
[ "$(wc -l <<<"$said")" = 1 ] || fail "more than one line"
"$tonemend" job verify --store "$store" | grep -q 'all whole' || fail "not whole"
[ "$("$tonemend" job show seat --store "$store" | grep -c 'ΔE2000')" = "$kept" ] || fail "not as many as were kept"
mount -o remount,ro "$folder"
keep 5 >"/tmp/closed-disk-out.$$" 2>"/tmp/closed-disk-said.$$" && fail "kept where nothing can be written"
said=$(cat /tmp/closed-disk-said.$$) out=$(cat /tmp/closed-disk-out.$$)
rm -f /tmp/closed-disk-said.$$ /tmp/closed-disk-out.$$
echo "closed: $said"
grep -q 'cannot be' <<<"$said" || fail "not said that it cannot be written"
grep -q 'ΔE2000' <<<"$out" || fail "the reading in hand was not printed"
"$tonemend" job show seat --store "$store" | grep -q 'ΔE2000' || fail "not readable any more"
echo "full and closed disks lose nothing"
