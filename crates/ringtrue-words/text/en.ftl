# All that ringtrue says. A second language is a second file with the same keys; what it lacks is
# said in English. `ringtrue bench words` writes this file out.
language-tag = en

## Numbers and dates
date-and-time-pattern = %Y-%m-%d %H:%M
date-pattern = %Y-%m-%d
decimal-sign = .
digit-group = { "\u2009" }

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
unlock-says = { $name } is signed in here, and the session is locked. What was typed is kept.
unlock-wrong = This is not the passphrase of { $name }.
unlock-wrong-next = Type it again, or let somebody else sign in.
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
half = half{ "\u00A0" }{ $half }
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
trouble-no-base64 = base64 with padding is wanted
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
trouble-too-slow = What was sent did not come in time.
trouble-too-slow-next = Go nearer to the wireless, or send fewer photos at once, and send it again.
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
recorded = Recorded
record-evidence = What to record
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
reading-lay-out-places = { $n } places
reading-lay-out-rounds = { $n } rounds
reading-lines = Lines
reading-lay-out-lines = { $n } lines
reading-cell = { $column }, line { $n }
reading-column-surface = Surface
reading-column-angle = Angle
reading-column-reading = Reading
reading-column-ra = Ra
reading-column-bend = Bend
reading-column-spacing = Spacing
reading-column-time = Time
reading-column-pressure = Pressure
reading-column-temperature = Temperature
reading-column-gap = Gap
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
settings = What is known besides
setting-none = not stated
setting-wanted = wanted here
setting-default = { $default }, unless stated
ask-back = { $what } is far from what is expected here. Read it again, or save once more to keep it.
asked-back = { $n ->
    [one] One reading is far from what is expected.
   *[other] { $n } readings are far from what is expected.
}
asked-back-next = Nothing is saved yet. Read there again and type what the gauge shows, or save once more to keep it as it is.
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
start-procedure-from = Procedure
start-procedure-shipped = the one that ships for the load ring
start-procedure = Or a procedure's file
start-procedure-help = It goes before the library's and the shipped one.
start-do = Open the job
start-no-joint = No joint file was chosen.
start-no-joint-next = Choose the joint's .toml file.
start-test-apart = the stretch test `{ $file }` stands in a file of its own
start-test-apart-next = send the material with its points in it: `ringtrue fit` writes it so
start-not-sent = the file `{ $file }` is named, and was not sent
start-not-sent-next = send it along with the joint
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
sign-not-yet = It is signed when nothing is left to do.
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
refused-gate-before = “{ $gate }” comes before “{ $step }”.
refused-nothing-for = Nothing is given for “{ $step }”.
refused-not-judged-at = The gate of “{ $step }” does not hold: nothing was judged there.
refused-not-done = “{ $step }” is not done.
refused-not-waiting-at = “{ $step }” does not wait for a signature.
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
section-says = Computed from the joint's own sizes: what the load ring does between ring and housing, and the face load that comes of it, at the contact band's mean diameter. A first slow loading of a new, dry load ring.
section-verdict = Face load over the whole gap tolerance
section-solving = Being computed
section-solved = Halves solved: { $solved } of { $of }, after { $seconds } s
section-again = Look again
section-busy = Many sections wait to be computed.
section-gap = Seal gap
section-load = Face load
section-travel = Travel
section-roll = Roll
section-peak = Largest contact pressure
section-measured = measured: { $gap }
section-wider = Wider
section-closer = Closer
section-frame = Step { $frame } of { $frames }
try-says = Change one or more of these: the curve that comes of it is laid over the joint's. Nothing of it touches the job. What is left empty stays as it is.
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
build-origin-typed = typed when the job was opened
build-example-joint = final drive, left
build-example-shop = Harbour Lane Rebuild Shop
build-example-machine = wheeled carrier 14
build-example-dimension = frame face to bearing seat
build-example-seal = final drive 260-15, frame side
build-example-drawing = HL-2207-11 revision D
build-example-origin = drawing HL-2207-11
build-example-tool = tool HL-T15-262
build-title = Build a joint
build-says = Choose both seals from the library, or type their sizes, and say how the joint runs. Each half is drawn to scale as its numbers change. A bare number is in the unit beside its field; a typed unit goes before it.
build-joint = The joint
build-halves = The two halves
build-halves-says = A size that is left empty stays as the library's seal has it, shown in grey.
build-draw = Draw and check
build-typed-below = none: all sizes are typed below
build-as-a = the same as half a
build-sizes = Sizes of half { $half }
build-changed-name = { $name }, sizes changed
build-unnamed = not named yet
build-not-drawn = Drawn here as soon as ring, load ring and housing make a section.
build-not-together = Both halves are drawn together here as soon as each of them makes a section.
build-missing = This is still wanted.
build-not-yet = { $n ->
    [one] One field does not fit yet.
   *[other] { $n } fields do not fit yet.
}
build-not-yet-next = Each says what would fit. Nothing that was typed is lost.
build-seal = Seal of half { $half }
build-seal-help = A seal of the library, by its name.
build-choose = choose one
build-no-seal = No seal was chosen for half { $half }.
build-no-seal-next = Choose one, or type its sizes; an engineer or the keeper brings seals into the library.
build-shaft-horizontal = lies
build-shaft-vertical = stands
build-opens = opens
build-closes = closes
build-allowed = allowed
build-not-allowed = not allowed
build-link = Dimension { $number }
build-service = How it runs
build-gap = Seal gap
build-gap-says = The dimensions that make it, in the order of the drawing: one opens the gap as it grows, another closes it. Each has one tolerance: ±, or both deviations, or an ISO 286 class.
build-of-parts = Parts
build-of-ring = Lapped ring
build-of-toric = Toric
build-of-washer = Conical washer
build-of-more-limits = Limits of the other checks
build-load-ring = Load ring
build-load-ring-help = It decides which sizes are asked for. Without script, draw once after choosing.
build-load-ring-as-chosen = as the seal chosen above; else a toric
build-toric = toric
build-conical-washer = conical washer
build-corners-says = Corners of the washer's free section, counter-clockwise, the radius drawn to the right and the distance into the housing upwards. Rows that stay empty are none.
build-corner = Corner { $number }
build-corner-radius = Radius
build-corner-radius-help = From the seal axis.
build-corner-axial = Distance
build-corner-axial-help = Into the housing, from the edge on the ring.
build-of-housing = Housing
build-of-limits = Limits
build-of-fitting = Fitting and tool
build-name = Name
build-name-help = What the shop calls it.
build-shop = Shop
build-shop-help = Whose bench it is on; it stands at the head of the paper.
build-machine = Machine
build-machine-help = The machine that the joint belongs to.
build-attitude = The shaft, while the joint is closed
build-attitude-help = It decides how the halves are brought together.
build-service-speed = Speed
build-service-speed-help = One half against the other.
build-service-oil = Fluid
build-service-oil-help = As the material files name it.
build-service-oil-grade = Grade of the oil
build-service-oil-grade-help = Its viscosity grade or designation.
build-service-temperature-min = Coldest start
build-service-temperature-min-help = Lowest temperature at which it starts.
build-service-temperature-max = Hottest at the seal
build-service-temperature-max-help = Highest temperature at the seal.
build-service-pressure-difference = Pressure difference
build-service-pressure-difference-help = Across the seal.
build-gap-limits-min = Smallest gap
build-gap-limits-min-help = Where it is narrower than the seals' own limit.
build-gap-limits-max = Largest gap
build-gap-limits-max-help = Where it is narrower than the seals' own limit.
build-gap-shims-on-hand = Shims on hand
build-gap-shims-on-hand-help = Thicknesses, one entry a piece, a semicolon between them.
build-link-name = Dimension
build-link-name-help = What it is, as on the drawing.
build-link-sign = As it grows, the gap
build-link-sign-help = A dimension of the housings opens it, one between them closes it.
build-link-nominal = Nominal
build-link-nominal-help = Its size on the drawing.
build-link-plus-minus = Tolerance ±
build-link-plus-minus-help = The same to both sides.
build-link-upper = Upper deviation
build-link-upper-help = With its sign; together with the lower one.
build-link-lower = Lower deviation
build-link-lower-help = With its sign; together with the upper one.
build-link-class = ISO 286 class
build-link-class-help = With the letter h, H, js or JS.
build-identity-drawing = Drawing
build-identity-drawing-help = Number and revision.
build-identity-ring-batch = Batch of the ring
build-identity-ring-batch-help = Batch or heat number.
build-identity-load-ring-batch = Batch of the load ring
build-identity-load-ring-batch-help = As on its bag.
build-identity-load-ring-cured = Day the load ring was cured
build-identity-load-ring-cured-help = Year-month-day. Rubber ages on the shelf.
build-ring-face-outer-diameter = Lapped face, outside
build-ring-face-outer-diameter-help = Outside diameter of the lapped face.
build-ring-face-inner-diameter = Lapped face, inside
build-ring-face-inner-diameter-help = Inside diameter of the lapped face.
build-ring-contact-band-outer-diameter = Contact band, outside
build-ring-contact-band-outer-diameter-help = Outside diameter of the band on which it runs.
build-ring-contact-band-inner-diameter = Contact band, inside
build-ring-contact-band-inner-diameter-help = Inside diameter of the band on which it runs.
build-ring-measuring-diameter = Measuring circle
build-ring-measuring-diameter-help = Diameter on which the assembled height is read; else the middle of the face.
build-ring-ramp-angle = Ring ramp, angle
build-ring-ramp-angle-help = Angle of its cone to the seal axis.
build-ring-ramp-diameter = Ring ramp, diameter
build-ring-ramp-diameter-help = Diameter of its cone where the mounted toric touches it.
build-ring-ramp-plane-from-face = Ring ramp, distance
build-ring-ramp-plane-from-face-help = Axial distance of that circle from the lapped face.
build-ring-face-hardness = Face hardness
build-ring-face-hardness-help = Hardness of the lapped face.
build-ring-mass = Mass
build-ring-mass-help = Mass of the ring.
build-load-ring-toric-section-diameter = Section
build-load-ring-toric-section-diameter-help = Diameter of the free round section.
build-load-ring-toric-inside-diameter = Inside diameter
build-load-ring-toric-inside-diameter-help = Free, as delivered.
build-load-ring-toric-material = Material
build-load-ring-toric-material-help = Its ISO 1629 code, such as NBR.
build-load-ring-toric-hardness = Hardness
build-load-ring-toric-hardness-help = As on its certificate.
build-load-ring-conical-washer-material = Material
build-load-ring-conical-washer-material-help = Its ISO 1629 code, such as NBR, or steel.
build-load-ring-conical-washer-hardness = Hardness
build-load-ring-conical-washer-hardness-help = As on its certificate; this, or the modulus.
build-load-ring-conical-washer-modulus = Modulus
build-load-ring-conical-washer-modulus-help = Measured Young's modulus at small strain; this, or the hardness.
build-load-ring-conical-washer-modulus-standard-uncertainty = Uncertainty of the modulus
build-load-ring-conical-washer-modulus-standard-uncertainty-help = Its standard uncertainty, where known.
build-load-ring-conical-washer-yield-strength = Yield strength
build-load-ring-conical-washer-yield-strength-help = Of steel, from its certificate; without it, the washer is not judged for taking a set.
build-load-ring-conical-washer-ring-seat-from-face = Seat on the ring
build-load-ring-conical-washer-ring-seat-from-face-help = Axial distance of the ring's shoulder from the lapped face.
build-load-ring-conical-washer-housing-seat-from-face = Seat in the housing
build-load-ring-conical-washer-housing-seat-from-face-help = Axial distance of its seat from the housing face.
build-load-ring-conical-washer-corner-radius = Radius of its corners
build-load-ring-conical-washer-corner-radius-help = Sharp where it is left out.
build-housing-depth = Depth
build-housing-depth-help = Depth of the bore from the housing face.
build-housing-face-outer-diameter = Housing face, outside
build-housing-face-outer-diameter-help = Its edge may touch first when a half is tipped.
build-housing-ramp-angle = Housing ramp, angle
build-housing-ramp-angle-help = Angle of its cone to the seal axis.
build-housing-ramp-diameter = Housing ramp, diameter
build-housing-ramp-diameter-help = Diameter of its cone at the distance below.
build-housing-ramp-plane-from-face = Housing ramp, distance
build-housing-ramp-plane-from-face-help = Axial distance of that diameter from the housing face.
build-housing-lip-diameter = Retaining lip, diameter
build-housing-lip-diameter-help = Smallest diameter that the load ring must pass.
build-housing-lip-height = Retaining lip, height
build-housing-lip-height-help = Axial height of the lip from the housing face.
build-housing-lip-edge-radius = Retaining lip, radius
build-housing-lip-edge-radius-help = Radius of its nose; half its height where it is left out.
build-limits-seal-gap-min = Smallest gap
build-limits-seal-gap-min-help = Housing face to housing face, closed.
build-limits-seal-gap-max = Largest gap
build-limits-seal-gap-max-help = Housing face to housing face, closed.
build-limits-face-load-min = Least face load
build-limits-face-load-min-help = Per length at the contact band's mean diameter.
build-limits-face-load-max = Most face load
build-limits-face-load-max-help = Per length at the contact band's mean diameter.
build-limits-assembled-height-min = Least assembled height
build-limits-assembled-height-min-help = Mean round the ring; positive when the face stands proud.
build-limits-assembled-height-max = Most assembled height
build-limits-assembled-height-max-help = Mean round the ring; positive when the face stands proud.
build-limits-height-range-max = Most height range
build-limits-height-range-max-help = Highest minus lowest assembled height round the ring.
build-limits-origin = Where these limits come from
build-limits-origin-help = Drawing, job sheet, or common practice without a source; for all limits that are typed here.
build-limits-ramp-finish-ra-max = Ramp finish Ra
build-limits-ramp-finish-ra-max-help = Roughest that either ramp may be.
build-limits-free-height-min = Least free height
build-limits-free-height-min-help = Of the conical washer as it lies, from edge to edge.
build-limits-free-height-max = Largest free height
build-limits-free-height-max-help = Of the conical washer as it lies, from edge to edge.
build-limits-face-flatness-max = Face flatness
build-limits-face-flatness-max-help = Deviation of the lapped face, peak to valley.
build-limits-eccentricity-max = Eccentricity
build-limits-eccentricity-max-help = Distance of the axes of the two halves.
build-limits-tip-max = Tip
build-limits-tip-max-help = Of a half while it is lowered.
build-limits-speed-max = Sliding speed
build-limits-speed-max-help = At the contact band's mean diameter.
build-limits-temperature-min = Lowest temperature
build-limits-temperature-min-help = At the seal.
build-limits-temperature-max = Highest temperature
build-limits-temperature-max-help = At the seal.
build-limits-pressure-difference-max = Pressure difference
build-limits-pressure-difference-max-help = Across the seal.
build-limits-toric-stretch-min = Least stretch
build-limits-toric-stretch-min-help = Of the toric on the ring, on its inside diameter.
build-limits-toric-stretch-max = Most stretch
build-limits-toric-stretch-max-help = Of the toric on the ring, on its inside diameter.
build-limits-ramp-angle-difference-max = Ramp angles apart
build-limits-ramp-angle-difference-max-help = How far a ramp angle may be from the one it works with.
build-limits-tool-diameter-difference-max = Tool diameter off
build-limits-tool-diameter-difference-max-help = How far the tool's diameter may be from the circle it bears on.
build-fitting-hand-force = Push by hand
build-fitting-hand-force-help = What two hands give; 200 N where it is left out (common practice, no source).
build-fitting-tool-force = Push by tool
build-fitting-tool-force-help = What tool and mallet give; 1000 N where it is left out (common practice, no source).
build-fitting-pressed-up-to = Pressed in up to
build-fitting-pressed-up-to-help = Lapped-face diameter up to which it is pressed in at once; above, it is worked in round.
build-fitting-chilling = Chilling of the load ring
build-fitting-chilling-help = Follow the seal maker's instruction.
build-fitting-most-tries = Most tries
build-fitting-most-tries-help = Tries before parts are replaced.
build-fitting-cleaning-agent = Cleaning agent
build-fitting-cleaning-agent-help = As the material files name it; none where parts go in dry.
build-tool-name = Installing tool
build-tool-name-help = What the shop calls it.
build-tool-ramp-angle = Tool, ramp angle
build-tool-ramp-angle-help = As marked on the tool.
build-tool-diameter = Tool, diameter
build-tool-diameter-help = Of the circle on which it bears on the load ring.
# --- What scripts say -------------------------------------------------------------------------
live-ask-back = { $what } is far from what is expected here. Read it again, or press Enter once more to keep it.
live-away = The bench does not answer. What you typed stays on this tablet.
live-back = The bench answers again.
live-before = As last recorded
live-drawn-at = From the readings so far, nothing is saved yet
live-frame = { $n } of { $of }
live-locked = Locked. What you typed is kept.
live-new-readings = Look at what changed, then save again.
live-next-place = Measure here next
live-not-drawn = The ring is drawn as soon as enough places are read.
live-not-saved = Not yet saved
live-others = { $who } recorded: { $what }
live-pause = Stop
live-passphrase = Passphrase
live-play = Play
live-reload = Show the job as it is now
live-restored = What you typed here before is back. It is not yet saved.
live-saving = Saving
live-slider = Seal gap
live-solved = The sections are solved.
live-unlock = Unlock
live-waits = Not yet saved: it goes up by itself as soon as the bench answers.

## Readings: what does not fit in a file of them
reading-this-not-zip-file = this is not a zip file
reading-x3p-file-zip-with-main-xml = an X3P file is a zip with `main.xml`
reading-file-holds-parts = the file holds { $parts } parts
reading-x3p-file-holds-handful = an X3P file holds a handful
reading-there-no-main-xml-in = there is no `main.xml` in it
reading-x3p-file-has-one = an X3P file has one
reading-point-trace-missing = point { $point } of the trace is missing
reading-trace-again-where-stylus-or-light = trace again where the stylus or the light lost the surface
reading-x-axis-has-no-increment = the x axis has no increment
reading-one-in-metres = one in metres
reading-cant-be-unpacked = `{ $name }` can't be unpacked
reading-copy-file-again-damaged = copy the file again: it is damaged
reading-unpacks-more-than-bytes = `{ $name }` unpacks to more than { $bytes } bytes
reading-profile-has-at-most-points = a profile has at most { $points } points
reading-md5-sum-does-not-agree = the MD5 sum of `{ $name }` does not agree
reading-copy-file-again-damaged-or-was = copy the file again: it is damaged or was changed
reading-main-xml-no-well-formed-xml = `main.xml` is no well-formed XML
reading-number-is = `{ $what }` is `{ $typed }`
reading-finite-number-wanted = a finite number is wanted
reading-revision = the revision is `{ $revision }`
reading-iso5436-2000-iso25178-72-2017-dam1 = `ISO5436 - 2000` and `ISO25178-72:2017/DAM1` are read
reading-feature-type = the feature type is `{ $feature }`
reading-profile-prf-wanted-not-map-or = a profile (`PRF`) is wanted, not a map or a point cloud
reading-x-axis-not-incremental = the x axis is not incremental
reading-evenly-spaced-points-wanted = evenly spaced points are wanted
reading-trace-of-so-many-points = a trace of { $points } points
reading-three-to-most-points = 3 to { $most } points are wanted
reading-points-where-file-says = { $found } points where the file says { $stated }
reading-there-no-in = there is no `{ $name }` in it
reading-copy-file-again = copy the file again
reading-heights-data-type = heights of data type `{ $kind }`
reading-data-types-would-fit = I, L, F or D would fit
reading-points-trace-missing = { $points } points of the trace are missing
reading-trace-again-where-surface-was-lost = trace again where the surface was lost
reading-file-has-seconds-time = the file has `seconds` and `time`
reading-file-says-nothing-time = the file says nothing of the time
reading-one-column-two-wanted-seconds-or = one column of the two is wanted: `seconds`, or `time` with a unit
reading-no-later-than-reading-before = `{ $time }` is no later than the reading before it
reading-readings-in-order-time-wanted = readings in the order of time are wanted
reading-not-number-round = `{ $typed }` is not the number of a round
reading-round-one-to-most = 1 to { $most } would fit
reading-this-place-also-read-on-line = this place is also read on line { $line }
reading-one-reading-place-round-wanted = one reading a place and round is wanted
reading-place-that-read-more-than-once = a place that is read more than once needs a column `round`
reading-columns-stretch-strain-percent-both-there = the columns `stretch` and `strain_percent` are both there, or neither is
reading-one-two-stress-mpa = one of the two, and `stress_MPa`
reading-no-number = `{ $typed }` is no number
reading-stretch-plain-number-such-as-1 = a stretch is a plain number, such as 1.25
reading-columns-do-not-say-how-bands = the columns do not say how the bands were read
reading-beside-angle-deg-stand-bend-mm = beside `angle_deg` stand `bend_mm` and `spacing_mm`, or `bands`, or `order`
reading-one-reading-line-wanted = one reading a line is wanted
reading-bands-or-length-wanted-such-as = bands or a length are wanted, such as `2 bands` or `0.6 um`; not `{ $typed }`
reading-sweep-has-four-readings-at-least = a sweep has four readings at least, one a line
reading-file-holds-no-reading = the file holds no reading
reading-no-surface-that-swept = `{ $typed }` is no surface that is swept
reading-rim-bore-or-face-would-fit = `rim`, `bore` or `face` would fit
reading-names-no-half = `{ $typed }` names no half
reading-half-a-or-b-would-fit = `a` or `b` would fit
reading-columns-neither-trace-nor-values-one = the columns are neither a trace nor values of one parameter
reading-z-um-with-x-mm-or = `z_um` with `x_mm`, or one of `ra_um`, `rq_um`, `rz_um`, `rt_um`
reading-trace-of-few-points = a trace of { $points } points
reading-trace-has-some-thousand-points-one = a trace has some thousand points, one a line
reading-file-has-column-x-step-given = the file has a column `x` and a step is given besides
reading-one-both-wanted = one of both is wanted
reading-file-does-not-say-how-far = the file does not say how far its points stand from each other
reading-column-x-mm-or-step-beside = a column `x_mm`, or the step beside the file, is wanted
reading-this-point-does-not-stand-at = this point does not stand at an even step from the others
reading-points-at-one-step-from-each = points at one step from each other, x growing, are wanted
reading-starts-with-no-parameter = `{ $typed }` starts with no parameter
reading-ra-rq-rz-or-rt-comes = Ra, Rq, Rz or Rt comes first, such as `Ra 0.8 um`
reading-chain-has-one-link-at-least = a chain has one link at least, one a line
reading-file-holds-no-link = the file holds no link
reading-not-sign = `{ $typed }` is not a sign
reading-opens-gap-closes = `+` opens the gap, `-` closes it
reading-upper-deviation-below-lower = the upper deviation `{ $upper }` is below the lower
reading-deviations-signed-upper-above-lower = deviations are signed: upper above lower
reading-not-known-distribution = `{ $typed }` is not a known distribution
reading-normal-uniform-or-triangular-would-fit = normal, uniform or triangular would fit
reading-uncertainty-below-zero = the uncertainty `{ $uncertainty }` is below zero
reading-standard-uncertainty-zero-or-more-fits = a standard uncertainty of zero or more fits
reading-link-has-no-name = a link has no name
reading-name-own-wanted = a name of its own is wanted
reading-link-stands-also-on-line = link `{ $link }` stands also on line { $line }
reading-each-link-has-name-own = each link has a name of its own

## Readings: what does not fit in a table of them
reading-table-file-holds-bytes = the file holds { $bytes } bytes
reading-table-readings-file-at-most-bytes-wanted = a readings file of at most { $bytes } bytes is wanted
reading-table-file-holds-no-header = the file holds no header
reading-table-at-most-rows-read = at most { $rows } rows are read
reading-table-one-row-more = one row more
reading-table-column-stands-twice = column `{ $column }` stands twice
reading-table-once-enough = once is enough
reading-table-there-no-column = there is no column { $column }
reading-table-ends-in-no-unit-known-for = `{ $column }` ends in no unit known for it
reading-table-would-fit = `{ $column }_{ $unit }` would fit
reading-table-column-has-no-name = a column has no name
reading-table-column-not-known-here = column `{ $column }` is not known here
reading-table-cells-under-columns = { $cells } cells under { $columns } columns
reading-table-one-cell-column-wanted-decimal-comma = one cell a column is wanted; a decimal comma needs columns parted by `;`
reading-table-one-cell-column-wanted = one cell a column is wanted
reading-table-column-with-unit = `{ $column }_{ $unit }` (or `{ $column }`)
reading-table-columns = the columns are { $required }
reading-table-there-may-be = there may be { $optional }
reading-table-columns-there-may-be = the columns are { $required }; there may be { $optional }
reading-table-this-not-table-text = this is not a table of text
reading-table-csv-text-in-utf-8-wanted = a CSV text in UTF-8 is wanted, a header and one reading a line

## The questions, and their titles
question-seating = Seating
question-chilling = Chilling
question-alignment = Alignment
question-closing = Closing
question-parts-that-belong-together = Parts that belong together
question-assembled-height = Assembled height
question-seal-gap = Seal gap
question-face-load = Face load
question-leak-test = Leak test
question-cleaning-wetting-agent = Cleaning and wetting agent
question-ramp-finish = Ramp finish
question-face-flatness = Face flatness
question-rubber-law = Rubber law
question-do-parts-belong-together = Do the parts belong together?
question-ring-square-in-housing-at-right = Is the ring square in its housing, and at the right height?
question-will-seal-gap-be-inside-limits = Will the seal gap be inside its limits?
question-do-faces-press-together-as-they = Do the faces press together as they should, over the whole gap?
question-what-does-take-seat-load-ring = What does it take to seat the load ring, and does it stand it?
question-may-this-toric-be-chilled-what = May this toric be chilled, what does it give, and when is it warm again?
question-leak-within-limit-could-this-test = Is the leak within its limit, and could this test have seen it?
question-may-this-agent-touch-this-toric = May this agent touch this toric, and is its vapour harmless here?
question-two-housings-concentric-square-each-other = Are the two housings concentric and square to each other?
question-ramp-smooth-enough-rough-enough-hold = Is the ramp smooth enough, and rough enough to hold the toric?
question-lapped-face-flat = Is the lapped face flat?
question-gap-closed-joint-inside-limits-all = Is the gap of the closed joint inside its limits all round?
question-which-constants-does-this-rubbers-law = Which constants does this rubber's law have, and does it hold?

## Alignment of the housings: what may be stated
check-alignment-limit = Largest distance of the axes, in place of the file's
check-alignment-tip-limit = Largest angle of the axes, in place of the file's
check-alignment-face-diameter = Diameter of the face sweep, where the readings do not state it
check-alignment-housing-diameter = Outside diameter of the housing face, whose edge may touch first when a half is tipped; the seal's file where it is left out
check-alignment-plus = Which way the indicator counts up: as the plunger goes in, or out
check-alignment-sag = What the bracket sags: the reading at the bottom of a rigid pipe swept from outside, zero at its top
check-alignment-top = Angle of the top, for the sag
check-alignment-uncertainty = Standard uncertainty of one reading, the part that differs from reading to reading
check-alignment-moves = Which half can be moved; the one that is swept where it is left out

## Seating: what may be stated, and what does not fit
check-seating-dry = Friction coefficient of the dry load ring; where it is left out 0.8 for rubber, 0.15 for steel
check-seating-wet = The same, wetted with the cleaning agent; where it is left out 0.3 for rubber
check-seating-friction-uncertainty = Standard uncertainty of the one that counts; where it is left out that of a third of the coefficient either way
check-seating-free-height = Height of the free conical washer as measured on a flat plate: is it the drawn one?
check-seating-free-height-uncertainty = Standard uncertainty of that height; its last digit where it is left out
check-seating-no-friction-coefficient = `{ $typed }` is no friction coefficient
check-seating-number-from-zero-wanted = a number from 0 to { $most } is wanted
check-seating-no-files = seating is computed from the seal's file: leave it out
check-seating-half-not-named = the half is not named
check-seating-name-one-halfs-seal = name one half's seal
check-seating-uncertainty-without-height = `{ $uncertainty }` is stated without `{ $height }`
check-seating-state-height-too-or-leave-both = state the height too, or leave both out

## Chilling: what may be stated, and what does not fit
check-chilling-medium = What it is cooled in: a closed freezer, air that a fan moves, or a stirred cold liquid that the rubber stands
check-chilling-cold = Temperature of the medium
check-chilling-room = Temperature of the room
check-chilling-humidity = Relative humidity of the room's air
check-chilling-air-speed = Speed of moving air at the toric
check-chilling-coefficient = Heat transfer coefficient in the medium, in place of the computed one
check-chilling-room-coefficient = Heat transfer coefficient in the room's air, in place of the computed one
check-chilling-in-cold = Time that it lay in the cold: has it shrunk?
check-chilling-since = Time since it came out of the cold: is it warm again?
check-chilling-no-files = chilling is computed from what is stated: leave it out
check-chilling-toric-not-described = the toric is not described
check-chilling-name-one-halfs-seal = name one half's seal
check-chilling-leave-air-speed-out-or-state = leave `air-speed` out, or state the medium as moving-air
check-chilling-only-moving-air-has-air-speed = only moving air has an air speed

## Light bands: what may be stated, and what does not fit
check-flatness-bend = One bend, without a file; positive where the band's ends bend towards the line of contact
check-flatness-spacing = Spacing of the bands, beside one bend
check-flatness-closed = Number of closed bands from the middle to the edge, without a file
check-flatness-pressed = Where closed bands moved when the edge was pressed
check-flatness-source = The light
check-flatness-wavelength = Its wavelength, in place of a named light
check-flatness-view = Angle of view from the normal
check-flatness-limit = Largest flatness deviation: "2 bands" or "0.6 um"; the seal file's where it is left out
check-flatness-uncertainty = Standard uncertainty of one reading: "0.1 bands", or of a measured bend "0.5 mm"
check-flatness-file-readings-says-already = a file of readings says it already
check-flatness-belongs-closed-bands = it belongs to closed bands
check-flatness-belongs-one-bend = it belongs to one bend
check-flatness-nothing-was-read = nothing was read
check-flatness-give-file-bend-or-closed-bands = give a file, a bend or closed bands
check-flatness-bands-given-in-two-ways = the bands are given in two ways
check-flatness-file-or-bend-or-closed-bands = a file, or a bend, or closed bands

## Agents: what may be stated, and what does not fit
check-agents-known-and-near = did you mean `{ $near }`? known are { $names }
check-agents-agent = A generic substance, such as isopropyl-alcohol
check-agents-bay = Volume of the bay, such as "60 m3"
check-agents-air-changes = Air changes an hour
check-agents-amount = Liquid that is used, all of which evaporates, such as "30 ml"
check-agents-room = Temperature of the shop
check-agents-depth = Depth of the housing that it dries in; without it that of the seal's file, or a usual one
check-agents-since = Time since the last wetting: has it gone?
check-agents-no-agent-known-here = `{ $typed }` is no agent known here
check-agents-known = known are { $names }
check-agents-no-files = an agent is judged by its figures: leave it out
check-agents-rubber-not-named = the rubber is not named
check-agents-name-material = name its material
check-agents-load-ring-steel = the load ring is of steel
check-agents-agent-judged-against-rubber = an agent is judged against rubber
check-agents-state-bay-air-changes-amount-or = state `bay`, `air-changes` and `amount`, or none of them
check-agents-use-stated-in-part = the use is stated in part

## Ramp finish: what may be stated, and what does not fit
check-roughness-limit = The limit as the drawing writes it: "Ra 0.8 um", "Rz max 6.3 um", "Ra 0.4 um..3.2 um"
check-roughness-edition = By which standards: ISO 4287 and 4288, or ISO 21920
check-roughness-rule = How many values may break the limit; the edition's own rule where it is left out
check-roughness-cut-off = Cut-off of the filter, in place of the table's
check-roughness-feed = Feed of a turned surface: the cut-off by the table of periodic profiles
check-roughness-filtered = The trace is a roughness profile already: no filter
check-roughness-step = Distance from point to point, where the file has no column x
check-roughness-uncertainty = Standard uncertainty of the instrument: "3 %" of the value, or "0.02 um"
check-roughness-no-trace-no-values-given = no trace and no values are given
check-roughness-name-file-them = name a file of them
check-roughness-both-stated = `{ $one }` and `{ $other }` are both stated
check-roughness-one-them-decides-filter = one of them decides the filter

## Closing: what may be stated, and what does not fit
check-closing-bolts = Number of bolts, evenly round: their order
check-closing-steps = Equal steps in which they are drawn
check-closing-limit = Gap limits in place of the joint's: "2.1 mm..3.1 mm"
check-closing-diameter = Diameter on which the feelers went in: the tilt as an angle; the smaller housing face's where it is left out and a file states it
check-closing-uncertainty = Standard uncertainty of one reading
check-closing-no-count = `{ $typed }` is no count
check-closing-whole-number-wanted = a whole number is wanted

## Leak test: what may be stated, and what does not fit
check-leak-pressure = What the pressures are measured from: the atmosphere (gauge), or nothing (absolute)
check-leak-volume = Volume of the test space, such as "3.2 l"
check-leak-volume-uncertainty = Standard uncertainty of that volume; its last digit where it is left out
check-leak-limit = Largest leak rate that conforms, such as "0.001 Pa m3/s" or "0.5 sccm"
check-leak-atmosphere = The atmosphere, read on a barometer that is not reduced to sea level
check-leak-pressure-resolution = Resolution of the pressure gauge; the last digit written down where it is left out
check-leak-temperature-resolution = Resolution of the thermometer; the last digit written down where it is left out
check-leak-temperature-uncertainty = Standard uncertainty of how well the thermometer follows the gas
check-leak-give = Volume by which the load rings may still give while the test runs
check-leak-bubbles = Bubbles that were counted, 0 for none
check-leak-by = How the bubbles were looked for: the part under water, or a film of bubble liquid
check-leak-bubble-diameter = Diameter of the bubbles; 2 to 4 mm where it is left out
check-leak-soak = What a soak with oil showed: no wet trace, or one
check-leak-over = How long bubbles were counted, or a soak was left
check-leak-wanted = How long the shop asks for a soak to stay dry
check-leak-no-count = `{ $typed }` is no count
check-leak-whole-number-wanted = a whole number is wanted, 0 for none
check-leak-belongs-readings-pressure-no-file-them = it belongs to readings of the pressure, and no file of them is given
check-leak-belongs-soak = it belongs to a soak
check-leak-soak-dry-or-wet-gives-no = a soak is dry or wet and gives no rate
check-leak-give-file-readings-bubbles-that-were = give a file of readings, bubbles that were counted, or a soak
check-leak-nothing-was-seen = nothing was seen
check-leak-bubbles-soak-both-stated = `bubbles` and `soak` are both stated
check-leak-make-two-checks = make two checks
check-leak-file-pressure-readings-given-leave-out = a file of pressure readings is given: leave it out

## All checks: settings and files that do not fit
check-no-text = `{ $file }` is no text
check-csv-file-wanted = a .csv file is wanted
check-files-given = { $files } files are given
check-one-file-readings-wanted = one file of readings is wanted
check-no-readings-given = no readings are given
check-name-file-readings-csv = name a file of readings (.csv)
check-readings-file-given = a readings file is given
check-word-not-known-here = `{ $typed }` is not known here
check-one-of-these-wanted = one of { $words } is wanted
check-no-setting-this-check = `{ $setting }` is no setting of this check
check-has-these-settings = it has { $settings }
check-stated-twice = `{ $setting }` is stated twice
check-state-once = state it once
check-setting-is-stated = `{ $setting }` is stated
check-setting-is-missing = `{ $setting }` is missing
check-state-the-setting = state it: `--{ $setting }`

## What a question can't be judged on
evidence-this-seal-has-conical-washer = this seal has a conical washer
evidence-chilling-does-nothing-useful-for-only = chilling does nothing useful for it: only a toric is computed
evidence-no-figures-at-hand-for-material = no figures are at hand for the material `{ $material }`
evidence-one-or-material-file-ending-in = one of { $codes }, or a material file ending in .toml
evidence-there-no-limit-judge-finish-by = there is no limit to judge the finish by
evidence-state-one-such-as-ra-0 = state one such as `Ra 0.8 um`, or `limits.ramp_finish_ra` in the seal
evidence-values-and-limit-of-two-parameters = the values are { $values } and the limit is { $limit }
evidence-values-limit-one-parameter-wanted = values and limit of one parameter are wanted
evidence-traces-typed-values-mixed = traces and typed values are mixed
evidence-give-traces-or-values = give traces, or values
evidence-link-deviations = link `{ $link }`: { $error }
evidence-write-upper-lower-in-place = write `upper` and `lower` in its place
evidence-seal-gap-has-no-limit-on = the seal gap has no limit on both sides
evidence-give-limits-seal-gap-in-seals = give `limits.seal_gap` in the seals or `gap.limits` in the joint
evidence-chain-has-no-link = the chain has no link `{ $link }`
evidence-its-links-are = its links are { $links }

## Why a step falls away
procedure-rule-load-ring-is-conical-washer = the load ring is a conical washer
procedure-rule-load-ring-is-toric = the load ring is a toric
procedure-rule-no-retaining-lip = the housing has no retaining lip
procedure-rule-no-limit-of-face-load = the seal limits no face load
procedure-rule-each-half = half a: { $of_a }; half b: { $of_b }
procedure-rule-load-ring-rubber = the load ring is of rubber
procedure-rule-load-ring-material = the load ring is of { $material }
procedure-rule-seals-file-does-not-allow-chilling = the seal's file does not allow chilling
procedure-rule-seal-goes-in-dry-without-agent = the seal goes in dry, without an agent
procedure-rule-shaft-lies-while-joint-closed = the shaft lies while the joint is closed
procedure-rule-shaft-stands-while-joint-closed = the shaft stands while the joint is closed
procedure-rule-face-pressed-in-up-only = the face is { $face } and is pressed in up to { $size } only
procedure-rule-face-pressed-in-up = the face is { $face } and is pressed in up to { $size }
procedure-rule-seals-file-names-no-size-above = the seal's file names no size above which it is worked in

## A job: what its events say, its verdicts and its paper
job-follow-up-at = { $kind ->
    [leak] follow-up, leak at { $hours }
    [removal] follow-up, removal at { $hours }
    [still-running] follow-up, still-running at { $hours }
   *[hours] follow-up, hours at { $hours }
}
job-readings-from-definition = the joint's definition
job-readings-as-stated = as stated
job-step-on-half = { $step } (half { $half })
job-readings-of-event = { $origin }, event { $event }
job-given-done = done
job-given-yes = yes
job-given-no = NO
job-given-typed = typed
job-a-tick = a tick
job-a-value = a value
job-a-photo = a photo
job-a-text = a text
job-input-joint = joint
job-input-procedure = procedure
job-procedure-for-another-load-ring = { $load_ring ->
    [toric] procedure `{ $procedure }` is for a toric, and half { $half } has another load ring
   *[conical-washer] procedure `{ $procedure }` is for a conical-washer, and half { $half } has another load ring
}
job-procedure-for-another-load-ring-next = name a procedure that is for it: `--procedure FILE`
job-photo-too-large = `{ $file }` is larger than { $most } MiB
job-photo-too-large-next = make a smaller picture of it
job-record-refused = job { $job }, event { $event }: { $why }
job-record-refused-next = the record was changed: `ringtrue job verify`
job-this-fault-program-please-report = this is a fault of the program: please report it
job-what-takes-finite-elements-not-solved = what takes finite elements is not solved here
job-ask-for = ask for it
job-face-load-drawn-otherwise = The face load of the record, event { $event }, was worked out by version { $then }; the pages of this report show what version { $now } gives, which differs by more than the error band. What was recorded stands.
job-check-on-both-halves = { $check }, both halves
job-check-on-half = { $check }, half { $half }
job-material-half = material, half { $half }
job-readings-half = readings, half { $half }
job-limit-of-half = half { $half }: { $limit }
job-opened-for = opened for { $title }
job-assessed = { $place }, judged. { $summary }
job-corrected-event = CORRECTED event { $event }: { $why }
job-corrected-event-now = CORRECTED event { $event }: { $why }. Now { $now }
job-overridden = OVERRIDDEN gate { $place }, verdict of event { $verdict }: { $why }
job-signed-hold-point = signed hold point { $place }
job-signed-job = signed the job
job-follow-up = { $kind ->
    [leak] follow-up, leak
    [removal] follow-up, removal
    [still-running] follow-up, still-running
   *[hours] follow-up, hours
}
job-from = from { $origin }
job-seen-by-second-person = seen by a second person
job-more-rows = { $shown }; … and { $more } more rows
job-bytes = { $bytes } bytes
job-set-readings = a set of readings
job-second-person = a second person
job-these-readings-judged-by-themselves = these readings are judged by themselves
job-one-file-them-nothing-stated-beside = one file of them, and nothing stated beside it, is wanted
job-values-against-their-limits = Values against their limits: { $verdict }
job-what-was-be-seen-done = What was to be seen and done: { $verdict }
job-answered-no = Answered no: { $names }; { $verdict }
job-joints-definition-states-no-such-limit = the joint's definition states no such limit
job-limits-two-halves-contradict-each-other = the limits of the two halves contradict each other
job-uncertainty-this-value-not-known-name = the uncertainty of this value is not known: name the gauge or state it
job-not-standard-uncertainty = `{ $typed }` is not a standard uncertainty
job-zero-or-more-that-temperature-given = it is zero or more; that of a temperature is given in K

## What to do about a refusal: the store's on pages too, the others on the command line
refusal-name-store-that-meant-person-add = name the store that is meant; `person add` makes one where there is none
refusal-check-path-who-may-read = check the path and who may read it
refusal-name-store-or-path-that-free = name a store, or a path that is free
refusal-use-newer-program = use the newer program
refusal-nothing-was-written-wait-until-done = nothing was written; wait until it is done and try again
refusal-nothing-was-written-make-room-try = nothing was written; make room and try again
refusal-nothing-was-written-give-yourself-leave = nothing was written; give yourself leave to write it
refusal-nothing-was-written-look-after-disk = nothing was written; look after the disk and try again
refusal-keep-file-as-go-on-from = keep the file as it is, and go on from the last backup: `ringtrue store restore`
refusal-nothing-was-written-look-at-job = nothing was written; look at the job and do it again
refusal-ringtrue-job-list-names-jobs = `ringtrue job list` names the jobs
refusal-try-again = try again
refusal-name-stands-for-one-person-for = a name stands for one person for good: choose another
refusal-ask-keeper-add-you = ask the keeper to add you
refusal-ringtrue-person-list-names-people = `ringtrue person list` names the people
refusal-nothing-was-taken-in-find-out = nothing was taken in; find out which of the two was changed
refusal-give-each-request-key-own = give each request a key of its own
refusal-nothing-overwritten-name-another-file = nothing is overwritten: name another file
refusal-name-1-80-printable-characters-wanted = a name of 1 to 80 printable characters is wanted
refusal-at-least-characters-wanted-four-words = at least { $characters } characters are wanted; four words are good
refusal-type-again-nobody-can-look-up = type it again; nobody can look it up
refusal-use-store-in-which-person-was = use the store in which the person was added
refusal-go-on-from-last-backup-store = go on from the last backup of the store
refusal-steps-this-job = the steps of this job are { $steps }
refusal-asks-for-nothing-record-without-evidence = it asks for nothing: record it without evidence
refusal-asks-for = it asks for { $names }
refusal-give-as-that-kind = give it as that kind
refusal-ringtrue-job-next-says-what-wanted = `ringtrue job next` says what is wanted
refusal-say-in-few-words = say it in a few words
refusal-override-for-gate-that-holds = an override is for a gate that holds
refusal-ringtrue-job-next-says-what-lacks = `ringtrue job next` says what it lacks
refusal-hold-point-signed-when-gate-passed = a hold point is signed when its gate is passed
refusal-go-on = go on
refusal-record-that-step-first = record that step first
refusal-record-that-step-first-wants = record that step first; it wants { $names }
refusal-verdict-measure-again-job-record-correct = its verdict is `{ $verdict }`: measure again (`job record`), correct what was misread (`job correct`), or have an engineer decide (`job override`)
refusal-sign-hold-point-ringtrue-job-sign = sign its hold point: `ringtrue job sign`
refusal-ringtrue-job-verify-says-whether-record = `ringtrue job verify` says whether the record is whole
refusal-somebody-else-recorded-meanwhile-look-at = somebody else recorded meanwhile: look at the job and do it again
refusal-somebody-with-that-role-has-do = somebody with that role has to do it
refusal-give-each-evidence-once = give each evidence once
refusal-ringtrue-job-show-numbers-events = `ringtrue job show` numbers the events
refusal-what-corrected-record-correction-override-or = what is corrected is a record, a correction, an override or a follow-up
refusal-correct-later-event-if-that-wrong = correct the later event, if that is wrong too
refusal-correct-without-new-evidence-record-what = correct it without new evidence, and record what is right
refusal-look-at-jobs-last-verdicts = look at the job's last verdicts
refusal-say-why-why-text = say why: `--why TEXT`
refusal-another-person-has-look = another person has to look
refusal-record-work-first = record the work first
refusal-job-correct-job-follow-up-come = `job correct` and `job follow-up` come after a signature
refusal-sign-job-first-ringtrue-job-sign = sign the job first: `ringtrue job sign`

## Job: why an event can't follow what stands before it
refusal-role-engineer = an engineer
refusal-role-who-works = a fitter, checker or engineer
refusal-opening = a job is opened once, with its first event
refusal-other-job = it belongs to job { $job }
refusal-sequence = it is numbered { $number }, and { $next } is next
refusal-role = { $name } is { $role } here, and this is for { $wanted }
refusal-given-twice = `{ $name }` is given twice
refusal-no-event = there is no event { $event } before it
refusal-not-correctable = { $kind ->
    [opened] event { $event } is opened, which is not corrected by an event of its own
    [recorded] event { $event } is recorded, which is not corrected by an event of its own
    [assessed] event { $event } is assessed, which is not corrected by an event of its own
    [corrected] event { $event } is corrected, which is not corrected by an event of its own
    [overridden] event { $event } is overridden, which is not corrected by an event of its own
    [signed] event { $event } is signed, which is not corrected by an event of its own
   *[followed-up] event { $event } is followed-up, which is not corrected by an event of its own
}
refusal-already-corrected = event { $event } was corrected by event { $by }
refusal-no-evidence = event { $event } holds no evidence that other evidence could replace
refusal-not-the-last-verdict = event { $event } is not the last verdict on { $place }
refusal-conforms = the gate { $gate } conforms: there is nothing to override
refusal-no-reason = a reason is wanted
refusal-covers = the signature covers another history than the one before it
refusal-same-person = { $name } did the work here: the second person is another one
refusal-nothing-to-see = there is nothing yet that a second person could look at
refusal-signed = the job is signed: correct what was recorded, or follow up
refusal-not-signed = a follow-up comes after the job is signed

## Job: why a deed is refused
refusal-no-step = there is no step { $place } in this job
refusal-gate-before = the gate { $gate } comes before { $place }
refusal-not-asked = step { $place } asks for no `{ $name }`
refusal-other-kind = `{ $name }` of step { $place } is { $kind }
refusal-nothing-given = nothing is given for step { $place }
refusal-words = `{ $name }` is empty or longer than { $most } characters
refusal-not-judged = the gate of { $place } does not hold: nothing was judged there
refusal-still-due = step { $place } is not done
refusal-not-waiting = { $place } does not wait for a signature

## Job: why its definitions can't be used
job-plan-missing = { $kind ->
    [joint] the joint that the job names is not kept with it
    [material] the material that the job names is not kept with it
    [procedure] the procedure that the job names is not kept with it
    [gauge] the gauge that the job names is not kept with it
   *[agents] the list of agents that the job names is not kept with it
}
job-plan-unread = { $kind ->
    [joint] the joint kept with the job can't be read: { $error }
    [material] the material kept with the job can't be read: { $error }
    [procedure] the procedure kept with the job can't be read: { $error }
    [gauge] the gauge kept with the job can't be read: { $error }
   *[agents] the list of agents kept with the job can't be read: { $error }
}
job-plan-seal-elsewhere = the joint kept with the job names a seal file, and holds no seal
job-plan-not-written = the joint can't be written down with its seals ({ $error })

## People: why a key can't be used
refusal-person-name = `{ $name }` is no name for a person
refusal-person-short-passphrase = the passphrase has { $characters } characters
refusal-person-passphrase = the passphrase does not open the key of { $name }
refusal-person-no-key = the key of { $name } is not in this store
refusal-person-damaged = the stored key of { $name } can't be opened: its entry is damaged

## The store: why it could not be used
store-last-event-missing = the last event of { $job } is not there
store-file-missing = the file { $file } is not there
store-event-unread = event { $event } of job { $job } can't be read
store-person-without-key = { $name } has no key to keep
store-person-unread = the entry of { $name } can't be read
store-no-such-version = its version is { $version }
store-missing = there is no store at { $path }
store-cannot-open = the store { $path } can't be opened ({ $why })
store-not-a-store = { $path } is no store of ringtrue
store-newer = the store has version { $found }, and this program reads up to { $newest }
store-busy = another program is writing to the store
store-full = the disk is full
store-read-only = the store may not be written
store-disk = the disk can't be read or written ({ $why })
store-damaged = the store is damaged ({ $why })
store-overtaken = job { $job } has { $found } events and not { $expected }: somebody else recorded meanwhile
store-no-job = there is no job { $job }
store-job-exists = there is a job { $job } already
store-person-exists = there is a person named { $name } already
store-not-first = there are people in this store already
store-no-person = there is no person named { $name }
store-other-history = job { $job } is here with another history from event { $event } on
store-refused = job { $job }, event { $event }: { $why }
store-other-request = the key `{ $key }` stands for another request
store-exists = { $path } is there already
