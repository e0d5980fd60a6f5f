#!/bin/sh
# The story of the green estate at Lowbarn, told with the real program on a copy of the demo shop. Run by demo/run.
set -eu

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT INT TERM
cp -R "$root/demo/lowbarn" "$place/lowbarn"
rm -rf "$place/lowbarn/.fitlore"
cd "$place/lowbarn"
FITLORE_CACHE=$place/cache FITLORE_TODAY=2026-12-03
export FITLORE_CACHE FITLORE_TODAY

tell() {
    printf '\n'
    printf '%s\n' "$@"
    printf '\n'
}

# A "no" is an answer (exit 1); only "could not" (exit 2) ends the story.
ask() {
    printf '$ fitlore %s\n' "$*"
    code=0
    fitlore "$@" || code=$?
    if [ "$code" -ge 2 ]; then
        exit "$code"
    fi
}

tell 'Lowbarn, Thursday 3 December. Agnes buys and sells, her uncle Tobias fits. The green Tolland estate has to pass on' \
    'Friday the 11th. There is 620.00 in the tin, 40.00 of it kept back, and eighteen hours of hands.'
ask car green

tell 'Both rear wheel cylinders weep. The book says 19.05 mm; but this car has a van'"'"'s axle:'
ask fits rear wheel cylinder

tell 'The Ostra in the yard has a stop-lamp switch for nothing. It goes in by hand.'
ask fits OS 7133 04 in stop lamp switch

tell 'The radiator is green at the bottom. Who else has one?'
ask where radiator

tell 'Fifteen findings, eight suppliers, and Wednesday is the last day for parts:'
ask plan

tell 'What if Tobias can only give seventeen hours?'
ask plan --hours 17

tell 'On the bench the Packet'"'"'s window winder measures the same as the Tolland'"'"'s. Agnes writes it down:'
ask note VP 84 310 R for window winder right, measured --note 'holes, arms and glass end equal on the bench' --yes

tell 'The plan with it:'
ask plan

tell 'Why that cylinder set, from line one?'
ask why 1

tell 'And are the books sound?'
ask check

tell 'The copy of the shop is thrown away again. Yours starts with a folder and a fitlore.yaml.'
