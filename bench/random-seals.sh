#!/usr/bin/env bash
# Face loads of 200 random seals: how many run to the end unaided, how long the slowest takes, and
# whether a finer run shows every jump. The ordinary tests run the first 40 of the same row.
#
#   bench/random-seals.sh [COUNT]
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
RINGTRUE_RANDOM_SEALS="${1:-200}" \
    cargo test --locked -p ringtrue-seal --test it random_seals -- --nocapture </dev/null
