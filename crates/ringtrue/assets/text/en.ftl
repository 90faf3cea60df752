# All words of the bench's pages. A second language is a second file with the same keys.

## Numbers and dates
date-and-time-pattern = %Y-%m-%d %H:%M

## Around every page
skip = To the page
nav = Bench
nav-jobs = Jobs
nav-library = Library
nav-people = People
role-fitter = fitter
role-checker = checker
role-engineer = engineer
role-keeper = keeper
look-theme = Colours
look-theme-system = As this tablet
look-theme-light = Light
look-theme-dark = Dark
look-units = Units
look-units-mm = mm, °C, N
look-units-in = in, °F, lbf
look-set = Use these
lock = Lock now
sign-out = Sign out

## The first person
first-title = The first person
first-says = Nobody is in this store yet. The first person is the keeper: they add everybody else, each with a passphrase of their own. A keeper does no fitting; whoever also fits is added once more under a name for that.
first-make = Make the keeper
first-taken = Somebody was added meanwhile.
first-taken-next = Sign in, or ask the keeper to add you.
first-elsewhere = The first person is made on the machine that the store is on.
first-elsewhere-next = Open the bench there, or use `ringtrue person add`.

## Signing in
sign-in-title = Who is at the bench?
sign-in = Sign in
person-name = Name
passphrase = Passphrase
passphrase-new = Passphrase
passphrase-again = The same again
passphrase-help = Eight characters or more; four words are good. Nobody can look it up.
device = This tablet
device-help = Its name stands in the record beside yours.
device-example = bench 3
enter-wrong = Name and passphrase don't go together.
enter-wrong-next = Type both again. Nobody can look a passphrase up; the keeper can add you anew under another name.
enter-wait = Too many wrong passphrases.
enter-wait-next = { $n ->
    [one] Try again in one second.
   *[other] Try again in { $n } seconds.
}
enter-differ = The two passphrases differ.
enter-differ-next = Type the same one twice.
unlock-title = Locked
unlock-says = { $name } has not touched this tablet for a while. What was typed is kept.
unlock = Unlock
unlock-other = Somebody else

## Jobs
jobs-title = Jobs
jobs-start = Start a job
jobs-which = Which jobs
jobs-open = Open
jobs-held = Held
jobs-done = Done
jobs-search = Search
jobs-find = Find
jobs-none = No job here.
jobs-not-found = No job with “{ $search }”.
page-before = Back
page-after = More
state-open = open
state-held = held
state-signed = signed
state-changed-since-signed = changed since signed

## One job
job-nav = This job
job-progress = Steps done
job-done-of = { $done } of { $due } steps
job-section = Section
job-try = Try a change
job-history = History
job-pdf = PDF
job-export = Export
half = half { $half }
stage-open = Open
stage-identify = Identify
stage-inspect = Inspect
stage-clean = Clean
stage-mount = Mount
stage-chill = Chill
stage-seat = Seat
stage-level = Level
stage-close = Close
stage-prove = Prove
stage-run-in = Run in
stage-sign = Sign
standing-done = done
standing-overridden = passed by decision
standing-due = due
standing-held = held
standing-unsigned = waits for a signature
next-due = Next
next-held = Holds the job
next-unsigned = Waits for a signature
next-done = Next
next-overridden = Next
next-all-done = Everything is done
next-sign = Sign the job
next-nothing = The job is signed.

## A step
caution = Take care
why = Why:
overridden = Passed by an engineer's decision, not by this verdict.

## What went wrong
trouble-title = That did not work
trouble-back = Back
trouble-request-next = Go back and send it again.
trouble-not-found = There is no such page.
trouble-not-found-next = Go back to the jobs.
trouble-method = This address does not take that.
trouble-no-job = There is no job { $id }.
trouble-no-job-next = Look for it among the jobs.
trouble-fault = The program made a mistake.
trouble-fault-next = Nothing was saved. Try again; if it stays, please report it.
trouble-first = Nobody is in this store yet.
trouble-not-signed-in = Nobody is signed in here.
trouble-locked = This session is locked.
trouble-not-signed-in-next = Sign in, then do it again. Nothing was saved.
trouble-role = { $name } is { $role } here, and this is not theirs to do.
trouble-role-next = Somebody who is { $roles } has to do it.
trouble-foreign = This did not come from one of the bench's own pages.
trouble-foreign-next = Load the page again and do it there.
trouble-no-form = A form is wanted here.
trouble-no-json = JSON is wanted here.
trouble-json-next = See /api/openapi.json for what would fit.
trouble-too-large = That is too large.
trouble-too-large-next = Make the photo smaller, or send fewer at once.
trouble-too-many-fields = The form has too many fields.
trouble-overtaken = Somebody else recorded something on this job meanwhile.
trouble-overtaken-next = Nothing was saved. Look at what changed, then do it again.
trouble-key = The key of a request has 1 to 200 letters.
trouble-listeners = Too many pages listen at once.
trouble-busy-next = Wait a moment and try again.
trouble-follow-up = “{ $about }” is no kind of follow-up.
trouble-would-fit = One of these would fit: { $fits }.
trouble-gauge = No gauge { $gauge } is known.
trouble-gauge-next = Bring the gauge into the library first.

## Evidence
verdict = Verdict
record-evidence = What is recorded
record-again = Record it again
record-save = Save
if-any = where there is any
yes = Yes
no = No
uncertainty = Its standard uncertainty, where known
gauge = Gauge
gauge-none = none, or not known
gauge-due = due { $due }
gauge-overdue = OVERDUE since { $due }
reading-places = Places
reading-rounds = Rounds
reading-angle = Angle
reading-round = Round
reading-height = Height
reading-label = Height at { $angle }°, round { $round }
size-name = Size
size-value = Measured
size-u = Standard uncertainty
size-label = { $name }, measured
size-u-label = { $name }, standard uncertainty
readings-file = Or a file with the readings
readings-rows = Readings, one a line: { $header }, each with its unit
settings = What is known besides
setting-none = not stated
setting-default = { $default }, unless stated
given-now = Counts now: { $given }
second-title = Second person
second-name = Name of the second person
second-passphrase = Their passphrase
second-confirm = I have looked
override-title = Pass it by an engineer's decision
override-says = It stands out in the record, on every page and on paper. The verdict stays as it is.
override-why = Why
override-do = Pass the gate
sign-hold-point-says = This is a hold point: your signature covers everything recorded up to here.
sign-hold-point = Sign the hold point

## Starting a job
start-title = Start a job
start-says = A job is kept with its joint: the file, both seals, their materials and the procedure, as they are now.
start-build = Build the joint by a form
start-joint = Joint file
start-files = Files that it names
start-files-help = Seals and materials, all at once.
start-procedure = Procedure
start-procedure-help = Leave it empty for the one that ships for the load ring.
start-do = Open the job
start-no-joint = No joint file was chosen.
start-no-joint-next = Choose the joint's .toml file.
trouble-no-text = { $file } is no text.
trouble-no-text-next = Choose the definition's .toml file, saved in UTF-8.

## People
people-title = People
people-key = key { $key }, added { $added }
people-retired = retired { $retired }
people-retire = Take off
people-retire-says = They record nothing more; what they recorded stands. Their name stays theirs.
people-retire-do = Take { $name } off
people-add = Add a person
people-role = What they may do
people-passphrase = Their passphrase, typed by them
people-add-do = Add
people-no-role = No role was chosen.
people-no-role-next = Choose what the person may do.
people-not-oneself = You can't take yourself off.
people-not-oneself-next = Another keeper has to do it.
role-does-fitter = does the work, records, corrects, signs
role-does-checker = the same, and looks over the work
role-does-engineer = the same, and decides where a gate holds
role-does-keeper = keeps people and the library; does no fitting

## History
kind-opened = opened
kind-recorded = recorded
kind-assessed = judged
kind-corrected = CORRECTION
kind-overridden = OVERRIDE
kind-signed = signed
kind-followed-up = follow-up
history-gauge = Gauge { $gauge }
history-corrected = No longer counts: see event { $by }
history-correct = Correct this
history-hash = Last hash:
correct-title = Correct
correct-of = Correct event { $event }
correct-says = What was recorded stays as it is; your correction stands behind it, and the gate is judged again.
correct-why = What was wrong
correct-right = What is right
correct-do = Correct it

## Signing
sign-title = Signature on the job
sign-says = Your signature covers everything recorded up to here. Who looks the work over signs once more after you.
signed-line = Signed by { $name }, { $role }, { $at }
follow-up-title = What became known later
follow-up-about = About
follow-up-hours = Running hours
follow-up-leak = It leaks
follow-up-removal = It was taken out
follow-up-still-running = It runs, nothing else to say
follow-up-hours-so-far = Running time so far
follow-up-note = In a few words
follow-up-photos = Photos
follow-up-do = Save

## What a deed is refused for
refused-plan = The record was changed: the keeper checks it.
refused-other-kind = Give it as that kind.
refused-nothing-given = The step says what it wants.
refused-words = Say it in a few words.
refused-not-judged = A decision is for a gate that holds.
refused-still-due = Do that step first.
refused-not-waiting = A hold point is signed when its gate is passed.
refused-role = Somebody with that role has to do it.
refused-twice = Give each evidence once.
refused-no-event = The history numbers the events.
refused-not-correctable = What is corrected is a record, a correction, an override or a follow-up.
refused-already-corrected = Correct the later event, if that is wrong too.
refused-no-evidence = Correct it without new evidence, and record what is right.
refused-last-verdict = Look at the last verdict of that step.
refused-no-reason = Say why.
refused-same-person = Another person has to look.
refused-nothing-to-see = Record the work first.
refused-signed = Correct what was recorded in the history, or follow up.
refused-not-signed = Sign the job first.
way-on = Go on.
way-on-due = Do that step first.
way-on-wants = Do that step first; it wants { $names }.
way-on-held = Its verdict is “{ $verdict }”: measure again, correct what was misread, or have an engineer decide.
way-on-unsigned = Sign its hold point first.

## Library
library-none = Nothing yet.
library-kind-seal = Seals
library-kind-joint = Joints
library-kind-gauge = Gauges
library-kind-material = Materials
library-kind-procedure = Procedures
library-kind-squeeze = Sections
library-one-seal = seal
library-one-joint = joint
library-one-gauge = gauge
library-one-material = material
library-one-procedure = procedure
library-one-squeeze = section
library-brought = brought in by { $by }, { $at }
library-bring-in = Bring a definition in
library-says = A file as the command line reads it. A newer edition stands behind the earlier one; jobs keep what they were opened with.
library-file = Definition file (.toml)
library-do = Bring it in
library-leave = Leave it
library-no-file = No file was chosen.
library-download = Download
library-changes = What changes
library-editions = Earlier editions
library-text = As it is written
library-new-edition = A new edition of { $name }
library-new-edition-says = Look at what changes. Jobs that are open keep the edition they were opened with.

## Section and changes
section-title = The load ring as the joint closes
section-says = Computed from the joint's own sizes: what the load ring does between its ramps, and the face load that comes of it, at the contact band's mean diameter. A first slow loading of a new, dry load ring.
section-verdict = Face load over the whole gap tolerance
section-solving = Being computed
section-solved = { $solved } of { $of } halves solved, { $seconds } s
section-again = Look again
section-busy = Many sections wait to be computed.
section-gap = Seal gap
section-wider = Wider
section-closer = Closer
section-frame = Step { $frame } of { $frames }
try-says = Another hardness, section, ramp, friction or gap: its curve is laid over the joint's. Nothing of it touches the job. What is left empty stays as it is.
try-do = Compute
try-hardness = Hardness
try-section = Section diameter
try-ramp = Ramp angle
try-friction = Friction coefficient
try-gap = Seal gap
try-no-slip = no slip
try-gap-now = by the drawing
try-friction-unfit = { $typed } is no coefficient of friction.
try-friction-unfit-next = A number of 0 to 10 would fit.
try-again = It is being computed; press Compute again in a moment.
try-at = At
try-own = This joint
try-changed = Changed
try-smallest = Smallest gap
try-nominal = Nominal gap
try-largest = Largest gap
try-not-reached = not reached

## Building a joint
build-title = Build a joint
build-says = Choose both seals from the library and say how the joint runs. Each value is typed with its unit.
build-name = What the shop calls it
build-machine = Machine
build-seal = Seal of half { $half }
build-choose = choose one
build-no-seal = No seal was chosen for half { $half }.
build-no-seal-next = Choose one; an engineer or the keeper brings seals into the library.
build-attitude = The shaft, while the joint is closed
build-shaft-horizontal = lies
build-shaft-vertical = stands
build-service = How it runs
build-service-speed = Speed
build-service-oil = Fluid, as the material files name it
build-service-oil_grade = Grade of the oil
build-service-temperature_min = Coldest start
build-service-temperature_max = Hottest at the seal
build-service-pressure_difference = Pressure difference
build-gap = Seal gap
build-gap-says = The dimensions that make it, in the order of the drawing: one opens the gap as it grows, another closes it. Limits are wanted where they are narrower than the seals' own.
build-gap-min = Smallest gap
build-gap-max = Largest gap
build-link-name = Dimension
build-link-sign = As it grows, the gap
build-link-nominal = Nominal
build-link-tolerance = Tolerance ±
build-opens = opens
build-closes = closes
