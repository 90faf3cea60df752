#!/usr/bin/env bash
# How long a store of many jobs takes to list, show and verify, and 500 kills while recording. The
# jobs have the events, definitions and photos of a real one: that of examples/job.sh.
#
#   bench/record.sh
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

cargo build --release --locked -p ringtrue
cargo build --release --locked -p ringtrue-store --examples
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export RINGTRUE=$PWD/target/release/ringtrue
examples/job.sh toric "$folder/pattern" >/dev/null
target/release/examples/many_jobs 10000 60 "$folder/record.db" "$folder/pattern/job.json"

# The same from the command line, the program's start taken in: the middle of eleven runs.
middle() {
    for _ in $(seq 11); do
        local start=$EPOCHREALTIME
        "$RINGTRUE" "$@" --store "$folder/record.db" >/dev/null
        echo $(((${EPOCHREALTIME/./} - ${start/./}) / 1000))
    done | sort -n | sed -n 6p
}
echo "ringtrue job list         $(middle job list) ms"
echo "ringtrue job show J-05000 $(middle job show J-05000) ms"
echo "ringtrue job next J-05000 $(middle job next J-05000) ms"

target/release/examples/kill_many 500
