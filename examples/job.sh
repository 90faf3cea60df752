#!/usr/bin/env bash
# A whole job on the bench, from the first person in the store to the check of its PDF: with a
# toric (the final drive), a toric that is chilled (the dough mixer) or a conical washer (the mixer
# shaft). Everything goes through the command line.
#
#   examples/job.sh toric|chilled-toric|conical-washer FOLDER
#
# FOLDER takes the store, the PDF and the rest; RINGTRUE names the program where it is not on the
# path. The joints, the people and what they measure are invented.
set -euo pipefail

kind=$1
folder=$2
program=${RINGTRUE:-ringtrue}
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)

mkdir -p "$folder"
cd "$folder"
export RINGTRUE_STORE=record.db RINGTRUE_DEVICE="bench 3"

# --- People -----------------------------------------------------------------------------------
# Each has a passphrase of their own. Here a file holds them, as a script would have it; at the
# bench the program asks. `as NAME ...` does something as that person, the passphrase on
# descriptor 3.
declare -A passphrase=(
    [Kim]="oak table lamp kettle" [Fay]="river stone coat nine"
    [Cam]="seven green bottles ok" [Eli]="a long way to the yard"
)
as() {
    local name=$1
    shift
    "$program" "$@" --person "$name" --passphrase-fd 3 3<<<"${passphrase[$name]}"
}

# The first one needs nobody's leave; from then on the keeper adds people: the keeper's passphrase
# on the first line, the new person's on the second.
"$program" person add Kim --role keeper --passphrase-fd 3 3<<<"${passphrase[Kim]}"
for person in "Fay fitter" "Cam checker" "Eli engineer"; do
    read -r name role <<<"$person"
    "$program" person add "$name" --role "$role" --person Kim \
        --passphrase-fd 3 3<<<"${passphrase[Kim]}"$'\n'"${passphrase[$name]}"
done
"$program" person list

# Pictures that stand for photos.
photos=$here/final-drive

# --- The job ----------------------------------------------------------------------------------
case $kind in
toric) ring=toric joint=$here/final-drive gauge=$here/final-drive/depth-gauge.toml ;;
chilled-toric) ring=toric joint=$here/dough-mixer gauge=$here/dough-mixer/depth-gauge.toml ;;
conical-washer) ring=washer joint=$here/mixer-shaft gauge=$here/mixer-shaft/caliper.toml ;;
*) echo "job.sh: toric, chilled-toric or conical-washer" >&2 && exit 2 ;;
esac

job=$(as Fay job new "$joint/joint.toml" --json | sed -n 's/^  "job": "\(.*\)",$/\1/p')
"$program" job next "$job"

# Files and options of a check are those of its own command: `ringtrue agent`, `align`, `leak` ...
checks=$here/checks
agent=(--agent isopropyl-alcohol --bay "60 m3" --air-changes 4 --amount "30 ml")
cold=(--medium still-air --cold "-25 degC" --room "20 degC" --humidity "45 %")

record() { as Fay job record "$job" "$@"; }
second() { as Cam job record "$job" "$@" --second; }
sign() { as "$1" job sign "$job"; }

# Open: make safe, drain, read the old seal before anything is washed.
record make-safe --tick locked-out --tick pressure-off
record first-photo --photo "as-found=$photos/as-found.jpg" \
    --text "leak-story=weeps since the last wash-down"
record drain --value "drained=7.4 l" --text "oil-look=grey, no water"
record part-halves --tick marked
record look-for-burnt-rubber --tick no-burnt-rubber
record read-old-seal --photo "old-faces=$photos/old-face.jpg" \
    --text "old-seal-reading=band even, 2 mm wide, bright"
record lay-out-kit --tick agent-and-wipes --tick oil-covered --tick tool-there \
    --text "gauge=see the gauge file"

# Identify: the first gate compares the joint's own definitions.
record match-parts --text "marks-read=rings and load rings as on the drawing"
record new-or-used --text "rings-chosen=new, both"
case $ring in
toric) record choose-tool --text "tool-marks=15 deg" --tick tool-fits ;;
washer) record choose-tool --text "tool-marks=washer tool" --tick tool-clears-face ;;
esac
# A file of a compound leaves open whether there is fluorine in it: the step is rather done.
if [[ $kind == chilled-toric ]]; then record keep-heat-away --tick everybody-told; fi

case $kind in
chilled-toric) ramp=("238.9 mm" "239.0 mm" "24.0 mm") finish=ramp-trace.x3p ;;
*) ramp=("274.5 mm" "274.6 mm" "28.0 mm") finish=ramp-values.csv ;;
esac

# Inspect: each half, up to the hold point that its housing may carry a seal.
for half in a b; do
    record look-at-ring --half $half --tick ring-sound
    record face-flatness --half $half --readings "$checks/bands.csv" --uncertainty "0.3 mm"
    if [[ $ring == toric ]]; then
        record look-at-toric --half $half --tick toric-sound
        record measure-housing --half $half --value "ramp-angle=15.0 deg" \
            --value "ramp-diameter-1=${ramp[0]}" --value "ramp-diameter-2=${ramp[1]}" \
            --value "depth=${ramp[2]}" \
            --text "instruments=bore gauge BG-2"
        record check-lip --half $half --tick lip-smooth
        record bearing-play --half $half --tick bearing-right
        record ramp-finish --half $half --readings "housing-finish=$checks/$finish" \
            --row "ring-finish=0.9 um" --row "ring-finish=1.1 um" --uncertainty "3 %" \
            --text "roughness-gauge=RG-1, 0.8 mm"
    else
        record look-at-rubber-washer --half $half --tick washer-sound
        record measure-free-height --half $half --value "free-height-lowest=0.200 in" \
            --value "free-height-highest=0.203 in" --gauge "$gauge" --tick height-in-sheet
        record measure-housing --half $half --value "seat-diameter-1=6.9 in" \
            --value "seat-diameter-2=6.9 in" --value "seat-depth=0.45 in" \
            --text "instruments=caliper CAL-3"
        record bearing-play --half $half --tick bearing-right
    fi
    record accept-housing --half $half --tick seats-clean --tick sizes-right
    sign Fay
done

# Clean, mount, seat, level: one half after the other, up to the hold point of its height.
for half in a b; do
    record choose-agent --half $half "${agent[@]}"
    record clean-sealing-places --half $half --tick wipe-stays-white \
        --text "agent=isopropyl alcohol"
    # What seats the load ring: from the seal's file, with the usual friction.
    case $ring in
    washer)
        record plan-seating --half $half --tick as-in-file --free-height "0.2015 in" \
            --free-height-uncertainty "0.0015 in"
        ;;
    *) record plan-seating --half $half --tick as-in-file ;;
    esac
    if [[ $ring == toric ]]; then
        record mount-toric --half $half --tick against-stop
        record take-out-twist --half $half --tick parting-line-straight
        if [[ $kind == chilled-toric ]]; then
            record chill-toric --half $half "${cold[@]}" --in-cold "150 min" \
                --text "method=freezer, closed bag" --tick no-frost
        fi
        record wet-toric --half $half --tick wet-all-round "${agent[@]}"
        record press-in --half $half --tick pressed-once
        record look-all-round --half $half --tick even-all-round
        if [[ $kind == chilled-toric ]]; then
            # Too early at first: the gate holds until the core is warm again.
            if [[ $half == a ]]; then
                record re-warm --half a "${cold[@]}" --since "40 min" \
                    --value "surface-temperature=17 degC"
                "$program" job next "$job"
            fi
            record re-warm --half $half "${cold[@]}" --since "4 h" \
                --value "surface-temperature=20 degC"
        fi
        record level-the-ring --half $half --text "tries=one"
    else
        record right-way-round --half $half --tick open-side
        record edge-down-on-ring --half $half --tick inner-edge-down
        record wet-edges --half $half --tick wet-all-round "${agent[@]}"
        record seat-rubber --half $half --tick outer-edge-down
        record look-all-round --half $half --tick edges-down
        record seat-again --half $half --text "tries=one"
    fi
    case $kind-$half in
    toric-b)
        # The first reading of half b: cocked. The gate holds, and nothing of this half
        # goes on.
        record height --half b --readings "$joint/heights-b-try-1.csv" --gauge "$gauge"
        "$program" job next "$job"
        # Levelled and read again.
        record height --half b --readings "$joint/heights-b-try-2.csv" --gauge "$gauge"
        ;;
    conical-washer-b)
        # A caliper is not good enough to prove this one; the engineer knows the joint,
        # and decides.
        record height --half b --readings "$joint/heights-b.csv" --gauge "$gauge"
        as Eli job override "$job" height --half b \
            --why "caliper only; the depth micrometer is away, the washer sits down all round"
        ;;
    *) record height --half $half --readings "$joint/heights-$half.csv" --gauge "$gauge" ;;
    esac
    sign Fay
done

# Close: the gap from measured sizes, a second person beside it, and the hold points of gap and
# faces.
if [[ $ring == toric ]]; then
    record measure-stack --readings "$joint/measured.csv" --gauge "$gauge" --text "shims=none"
else
    record measure-stack --row "flange face to thrust collar,4.125 in,0.0005 in" \
        --row "packing plate,0.250 in,0.0005 in" \
        --row "sleeve shoulder to housing face,4.215 in,0.0005 in" --gauge "$gauge" \
        --text "shims=none"
fi
second measure-stack
sign Fay
# The face load over that gap, worked out from the load rings; its gate rests on the sizes.
record face-load --tick load-read
record dry-out "${agent[@]}" --room "19 degC" --since "50 min"
record wipe-faces --tick face-a-clean --tick face-b-clean
sign Fay
record oil-faces --tick film-on-faces
record line-up --readings "$checks/sweeps.csv" --gauge "$checks/indicator.toml" --sag "-0.04 mm"
if [[ $kind == toric ]]; then
    record draw-together --tick closed-square --bolts 12
else
    # The shaft stands: one half is lowered on the other. A value that a limit stands against is
    # given with its uncertainty.
    record lower-level --value "tip=0.2 deg" --uncertainty "tip=0.05 deg" --bolts 12
fi
case $ring in
toric) closed="2.63 mm" wrong="4.63 mm" near="2.61 mm" ;;
washer) closed="0.161 in" wrong="0.261 in" near="0.159 in" ;;
esac
record tighten --value "torque=120 N m" --text "steps=three, crosswise"

# A slip: one digit misread. What was recorded stays; the correction stands behind it, and the
# gate is judged again.
others=(--row "90 deg,$near" --row "180 deg,$near" --row "270 deg,$closed")
event=$(record gap-closed --row "0 deg,$wrong" "${others[@]}" --gauge "$gauge" --json |
    sed -n 's/^      "event": \([0-9]*\),$/\1/p' | head -1)
as Cam job correct "$job" "$event" --why "first digit misread on the gauge; read again by Cam" \
    --row "0 deg,$closed" "${others[@]}" --gauge "$gauge"
sign Fay

# Prove: first turn, pressure, leak test with its second person and hold point, fill, run-in.
record first-turn --tick smooth
record test-pressure --value "set-pressure=0.2 bar" --uncertainty "set-pressure=0.01 bar" \
    --text "pressure-gauge=PG-4, 5 mbar"
record leak-test --readings "$checks/leak-readings.csv" --pressure gauge --volume "3.20 l" \
    --limit "0.001 Pa m3/s" --atmosphere "101.3 kPa"
second leak-test
sign Fay
record fill --value "filled=7.9 l" --text "oil=as on the job sheet" --tick vent-clear
record run-in --value "run-time=30 min" --value "temperature=54 degC" \
    --uncertainty "temperature=1 K"
record look-after-run --tick dry-outside --tick level-right \
    --photo "after-run=$photos/after-run.jpg"

# Sign: the fitter and then the checker, over everything before.
record hand-over --tick counted --text "old-parts=shelf 4" \
    --photo "first-day=$photos/after-run.jpg" --text "looked-at-again=after 50 h" \
    --text "handed-to=yard"
second hand-over
sign Fay
sign Cam

# Later: what became known.
as Fay job follow-up "$job" hours --hours "50 h" --note "dry, level right"

# --- What can be shown ------------------------------------------------------------------------
"$program" job list
"$program" job show "$job"
as Kim checkpoint -o checkpoint.json
"$program" job report "$job" -o job.pdf
"$program" job export "$job" -o job.json

# Everything is checked again: the store against the checkpoint, every verdict from its inputs;
# and the two files by themselves, without a store.
"$program" job verify --all --recompute --against checkpoint.json
RINGTRUE_STORE=/nowhere "$program" job verify job.json --recompute
RINGTRUE_STORE=/nowhere "$program" job verify job.pdf --against checkpoint.json
