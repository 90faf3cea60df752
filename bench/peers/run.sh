#!/usr/bin/env bash
# The two-cone problem (15 degrees, no slip, 30 steps) on one mesh through ringtrue, CalculiX and
# FElupe, one thread each: times, ratios and forces in one table.
#
#   bench/peers/run.sh              what is installed
#   bench/peers/run.sh --install    first installs CalculiX (apt-get, as root) and FElupe (a virtual
#                                   environment under target/peers)
#
# Each code gets at most 15 minutes. All times are processor seconds of one thread, so that a busy
# machine does not count against any of them; ringtrue's is the mean of five runs.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
work=target/peers
mkdir -p "$work"
python=$work/venv/bin/python

if [[ ${1:-} == --install ]]; then
    command -v ccx >/dev/null || apt-get install -y -qq --no-install-recommends calculix-ccx
    [[ -x $python ]] || python3 -m venv "$work/venv"
    "$work/venv/bin/pip" install --quiet felupe==11.3.0 pypardiso==0.4.7
fi
export OMP_NUM_THREADS=1 MKL_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1

cargo build --release --locked --quiet -p ringtrue-fem --example peers_mesh
TIMEFORMAT='%U %S'
{ time target/release/examples/peers_mesh >"$work/mesh.json"; } 2>"$work/own.txt"
rm -f "$work"/peer-*.json
# A code that is missing or does not come through is left out of the table, and said to be.
peer() {
    local name=$1
    shift
    if ! timeout 900 "$@" >"$work/peer-$name.json" 2>"$work/peer-$name.log"; then
        echo "peers: $name did not come through; see $work/peer-$name.log" >&2
        rm -f "$work/peer-$name.json"
    fi
}
if command -v ccx >/dev/null; then
    peer calculix python3 bench/peers/calculix.py "$work/mesh.json" "$work/calculix"
else
    echo "peers: CalculiX (ccx) is not installed: left out" >&2
fi
if [[ -x $python ]]; then
    peer felupe-pardiso "$python" bench/peers/felupe_cones.py "$work/mesh.json" pardiso
    peer felupe-superlu "$python" bench/peers/felupe_cones.py "$work/mesh.json" superlu
else
    echo "peers: FElupe is not installed: left out" >&2
fi
python3 bench/peers/table.py "$work"
