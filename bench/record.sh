#!/usr/bin/env bash
# How long a store of many jobs takes to list, show and verify, and 500 kills while recording.
#
#   bench/record.sh
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

cargo build --release --locked -p ringtrue-store --examples
store=$(mktemp -d)
trap 'rm -rf "$store"' EXIT
target/release/examples/many_jobs 10000 60 "$store/record.db"
target/release/examples/kill_many 500
