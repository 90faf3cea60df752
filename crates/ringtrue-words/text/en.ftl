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
overridden-by = { $name }, { $at }: { $why }
overridden = Passed by an engineer's decision, not by this verdict.
step-solving = What the report says of this step is being worked out.

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
reading-cell-named = Line { $n }, { $column }
reading-word-rim = Rim
reading-word-bore = Bore
reading-word-face = Face
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
value-limit = limit: { $limit }
value-drawn = drawing: { $size }
value-drawn-at = { $size }, { $plane } from the housing face
step-not-yet = Not due yet: “{ $gate }” comes before it. Nothing is saved here until then.
step-still-wanted = Still wanted here: { $asks }.
setting-none = not stated
setting-wanted = wanted here
setting-measured = measured in this job: { $values }
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
refused-typed-line = Line { $n } of what was typed: { $found }.
refused-gate-before = “{ $gate }” comes before “{ $step }”.
refused-nothing-for = Nothing is given for “{ $step }”.
refused-not-judged-at = The gate of “{ $step }” does not hold: nothing was judged there.
refused-not-done = “{ $step }” is not done.
refused-not-waiting-at = “{ $step }” does not wait for a signature.
refused-nothing-given = The step says what it wants.
refused-empty-file = choose the photo again
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
section-measured = by the sizes, measured where read: { $gap }
section-feelers = by the feelers: { $gap }
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
try-verdict = Over the gap limits

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
build-limits-tip-max = Tip of the halves to each other
build-limits-tip-max-help = Largest angle of their axes: while a half is lowered, and as the housings stand when they are lined up.
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
live-not-read = { $what } can't be read. Type a number: alone it is in { $unit }, another unit goes behind it.
live-not-saved = Not yet saved
live-others = { $who } recorded: { $what }
live-pause = Stop
live-passphrase = Passphrase
live-play = Play
live-reload = Show the job as it is now
live-restored = What you typed here before is back. It is not yet saved.
live-saving = Saving
live-slider = Seal gap
live-solving = What decides this step is being worked out. It is saved as soon as that is done.
live-solving-parts = { $n } of { $of } parts
live-solved = It is worked out.
live-unlock = Unlock
live-waits = Not yet saved: it goes up by itself as soon as the bench answers.

## Agents: what is compared, found and fits; drying; their figures
agents-gone-at-once-often-before-load-ring = gone at once, often before the load ring is in
agents-thin-wet-film-gone-within-minutes = a thin wet film is gone within minutes; wait until it is dry
agents-stays-wet-for-long-wait-until = stays wet for long; wait until it is dry
agents-does-not-evaporate-or-nothing-at = does not evaporate, or nothing is at hand on it
agents-shop-at-degc = a shop at { $room } degC
agents-30-60-degc-would-fit = -30 to 60 degC would fit
agents-time-since-last-wetting-s = the time since the last wetting is { $time } s
agents-time-zero-or-more-would-fit = a time of zero or more would fit, below three years
agents-housing-mm-deep = a housing { $depth } mm deep
agents-0-1-1000-mm-would-fit = 0.1 to 1000 mm would fit
agents-bay-m3 = a bay of { $volume } m3
agents-0-1-1000000-m3-would-fit = 0.1 to 1000000 m3 would fit
agents-air-changes-hour = { $changes } air changes an hour
agents-0-1000-hour-would-fit = 0 to 1000 an hour would fit
agents-amount-ml = an amount of { $amount } ml
agents-above-zero-below-hundredth-bay = above zero and below a hundredth of the bay
agents-film-on-load-ring = film on the load ring
agents-no-film-may-stay = no film may stay
agents-is-made-from-petroleum = it is made from petroleum, which swells many rubbers
agents-is-free-of-petroleum = it is free of petroleum
agents-petroleum-on-load-ring = petroleum on the load ring
agents-fits-free-of-petroleum = free of petroleum
agents-long-immersion = long immersion
agents-good-or-excellent-where-lies-in = good or excellent where it lies in it
agents-short-wipe = short wipe
agents-fair-or-better-for-short-contact = fair or better for a short contact
agents-nothing-at-hand-on-in = nothing is at hand on { $material } in { $agent }
agents-compounds-data-sheet-decides = the compound's data sheet decides
agents-rated-from-to = { $worst } to { $best }
agents-in-under-long-immersion = { $material } in { $agent }: { $rating } under long immersion
agents-gives-off-no-vapour = { $agent } gives off no vapour to speak of
agents-no-figures-of-vapour = how much vapour { $agent } gives off is not known here
agents-data-sheet-says = the safety data sheet says
agents-nothing-to-keep-to = nothing to keep to
agents-vapour-in-bay = vapour in the bay
agents-vapour-against-25-lower-explosive-limit = vapour against 25 % of the lower explosive limit
agents-vapour-against-eight-hour-exposure-limit = vapour against the eight-hour exposure limit
agents-vapour-against-fifteen-minute-exposure-limit = vapour against the fifteen-minute exposure limit
agents-vapour-against-danger-life-or-health = vapour against danger to life or health
agents-take-from-safety-data-sheet = take it from the safety data sheet
agents-no-limit-at-hand = no limit is at hand
agents-ppm-mixed-well-and-badly = { $mixed } ppm well mixed, up to { $worst } ppm where air mixes badly
agents-at-most-ppm = at most { $limit } ppm
agents-at-most-ppm-use-less-or = at most { $limit } ppm: use less, or move more air
agents-molar-mass-g-mol = molar mass, g/mol
agents-density-kg-m3 = density, kg/m3
agents-boiling-point-degc = boiling point, degC
agents-vapour-pressure-at-20-degc-pa = vapour pressure at 20 degC, Pa
agents-diffusion-in-air-at-25-degc = diffusion in air at 25 degC, m2/s
agents-flash-point-degc = flash point, degC
agents-lower-explosive-limit = lower explosive limit, %
agents-upper-explosive-limit = upper explosive limit, %
agents-eight-hour-exposure-limit-ppm = eight-hour exposure limit, ppm
agents-eight-hour-exposure-limit-mg-m3 = eight-hour exposure limit, mg/m3
agents-fifteen-minute-exposure-limit-ppm = fifteen-minute exposure limit, ppm
agents-fifteen-minute-exposure-limit-mg-m3 = fifteen-minute exposure limit, mg/m3
agents-danger-life-or-health-ppm = danger to life or health, ppm
agents-caution = Read the safety data sheet of the bottle at hand first; it stands before this page, as do local codes. No sparks, flames, heaters or hot parts near; small wetted wipes, can closed, air moving. Never speed drying with a flame or a heat gun.
agents-liquid-over-opening = liquid over the opening
agents-way-through-still-air = way through still air
agents-diffusion-coefficient-times = diffusion coefficient, times
agents-vapour-pressure-at-cooled-surface-times = vapour pressure at the cooled surface, times
agents-time-since-last-wetting = time since the last wetting
agents-no-figures-at-hand-on-how = { $waited }; no figures are at hand on how fast { $agent } goes
agents-look-feel-that-ring-seats-dry = look and feel that load ring and seats are dry, or take an agent that is known
agents-as-likely-as-not-has-left = { $waited }; as likely as not it has left after { $likely }, almost surely after { $surely }
agents-at-least = at least { $time }
agents-at-least-leave-open-wait-on = at least { $time }: leave it open and wait on; warm moving air shortens it, never a flame or a heat gun
agents-list-agents-as-this-program-ships = a list of agents as this program ships it

## Readings round a ring
around-no-hole-wider = no hole of more than { $widest } deg may be left unread

## Alignment: why a sweep is refused, what to do
align-eccentricity-limit-mm = an eccentricity limit of { $limit } mm
align-limit-above-zero-wanted = a limit above zero is wanted
align-tip-limit-deg = a tip limit of { $limit } deg
align-standard-uncertainty-below-zero = a standard uncertainty below zero
align-standard-uncertainty-zero-or-more-wanted = a standard uncertainty of zero or more is wanted
align-sag-stated-twice-with-readings-beside = sag is stated twice, with the readings and beside them
align-state-once = state it once
align-sweep-again-after-each-correction-shim = Sweep again after each correction: a shim moves the axis and the angle.
align-sweep-does-not-come-back-same = The sweep does not come back to the same reading here: tighten the bracket, clean the surface, and sweep again.
align-there-limit-for-eccentricity-no-rim = There is a limit for the eccentricity and no rim or bore was swept: sweep one.
align-there-limit-for-angle-no-face = There is a limit for the angle and no face was swept: sweep it.
align-there-nothing-judge-by-name-seal = There is nothing to judge by: name the seal or joint file, or state the limits.
align-nothing-known-indicators-uncertainty-name-ga = Nothing is known of the indicator's uncertainty: name the gauge, or sweep eight places or more.
align-uncertainty-covers-limit-sweep-more-places = The uncertainty covers the limit: sweep more places, or with a finer indicator.
align-two-housings-not-on-one-axis = The two housings are not on one axis.
align-housing-not-on-axis-that-indicator = The housing is not on the axis that the indicator turns on.
align-faces-not-square-each-other-stand = The faces are not square to each other and stand nearest here; the amount is that across the swept diameter, so shims further out need more in proportion.
align-surface-out-round-by-more-than = The surface is out of round by more than the readings' uncertainty: moving the housing does not mend that. Look for burrs, dirt and a pulled bolt.
align-face-out-flat-by-more-than = The face is out of flat by more than the readings' uncertainty: shims do not mend that. Look for burrs, dirt and a pulled bolt.
align-sizes-which-no-tip-can-be = sizes of which no tip can be worked out
align-radii-above-zero-gap-limits-in = radii above zero and gap limits in order are wanted
align-there-no-reading = there is no reading
align-sweep-four-or-more-wanted = a sweep of four or more is wanted
align-one-sweep-mm-mm-diameter = one sweep of { $diameter } mm and of { $other } mm diameter
align-sweep-has-one-diameter = a sweep has one diameter
align-face-half-swept-on-no-stated = the face of half { $half } is swept on no stated diameter
align-give-diameter-face-sweep = give the diameter of the face sweep
align-face-sweep-mm-diameter = a face sweep of { $diameter } mm diameter
align-diameter-above-zero-wanted = a diameter above zero is wanted
align-reading-mm-at-deg = a reading of { $reading } mm at { $angle } deg
align-readings-within-mm-wanted = readings within { $largest } mm are wanted
align-rim-bore-half-both-swept = rim and bore of half { $half } are both swept
align-sweep-one-them = sweep one of them
align-rim-or-bore-of-one-half-not-others = the rim or bore of one half is swept and not the other's
align-face-of-one-half-not-others = the face of one half is swept and not the other's
align-sweep-same-both-halves-or-one = sweep the same of both halves, or one half alone
align-readings-on = { $n } readings on the { $surface } of half { $half }
align-at-most-judged = { $most } at most are judged
align-places-round = { $n } places round the { $surface } of half { $half }
align-places-or-more-wanted-evenly-round = { $fewest } places or more are wanted, evenly round
align-nothing-read-on-for-deg-from = nothing is read on the { $surface } of half { $half } for { $hole } deg from { $from } deg on
align-places-evenly-round-sweep-wanted = places evenly round the sweep are wanted
align-surface-face = face
align-surface-bore = bore
align-surface-rim = rim

## Assembled height: why readings are refused, what to do
height-places-evenly-round-ring-wanted = places evenly round the ring are wanted
height-there-no-limit-judge-heights-by = there is no limit to judge the heights by
height-limit-range-1-mm-or-seal = a limit of the range (`1 mm`) or a seal that holds one is wanted
height-range-limit-mm = a range limit of { $limit } mm
height-range-limit-above-zero = a range limit is above zero
height-measuring-diameter-mm = a measuring diameter of { $diameter } mm
height-diameter-above-zero = a diameter is above zero
height-standard-uncertainty-below-zero = a standard uncertainty below zero
height-standard-uncertainty-zero-or-more-wanted = a standard uncertainty of zero or more is wanted
height-finite-heights-uncertainties-wanted = finite heights and uncertainties are wanted
height-this-was-try-take-half-out = This was try { $attempt } of { $most }: take the half out, look for the cause and replace the parts before it is tried again.
height-read-every-place-again-after-each = Read every place again after each correction, so that the next one is judged and not guessed.
height-lowest-lies-between-places = The places conform, but the plane through them differs by more than the limit, and its lowest point lies between two of them: read there too.
height-highest-lies-between-places = The places conform, but the plane through them differs by more than the limit, and its highest point lies between two of them: read there too.
height-rounds-here-differ-by-more-than = The rounds here differ by more than the gauge explains: seat the gauge on clean metal, clear of burrs, and read again.
height-rounds-differ-by-more-than-gauge = The rounds differ by more than the gauge explains: the ring still moves, or the gauge was set differently. Let the load ring settle and read every place again.
height-nothing-known-gauges-uncertainty-name-gauge = Nothing is known of the gauge's uncertainty: name the gauge, or read every place three times as rounds of their own.
height-gauges-calibration-leaves-mean-height-open = The gauge's calibration leaves the mean height open, and more rounds do not mend that: read with a gauge of smaller calibration uncertainty.
height-uncertainty-mean-height-covers-limit-read = The uncertainty of the mean height covers its limit: read every place once more.
height-too-near-read-again = The highest and the lowest place differ by too nearly the limit to tell: read both again until each has about { $rounds } rounds.
height-too-near-finer-gauge = The highest and the lowest place differ by too nearly the limit to tell with this gauge: read both with a finer one, or level the ring.
height-ring-sits-like-saddle-high-at = The ring sits like a saddle, high at two opposite sides: pressing can't level it. Take it out, look for a twisted load ring, dirt or burrs on the seat, clean, and fit it again.
height-this-place-alone-stands-proud-washers = This place alone stands proud: the washer's edge is not down here. Press through the tool.
height-this-place-alone-stands-low-washers = This place alone stands low: the washer's edge is folded or off its seat here.
height-this-place-alone-stands-proud-as = This place alone stands proud, as over a bulge of the load ring: press here through the tool.
height-this-place-alone-stands-low-as = This place alone stands low, as over a twist of the load ring: lift here at the load ring, never at the ring.
height-what-springs-back-folded-or-sits = What springs back is folded or sits on a burr: take it out, look, clean, and seat it again.
height-if-that-place-comes-back-load = If that place comes back, the load ring is twisted: take the half out, clean, wet the load ring all round again, and fit it again.
height-ring-cocked-highest-here-washers-edge = The ring is cocked, highest here: the washer's edge is not down. Press through the tool until it is.
height-ring-cocked-highest-here-press-down = The ring is cocked, highest here: press it down through the tool, evenly.
height-ring-lowest-here-lift-with-fingers = The ring is lowest here: lift with the fingers at the load ring, never at the ring.
height-too-proud = The ring stands too proud all round: press it down evenly through the tool.
height-too-low-washer = The ring stands too low all round: the washer is in backwards, too thin, or the wrong one. Take it out and compare it with its drawing.
height-too-low-lift = The ring stands too low all round: lift it evenly with the fingers at the load ring, never at the ring.
height-deg-read-twice-in-round = { $angle } deg is read twice in round { $round }
height-repeated-angle-needs-round-own = a repeated angle needs a round of its own
height-heights-at-places-round-ring = heights at { $n } places round the ring
height-4-places-or-more-wanted-evenly = 4 places or more are wanted, evenly round the ring
height-places-at-most-judged = { $most } places at most are judged
height-nothing-read-for-deg-from-deg = nothing is read for { $hole } deg from { $from } deg on
height-height-mm-at-deg = a height of { $height } mm at { $angle } deg
height-heights-within-mm-wanted = heights within { $highest } mm are wanted

## Chilling: what is compared, found and fits; its figures
chill-five-minutes-at-40-0-degf = five minutes at -40 to 0 degF (-40 to -18 degC)
chill-time-in-cold = time in the cold
chill-on-ring-95-contraction-reached-after = { $time }; on its ring 95 % of the contraction is reached after { $after } (u { $u })
chill-not-taken-out-before-that = it is not taken out before that
chill-time-since-came-out-cold = time since it came out of the cold
chill-core-ring-within-2-k-room = { $time }; core and ring are within 2 K of the room after { $after } (u { $u })
chill-joint-not-closed-nor-height-read = the joint is not closed, nor its height read, before that
chill-time-in-cold-is = the time in the cold is { $time } s
chill-time-since-cold-is = the time since it came out of the cold is { $time } s
chill-time-zero-or-more-would-fit = a time of zero or more would fit
chill-range-would-fit = { $low } to { $high } { $unit } would fit
chill-section-is = the section is { $value } mm
chill-inside-diameter-is = the inside diameter is { $value } mm
chill-inside-diameter-less-than-three-times = the inside diameter is less than three times the section
chill-section-computed-as-long-straight-one = the section is computed as a long straight one
chill-rooms-temperature-is = the room's temperature is { $value } degC
chill-cold-is = the cold is { $value } degC
chill-humidity-is = the humidity is { $value } %
chill-cold-degc-in-room-degc = the cold is { $cold } degC in a room of { $room } degC
chill-cold-lies-at-least-1-k = the cold lies at least 1 K below the room
chill-coefficient-is = the coefficient is { $value } W/(m2 K)
chill-rooms-coefficient-is = the room's coefficient is { $value } W/(m2 K)
chill-airs-speed-is = the air's speed is { $value } m/s
chill-ramp-angle-is = the ramp angle is { $value } deg
chill-rings-mass-is = the ring's mass is { $value } kg
chill-toric-mm-inside-diameter-on-seat = a toric of { $inside } mm inside diameter on a seat of { $seat } mm
chill-seat-0-8-1-5-times = the seat is 0.8 to 1.5 times the inside diameter
chill-seals-own-instruction = the seal's own instruction
chill-file-allows-chilling = its file allows chilling
chill-seal-makers-instruction-stands-before-this = the seal maker's instruction stands before this computation
chill-file-does-not-allow-chilling = its file does not allow chilling
chill-cold-against-glass-transition = cold against glass transition
chill-glass-transition = glass transition
chill-rubber-stays-rubber-above = rubber stays rubber above it
chill-some-compounds-glass-there-break-when = some compounds are glass there and break when bent: the compound's data sheet decides
chill-glass-there-breaks-when-bent-warmer = it is glass there and breaks when it is bent: warmer, or not at all
chill-cold-against-tr10 = cold against TR10
chill-cold-beside-point = { $cold }: { $material }, { $point } { $range }
chill-still-springs-back-above = it still springs back above it
chill-some-compounds-leather-stiff-there-will = some compounds are leather-stiff there and will not pass the lip: the compound's data sheet decides
chill-leather-stiff-there-will-not-pass = it is leather-stiff there and will not pass the lip: warmer
chill-no-glass-transition-at-hand = no glass transition is at hand for { $material }
chill-no-tr10-at-hand = no TR10 is at hand for { $material }
chill-take-from-compounds-data-sheet-in = take it from the compound's data sheet, in a material file
chill-from-to = { $least } to { $most }
chill-crystallises-near = { $cold }: { $material } crystallises near { $near }
chill-stay-above = stay above it
chill-stiffens-there-with-time-comes-back = it stiffens there with time and comes back slowly: warmer, or a short stay by the compound's data sheet
chill-cold-against-crystallising = cold against crystallising
chill-thermal-conductivity-rubber = thermal conductivity of the rubber
chill-density-rubber = density of the rubber
chill-specific-heat-rubber = specific heat of the rubber
chill-linear-expansion-rubber = linear expansion of the rubber
chill-emissivity-rubber = emissivity of the rubber
chill-speed-moving-air = speed of the moving air
chill-coefficient-in-stirred-liquid = coefficient in a stirred liquid
chill-correlation-in-cold-times = correlation in the cold, times
chill-correlation-in-room-times = correlation in the room, times
chill-mass-ring-over-iron-torics-volume = mass of the ring over iron of the toric's volume
chill-density-ring = density of the ring
chill-specific-heat-ring = specific heat of the ring
chill-linear-expansion-ring = linear expansion of the ring
chill-emissivity-ring = emissivity of the ring
chill-free-surface-ring-over-square-bars = free surface of the ring over a square bar's
chill-share-section-that-lies-on-ring = share of the section that lies on the ring
chill-coefficient-where-lies-on-ring = coefficient where it lies on the ring
chill-no-thermal-expansion-at-hand-for = no thermal expansion is at hand for { $material }
chill-name-material-file-that-gives-linear = name a material file that gives `linear_expansion`, from the data sheet

## Closing the joint: why it is refused, what to do
close-gap-mm = a gap of { $gap } mm
close-0-mm-read-by-feelers = 0 to { $largest } mm are read by feelers
close-angle-that-no-number = an angle that is no number
close-degrees-wanted = degrees are wanted
close-place-at-deg-read-twice = the place at { $angle } deg is read twice
close-one-reading-place-wanted = one reading a place is wanted
close-places-read = { $n } places are read
close-or-more-evenly-round-show-whether = { $fewest } or more, evenly round, show whether it is parallel
close-places-evenly-round-wanted = places evenly round are wanted
close-feeler-readings-number-bolts-or-both = feeler readings, a number of bolts, or both
close-nothing-asked = nothing is asked
close-bolts-stated = { $n } bolts are stated
close-2-bolts-would-fit = 2 to { $most } bolts would fit
close-steps-stated = { $n } steps are stated
close-1-steps-would-fit = 1 to { $most } steps would fit
close-gap-limits-from-mm-mm = gap limits from { $min } mm to { $max } mm
close-smaller-limit-first = the smaller limit first
close-feelers-went-in-on-mm = the feelers went in on { $diameter } mm
close-diameter-1-mm-20-m-would = a diameter of 1 mm to 20 m would fit
close-uncertainty-below-zero = an uncertainty below zero
close-zero-or-more-would-fit = zero or more would fit
close-caution = The load rings push the halves apart: they spring when they are unbolted. Draw them together and let them go evenly, a little at each bolt, with long bolts or a press rated for it; keep hands out from between. The torque is that of the machine's own job sheet, never a number from here.
close-read-again-at-deg-stands-off = Read again at { $angle } deg. It stands off the others by more than its uncertainty explains: a burr, dirt, or a slip of the feeler.
close-state-what-one-reading-good-or = State what one reading is good to, or name the gauge. Without it nothing is proven.
close-put-gaps-limits-into-joints-or = Put the gap's limits into the joint's or the seals' files.
close-do-not-run-slacken-evenly-part = Do not run it. Slacken evenly and part the halves: stack-up, shims, and whether every part is home, since the mean gap is outside its limits.
close-slacken-evenly-draw-together-again-side = Slacken evenly and draw together again, the side at { $angle } deg first by the way that is missing: the gap is widest there and closes one-sided.
close-read-more-places-or-with-finer = Read more places, or with a finer gauge. The uncertainty covers a limit.

## Face load: why it is refused, findings and remarks
load-give-modulus-such-as-206-gpa = give `modulus`, such as "206 GPa"
load-steel-washer-has-no-modulus = a steel washer has no modulus
load-at-most-yield-strength-seals-file = at most the yield strength of { $strength } (the seal's file); a washer that is above it at the corner alone takes a set, unless it was set in its making
load-against-yield-strength = stress of the steel against its yield strength
load-formula-en-16984-holds-for-section = the formula of EN 16984 holds for a section of four corners that is not flattened beyond its cone
load-mpa-at-om-up-mpa-at = { $least } to { $most } MPa at OM and up to { $corner } MPa at the inner corner, flattened by { $deflection }
load-toric-lacks-ramp = a toric lacks a ramp
load-ramp-on-ring-housing = a ramp on ring and housing
load-gap-limits-from-mm-mm = gap limits from { $min } mm to { $max } mm
load-smaller-limit-first = the smaller limit first
load-load-rings-just-touch-at-gap = the load rings just touch at a gap of { $gap } mm, and the smallest gap is { $smallest } mm
load-housings-in-each-other = at a gap of { $gap } the housings would stand in each other
load-gap-zero-or-more = a gap of zero or more
load-gap-that-squeezes-load-rings = a gap that squeezes the load rings
load-law-fitted-materials-tests-unstable-at = the law fitted to the material's tests is unstable at a stretch of { $stretch }, inside the range of its tests
load-another-law-fewer-constants-or-another = another law, fewer constants or another mode of loading: `ringtrue fit` shows it
load-load-ring-has-neither-hardness-nor = the load ring has neither hardness nor modulus, and its material no stretch tests
load-give-hardness-from-certificate-measured-modu = give `hardness` from its certificate, a measured `modulus`, or `[stiffness]` in its material's file
load-give-measured-modulus-in-place = give a measured `modulus` in its place
load-at-gap-within-limits-two-halves = At a gap within its limits the two halves have no steady share of the travel: the load falls as a half is squeezed further (a tall cone does that), so one half snaps down and the other comes up.
load-modulus-taken-from-hardness-alone-measured = The modulus is taken from hardness alone; a measured squeeze curve or modulus makes the load far better known.
load-half-whole-section-slides-on-ramp = Half { $half }: the whole section slides on a ramp from a travel of { $travel } on, in place of rolling. How far it slides hangs on a friction that nobody knows, so no verdict is drawn.
load-meshes-differ = Two meshes differ so far that the error band of { $band } % says nothing: no verdict is drawn from this curve.
load-meshes-differ-while-sliding = Two meshes differ so far while the section slides that the error band of { $band } % says nothing: no verdict is drawn from this curve.
load-rubber-stretched-at-most-tests-end = The rubber is stretched to { $stretch } at most, and its tests end at { $tested }: what lies between is the law's own continuation.

## Flatness by bands: why readings are refused, what to do
flat-count-below-zero = a count below zero
flat-count-bands = count the bands
flat-readings = { $n } readings
flat-1-wanted = 1 to { $most } are wanted
flat-reading-bands = a reading of { $bands } bands
flat-at-most-bands-judged = at most { $most } bands are judged
flat-spacing-mm-from-band-band = a spacing of { $spacing } mm from band to band
flat-spacing-above-zero-wanted = a spacing above zero is wanted
flat-uncertainty-as-length-for-readings-in = an uncertainty as a length for readings in bands
flat-state-in-bands-such-as-0 = state it in bands, such as `0.1 bands`
flat-orders-at-places = { $orders } orders at { $places } places
flat-one-order-at-each-four-places = one order at each of four places or more is wanted, round the whole ring
flat-nothing-read-for-deg-from-deg = nothing is read for { $hole } deg from { $from } deg on
flat-places-evenly-round-ring-wanted = places evenly round the ring are wanted
flat-finite-readings-uncertainties-wanted = finite readings and uncertainties are wanted
flat-wavelength-nm = a wavelength of { $wavelength } nm
flat-visible-light-wanted = visible light is wanted
flat-view-at-deg-from-normal = a view at { $angle } deg from the normal
flat-look-at-face-from-above-0 = look at the face from above: 0 to 80 deg
flat-limit-bands = a limit of { $limit } bands
flat-limit-above-zero-wanted = a limit above zero is wanted
flat-standard-uncertainty-below-zero = a standard uncertainty below zero
flat-standard-uncertainty-zero-or-more-wanted = a standard uncertainty of zero or more is wanted
flat-closed-bands-can-be-crown-or = Closed bands can be a crown or a dish: press lightly at the edge of the flat. Bands that move towards the pressed place mean a crown (from memory: try it on a face whose shape is known).
flat-there-no-limit-judge-by-state = There is no limit to judge by: state one in bands or um.
flat-nothing-known-how-well-bands-were = Nothing is known of how well the bands were read: state it in bands.
flat-uncertainty-covers-limit-let-flat-face = The uncertainty covers the limit: let flat and face come to one temperature, make fewer and wider bands, and read again at more azimuths.
flat-clean-face-flat-let-both-come = Clean face and flat, let both come to one temperature, and look again: a warm hand bends a face by a band.
flat-face-saddle-ring-that-pinched-or = The face is a saddle: a ring that is pinched or stands on dirt looks so. Free it and look again before it is lapped; both rings of a pair stay together.
flat-what-stays-so-needs-lapping-or = What stays so needs lapping, or the ring is replaced; both rings of a pair stay together.

## Gap stack: why a chain is refused
gap-chain-1-links-wanted = a chain of 1 to { $most } links is wanted
gap-chain-links = a chain of { $n } links
gap-gap-limits-from-mm-mm = gap limits from { $min } mm to { $max } mm
gap-smaller-limit-wanted-first = the smaller limit is wanted first
gap-link-has-upper-deviation-below-lower = link `{ $link }` has its upper deviation below the lower
gap-signed-deviations-upper-above-lower = signed deviations, upper above lower
gap-link-has-uncertainty-below-zero = link `{ $link }` has an uncertainty below zero
gap-standard-uncertainty-zero-or-more = a standard uncertainty of zero or more
gap-shims-on-hand = { $n } shims on hand
gap-at-most = { $most } at most
gap-shim-mm = a shim of { $shim } mm
gap-shim-has-thickness-above-zero = a shim has a thickness above zero
gap-1-draws-wanted = 1 to { $most } draws are wanted

## Stretch against break
finding-compounds-break-at = the compounds of { $material } break at { $least } to { $most } % (ISO 37); a compound's own data sheet goes before that
finding-material-breaks-at = { $material } breaks at { $least } % (ISO 37)
finding-rubber-is-stretched-by = the rubber is stretched by { $elongation } % at most, { $share } % of the least elongation at break
finding-stretch-against-break = largest stretch against elongation at break

## Tolerance classes
fits-class-form = `{ $class }` is not a tolerance class; h, H, js or JS with a grade is wanted, such as `h9`
fits-class-letter = class `{ $class }` is not h, H, js or JS; write its deviations as `upper` and `lower`
fits-class-grade = grade { $grade } is not in the table; IT{ $first } to IT{ $last } are
fits-class-size = the table of ISO 286 grades here goes to { $largest } mm; write `upper` and `lower`
## Leak test: findings and notes
leak-finite-readings-wanted = finite readings at different times are wanted
leak-volume-test-space = volume of the test space
leak-limit-of = a limit of { $limit } Pa m3/s
leak-rate-above-zero-wanted = a leak rate above zero is wanted
leak-readings-at-least = { $least } readings at least, to see whether the slope holds
leak-readings = { $count } readings
leak-test-space-of = a test space of { $volume } l
leak-test-space-wanted = the volume that holds the test pressure is wanted
leak-reading-no-later = reading { $number } is no later than the one before it
leak-readings-in-order-wanted = readings in the order of time are wanted
leak-no-gas-has-absolute-pressure-zero = no gas has an absolute pressure of zero or less
leak-reading-at-degc = reading { $number } is at { $temperature } degC
leak-gas-temperatures = gas of -73 to 227 degC is an ideal gas here
leak-atmosphere-of = an atmosphere of { $pressure } kPa
leak-barometer-shows = a barometer shows 50 to 110 kPa, not reduced to sea level
leak-scatter-about-line = scatter about the line
leak-step-pressure-gauge = step of the pressure gauge
leak-step-thermometer = step of the thermometer
leak-thermometer-against-gas = thermometer against gas
leak-atmosphere-value = atmosphere, its value
leak-atmosphere-change = atmosphere, its change
leak-give-load-rings = give of the load rings
leak-time-of = a time of { $time } s
leak-how-long-was-watched-wanted = how long it was watched is wanted
leak-bubbles-of = bubbles of { $diameter } mm
leak-bubbles-that-fit = 0.1 to 50 mm would fit
leak-diameter-bubble-cubed = diameter of a bubble, cubed
leak-number-bubbles = number of bubbles
leak-note-not-settled = The slope was still changing at the end: let the space settle and read on.
leak-note-gas-gained = There is more gas at the end than at the start: look for a supply that is still open, a thermometer that does not follow the gas, or pressures stated wrongly as gauge or absolute.
leak-note-large-fall = The driving pressure fell so far that the rate is a mean over the test.
leak-note-too-coarse = This test could not have seen a leak as small as the limit: test longer, with a finer gauge, or in a smaller space.
leak-note-too-short = It was watched for too short a time: a leak as large as the limit may not have made its first bubble yet.
leak-note-above-pressure-limit = The pressure was above the seal's limit: stop, vent, and ask who set it.
leak-note-vacuum = The space was below the atmosphere: gas leaks in, the other way than in service.
leak-note-atmosphere-assumed = The atmosphere was not read: a standard one was taken, with an uncertainty.
leak-note-rubber-gives = Rubber load rings give under pressure. Standards for rigid vessels do not cover it: what still moves looks like a leak, or hides one.
leak-note-give-not-stated = No give was stated, so none is in the uncertainty.
leak-note-sensitivity-from-memory = How small a leak bubbles show is from memory: the shop's own trial with a known leak goes before it.
leak-note-soak-time-not-stated = Nobody said how long it must stay dry, so a dry soak proves nothing yet.
leak-caution = Compressed air stores energy and throws parts. Drain and vent first; stay below the limit of seal and housing; regulated low pressure with a relief device; nobody in line with the joint. Local codes and the seal maker's instruction stand before this page.
leak-reading-absolute = reading { $number } is { $pressure } kPa absolute
leak-reading-gauge = reading { $number } is { $pressure } kPa over the atmosphere

## Do the parts belong together: comparisons of a seal, a joint and their files
match-coldest-start-against-limit = coldest start against its limit
match-hottest-service-against-limit = hottest service against its limit
match-pressure-difference-against-limit = pressure difference against its limit
match-joint-states-no-pressure-difference = the joint states no pressure difference
match-pressure-difference-wanted = service.pressure_difference, to be held against { $limit }
match-speed-at-contact-band = { $speed } at the contact band's mean diameter of { $diameter }: { $sliding } m/s
match-sliding-speed-against-limit = sliding speed against its limit
match-contact-bands = half a { $inner_a } to { $outer_a }, half b { $inner_b } to { $outer_b }
match-bands-share = they share { $inner } to { $outer }
match-bands-should-share = bands that share some of their width
match-contact-band-against-contact-band = contact band of half a against half b
match-together = together { $limits }
match-limits-that-overlap = limits that overlap
match-gap-limits-against-each-other = gap limits against each other
match-dimension-chain-against-gap-limits = dimension chain against gap limits
match-gap-of-chain = gap { $nominal } nominal, { $least } to { $most } in the worst case
match-gap-limits-wanted = limits.seal_gap in the seals, or gap.limits in the joint, to compare it with
match-chain-not-proven = { $limits }; `ringtrue gap` says how many joints keep it, and which shim helps
match-link-unfit = link `{ $name }`: { $error }
match-write-upper-and-lower = write `upper` and `lower` in its place
match-load-rings-just-touch = the load rings just touch at { $height_a } (half a) and { $height_b } (half b): the faces part at a gap of { $together }
match-gap-limits-below = gap limits below that; they are { $limits }
match-gap-limits-against-free-heights = gap limits against free heights
match-from-to = { $min } to { $max }
match-at-least = at least { $min }
match-at-most = at most { $max }
match-not-stated = not stated
match-due = `{ $name }` is due on { $due }, today is { $today }
match-gauge-in-date = a gauge in date: have it calibrated before its readings count
match-due-date-against-today = calibration due date against today
match-code = code `{ $code }`
match-codes-known = a code that is known here: { $codes }
match-no-step-keeps-it = no step keeps it in every joint
match-kept-by = kept by { $steps }
match-gate-of-hold-point = a gate of that hold point in a step without `when`
match-hold-point = hold point `{ $point }`
match-ring-angle-against-housing = ring ramp angle against housing ramp angle
match-ring-and-housing = ring { $ring }, housing { $housing }
match-tool-angle-against-ring = installing tool's ramp angle against ring ramp angle
match-tool-and-ring = `{ $tool }` { $tool_angle }, ring { $ring_angle }
match-equal-angles = equal angles; a wanted difference is stated as limits.ramp_angle_difference
match-difference = a difference of { $limit }
match-middle-mounted-toric = the middle of the mounted toric
match-washers-outer-edge = the washer's outer edge
match-tool-diameter-against-circle = installing tool's diameter against the circle it bears on
match-tool = tool { $diameter }, { $on } { $middle }
match-tool-between = between { $inner } and { $outer }
match-stretch-of-toric = stretch of the toric on the ring
match-toric-stretched = inside diameter { $free } free, { $mounted } on the ring: stretched by { $stretch } % (by { $middle } % at the middle of the section)
match-toric-loose = a toric smaller than its seat: this one is loose
match-toric-not-loose = not loose; limits.toric_stretch states no more
match-lip-and-mounted-toric = lip { $lip }, mounted toric { $toric } outside: interference { $interference } on the diameter
match-lip-narrower-than-toric = a lip narrower than the mounted toric, or it does not keep it in
match-lip-against-toric = lip diameter against mounted toric
match-lip-and-ring = lip { $lip }, ring { $ring } at the toric's seat
match-lip-wider-than-ring = a lip wider than the ring where the toric sits, or the ring can't pass
match-lip-against-ring = lip diameter against ring
match-lip-and-ramp = lip { $lip }, housing ramp { $ramp } right behind it
match-lip-narrower-than-ramp = a lip narrower than the ramp behind it
match-lip-against-ramp = lip diameter against housing ramp
match-toric-first-touches = the mounted toric first touches the housing ramp { $depth } from the housing face
match-toric-against-depth = place of the toric against housing depth
match-free-height-by-drawing = by the drawing's sizes the load ring just touches both sides at an assembled height of { $height }
match-height-only-by-friction = { $limit }: the ring would stand there only if friction holds it
match-height-loose = { $limit }: above the free height the load ring is loose
match-free-height-against-limits = free height against assembled-height limits
match-material-file-named = the load ring names the material file `{ $name }`
match-material-file-wanted = hand that file over with the seal
match-no-figures-for-code = no figures are at hand for { $code } ({ $polymer }): name a material file ending in .toml, or one of { $codes }
match-code-with-figures = an ISO 1629 code with figures ({ $codes }), or a material file ending in .toml
match-load-ring-is-of = the load ring is of `{ $material }`
match-material-against-all = load ring material against fluids and temperatures
match-coldest-start-against-material = coldest start against material
match-hottest-service-against-material = hottest service against material
match-material-against-oil = load ring material against oil
match-material-against-agent = load ring material against cleaning agent
match-good-for-immersion = good or excellent, for it lies in it
match-fair-for-wipe = fair or better, for a wipe is a short contact
match-fluid-not-rated = nothing is at hand on { $code } in { $fluid }
match-take-from-data-sheet = take it from the compound's data sheet, in a material file
match-fluid-not-known = `{ $fluid }` is no fluid that { $code } is rated in
match-fluids-known = { $hint }known are { $fluids }, and what a material file rates
match-temperature-of-material = { $temperature }, load ring of { $code }
match-no-temperatures = no service temperatures are at hand for { $code }: take them from the compound's data sheet, in a material file
match-between-lip-and-depth = between the lip ({ $lip }) and the depth ({ $depth })
match-between-face-and-depth = between the housing face and the depth ({ $depth })
match-lower-limit-against-material = lower temperature limit against material
match-upper-limit-against-material = upper temperature limit against material
match-down-to = down to { $inner }
match-up-to = up to { $inner }
match-down-to-some = down to { $inner }; some compounds down to { $outer }
match-up-to-some = up to { $inner }; some compounds up to { $outer }
match-claims-differ = { $claims }: the compound's data sheet decides
match-rating = { $code } in { $fluid }: { $rating } under long immersion
match-rated-between = { $worst } to { $best }
match-rated-poor = poor
match-rated-fair = fair
match-rated-good = good
match-rated-excellent = excellent
match-ratings-differ = { $wanted }; the compound's data sheet decides
match-code-against-iso-1629 = material code against ISO 1629

## Roughness of a ramp
finish-limit-wanted = a limit such as `Ra 0.8 um` or a seal that holds one is wanted
finish-no-limit = there is no limit to judge the finish by
finish-limit-of = a limit of { $limit } um
finish-limit-above-zero-wanted = a limit above zero, of a few um, is wanted
finish-smallest-above-largest = a smallest value of { $smallest } um above the largest
finish-smaller-limit-first = the smaller limit comes first
finish-uncertainty-wanted = a share of 0 to 100 %, or a length of zero or more, is wanted
finish-uncertainty-unfit = an uncertainty that no instrument has
finish-values = { $values } values
finish-values-wanted = 1 to { $most } values are wanted
finish-value-of = value number { $number } is { $value } um
finish-value-above-zero-wanted = a roughness above zero, of a few um, is wanted
finish-trace-too-short = The trace is too short for the standard's cut-off: trace a longer stretch.
finish-no-run-up = The trace has no run-up and run-out of half a cut-off: its ends are less certain.
finish-outside-table = The surface lies outside the standard's table: its nearest row was taken.
finish-no-uncertainty = Nothing is known of the value's uncertainty: state the instrument's, or measure at more places.
finish-trace-more-places = The uncertainty covers the limit: trace more places round the ramp.
finish-too-rough = The ramp is too rough: clean it and trace again; if it stays so, have it finished again or replace it. Never polish with loose grit beside the lapped face.
finish-too-smooth = The ramp is too smooth to hold the load ring: have it finished again as its drawing says.
finish-mean-keeps-limit = The mean of { $mean } um keeps the limit, but { $outside } of { $values } values do not, where { $allowed } may.
finish-traces = { $traces } traces
finish-traces-wanted = 1 to { $most } traces are wanted
finish-step-of = a step of { $step } mm from point to point
finish-step-wanted = a step above zero, well under 1 mm
finish-trace-of = a trace of { $length } mm
finish-cut-off-wants-trace = a cut-off of { $cut_off } mm wants a trace of { $length } mm: five sampling lengths and half a cut-off at each end
finish-cut-off-wants = a cut-off of { $cut_off } mm wants { $length } mm
finish-fine-trace-wanted = an evenly and finely sampled trace is wanted

## Law of a rubber: stability and remarks. $mode is uniaxial, equibiaxial or planar.
law-holds-far = to ten times the length and a tenth of it
law-holds-to = to a stretch of { $stretch } in the { $mode } mode
law-holds-nowhere = at zero strain the shear modulus is { $shear } MPa: the law holds nowhere
law-takes-work = every further strain takes work
law-takes-no-work = from a stretch of { $stretch } on in the { $mode } mode a further strain takes no work
law-should-be-stable = stable in all three modes at stretches of { $least } to { $most }, those of the tests and their mirror
law-stability = stability of the law
law-one-mode = One mode of loading says little of the others: a load ring is squeezed in the planar way.
law-one-batch = The tests speak for the tested batch: another one may differ by as much as its hardness allows.
law-tests-end-early = The tests end before the stretches that a load ring sees, 1.3 and more.
law-first-loading = The law is that of the first loading as tested: a worked rubber is softer.
law-holds-at-none = nowhere

## Stiffness of a rubber
rubber-points-not-at-hand = the points of the test `{ $file }` are not at hand
rubber-write-points-into-file = write them into the material file as `points_mpa`: `ringtrue fit FILE --out DIR` does
rubber-no-constants = no constants by these tests: { $error }
rubber-other-tests-wanted = other tests, or a law of fewer constants
rubber-hardness-out-of-range = a hardness of { $hardness } is outside the range of the published relations, { $low } to { $high }
rubber-hardness-of-metals = rubber is hard in Shore A or IRHD, not on a scale for metals

## Seating of a load ring
seating-fate-slides-past = slides past the lip
seating-fate-folds = folds under the lip, does not slide past
seating-fate-not-computed = not computed to the end
seating-washer-has-no-outline = the washer has no outline
seating-outline-wanted = its corners
seating-height-range-too-wide = the assembled height may range over { $range } mm, and the washer is { $height } mm tall
seating-height-range-wanted = a `limits.height_range` below the washer's height
seating-free-height-unfit = a free height of { $height } mm, where the washer is drawn { $drawn } mm tall
seating-free-height-wanted = the height of the free washer on a flat plate
seating-free-height-uncertainty-unfit = a standard uncertainty of { $uncertainty } mm of the free height
seating-free-height-uncertainty-wanted = what the gauge and the hand are good to
seating-held-edges-ask-more = Where shoulder and bore hold its edges so that they can't slide, it asks for more. Be ready to seat it { $method }.
seating-push-not-known = The push is not known: the computation { $reason }.
seating-own-weight-flattens = The ring's own weight, on top, brings the edges down.
seating-height-measured = { $height } measured (u { $uncertainty })
seating-height-as-drawn = the drawn { $drawn } within two standard uncertainties, since the file has no `limits.free_height`
seating-flattening-at-largest-gap = flattening at the largest gap
seating-flattening = { $flattened }, against its like at a gap of { $gap }
seating-flattening-wanted = at least the { $least } that bring the edges down all round ({ $origin })
seating-way-pressed-in = pressed in all round
seating-way-worked-in = worked in at one side
seating-toric-lacks-ramp = a toric lacks a ramp
seating-ramp-on-ring = a ramp on the ring
seating-toric-with-free-height = a free height is stated, and the load ring is a toric
seating-leave-free-height-out = leave it out: a washer has one
seating-no-modulus = the toric's rubber has no modulus
seating-hardness-wanted = give its `hardness`
seating-no-lip = The housing has no lip: nothing holds the toric in.
seating-way-past-the-lip = the way past the lip within friction's uncertainty
seating-at-friction = at a friction of { $friction }: { $fate }
seating-slides-past-wanted = it slides past there too: wet it well, or state the friction and its uncertainty as the shop knows them
seating-stretch-on-ring = stretch on the ring
seating-interference-at-lip = interference at the lip
seating-interference = { $interference } on the diameter
seating-interference-wanted = above zero, or the lip does not keep the toric in
seating-method-hand = by hand
seating-method-tool-and-mallet = with the installing tool and a soft mallet
seating-method-chill-first = chilled first: `ringtrue chill` says how long
seating-method-press = with a press or long bolts on the installing tool
seating-number-from-0-5 = a number from 0 to 5
seating-no-elongation-at-break = the material file gives no `elongation_at_break`: add it from the data sheet
seating-push-on-second-mesh = push on a second mesh
seating-coarser-mesh-gives-none = the coarser mesh gives none
seating-two-meshes-that-agree = two meshes that agree
seating-may-ask-more = Within its uncertainty (two standard uncertainties) the push may ask for more. Be ready to seat it { $method }.
seating-dry-friction-is = the dry friction coefficient is { $friction }
seating-wet-friction-is = the wet friction coefficient is { $friction }
seating-friction-uncertainty-is = the standard uncertainty of friction is { $uncertainty }
seating-surface-dry = dry
seating-surface-wetted = wetted
seating-origin-file = the seal's file
seating-origin-stated = as stated
seating-origin-practice = common practice, no source
seating-push-not-known-stopped = The push is not known: the computation stopped.
seating-folds = At this friction the toric does not slide past the lip: it rolls and folds under it. Wet it with the cleaning agent, break the lip's edge, or chill it where that is allowed.
seating-free-height-of-washer = free height of the washer
seating-no-yield-strength = Whether the steel stays below its yield is not judged: the seal's file gives no `yield_strength`.
seating-stretch-from-to = { $low } to { $high } ({ $origin })
seating-stretch-no-limit = none

## A computation that went no further
stopped-at = stopped at { $percent } % of the motion: { $why }
stopped-used-up = the allowed { $iterations } Newton iterations were used up
stopped-stuck = no equilibrium was found within the next { $share } % of it: { $why }
stopped-not-settled = the iteration did not settle within { $steps } steps
stopped-inside-out = a piece of the section would turn inside out
stopped-energy-from-nothing = the section would gain energy that no wall puts in
stopped-no-solution = the equations have no solution that can be trusted

## A section that can't be solved
section-values-wanted = values that a section can have
section-outline-wanted = an outline that can be meshed
section-walls-wanted = a section that its walls can hold

## A section between walls: what does not fit in its file
squeeze-steps = { $steps } steps
squeeze-steps-solved = 1 to { $most } steps are solved
squeeze-round-without-diameter = a round section has no `diameter`
squeeze-add = add it
squeeze-round-with-corners = a round section has corners
squeeze-leave-them-out = leave them out
squeeze-polygon-with-diameter = a polygon has a diameter
squeeze-leave-out = leave it out
squeeze-corners-wanted = 3 to { $most } corners make a polygon
squeeze-polygon-of = a polygon of { $count } corners
squeeze-ring-without-mean-radius = a ring has no `mean_radius`
squeeze-plane-with-mean-radius = plane strain has a mean radius
squeeze-law-lacks = this law has no `{ $key }`
squeeze-law-needs = it needs { $keys }
squeeze-law-has-no-use = this law has no use for `{ $key }`
squeeze-terms = { $terms } terms
squeeze-at-most = { $most } at most
squeeze-walls = { $walls } walls
squeeze-walls-wanted = 1 to { $most } walls squeeze a section
squeeze-wall-of-points = wall `{ $wall }` has { $points } points
squeeze-points-wanted = a profile of 2 to { $most } points is wanted
squeeze-wall-name-twice = wall { $number } has the name of another
squeeze-own-name-wanted = each has a name of its own
squeeze-friction-wanted = a friction coefficient of 0 or more, or "no-slip"

## A definition: what does not fit in it, and what would. Words in `...` are those of the file.
definition-second-time = `{ $key }` stands here a second time
definition-too-deep = tables stand inside each other too deeply
definition-levels-at-most = a definition needs five levels at most
definition-has-no-quotes = `{ $piece }` has no quotes
definition-quotes-wanted = text and values with a unit stand in quotes, such as `mass = "1.9 kg"`
definition-syntax-at = { $message } at `{ $piece }`
definition-line-wanted = a line is `key = "value unit"`, a table name in brackets, or a `#` comment
definition-syntax-wanted = { $wanted } is wanted; { $line }
definition-did-you-mean = did you mean `{ $known }`?{ " " }
definition-date-wanted = year-month-day is wanted, such as `2027-03-31`
definition-one-key-wanted = one of { $keys } is wanted
definition-words-wanted = known are { $words }
definition-write-as = write it as { $line }
definition-schema-prints = `ringtrue schema { $kind }` prints what fits
definition-more-than-one = more than one is given
definition-none = none is given
definition-empty = { $key } is empty
definition-few-words-wanted = say it in a few words
definition-has-characters = { $key } has { $length } characters
definition-characters-at-most = at most { $most } fit
definition-key-is = { $key } is `{ $typed }`
definition-above-zero-wanted = { $quantity } above zero is wanted
definition-zero-or-more-wanted = { $quantity } of zero or more is wanted
definition-both-are = { $key } is `{ $typed }` and { $other_key } is `{ $other_typed }`
definition-fluid-rated-twice = `{ $fluid }` is rated twice
definition-one-entry-a-fluid = keep one entry a fluid
definition-widest-without-narrowest = the widest service temperatures are given without the narrowest
definition-worst-above-best = `worst` is better than `best`
definition-exchange-two = exchange the two
definition-points-at-least = { $least } points at least make a curve
definition-test-of-points = a test of { $points } points
definition-points-at-most = at most { $most } points are read; leave some out evenly
definition-stretch-wanted = length over first length, { $low } to { $high }: 1 is unstretched, 1.5 is 50 % longer
definition-stretch-of = a stretch of { $stretch }
definition-stress-of = a stress of { $stress } MPa
definition-stretch-after = stretch { $stretch } after { $before }
definition-one-way-wanted = one loading that goes one way: cut off the way back and earlier loadings
definition-stress-at-stretch = { $stress } MPa at stretch { $stretch }
definition-stress-wanted = stress over the first area, pulling (above zero) beyond stretch 1 and pressing (below zero) under it; is the unit right?
definition-largest-stretch-is = `largest_stretch` is { $stretch }
definition-largest-stretch-wanted = a stretch above 1, such as 2
definition-batch-uncertainty-is = `batch_standard_uncertainty` is `{ $typed }`
definition-batch-uncertainty-wanted = such as "10 %"
definition-tests = { $tests } tests
definition-tests-wanted = 1 to { $most } tests are fitted
definition-terms = { $terms } terms
definition-terms-wanted = 1 to 4 terms can be fitted
definition-ogden-without-terms = Ogden's law has no `terms`
definition-add-terms = add 1 to 4, such as `terms = 2`
definition-law-without-terms = { $law } has no terms
definition-leave-terms-out = leave `terms` out
definition-file-and-points = `file` is `{ $file }`, and `points_mpa` is given too
definition-keep-file-or-points = keep the one or the other
definition-seal-schema-is = the seal's schema is `{ $line }`
definition-add-ramp = add `[{ $path }]` with angle, diameter and plane_from_face
definition-toric-needs-ramp = a toric needs a ramp on the { $part ->
        [ring] ring
       *[housing] housing
    }
definition-ramp-with-washer = the { $part ->
        [ring] ring
       *[housing] housing
    } has a ramp and the load ring is a conical washer
definition-leave-ramp-out = leave `[{ $path }]` out, or give a toric
definition-tool-without-angle = the tool for a toric has no ramp angle
definition-add-tool-angle = add `ramp_angle`, as marked on the tool
definition-tool-angle-with-washer = the tool has a ramp angle and the load ring is a conical washer
definition-leave-tool-angle-out = leave `ramp_angle` out
definition-ramp-angle-wanted = an angle to the seal axis above 0 and below { $steepest } deg
definition-yield-strength-of-rubber = a yield strength of a rubber washer
definition-leave-yield-strength-out = leave it out: steel has one
definition-hardness-and-modulus = `hardness` and `modulus` are both given
definition-keep-measured = keep the one that was measured
definition-neither-hardness-nor-modulus = neither `hardness` nor `modulus` is given
definition-add-hardness-or-modulus = add the one that is known, such as `hardness = "60 Shore A"`
definition-uncertainty-without-modulus = an uncertainty of the modulus without a modulus
definition-add-modulus = add `modulus`, or leave it out
definition-rubber-hardness-wanted = { $low } to { $high } Shore A or IRHD, from which a modulus can be had; of another rubber give its `modulus`, or leave both out where its material's file holds stretch tests
definition-metal-hardness-wanted = a metal has HRC, HB or HV, such as `62 HRC`
definition-most-tries-is = `most_tries` is { $tries }
definition-tries-wanted = 1 to { $most } tries are wanted
definition-seal-and-its-file = `seal_file` and `seal` are both given
definition-keep-one-two = keep one of the two
definition-half-has-no-seal = the half has no seal
definition-name-seal-file = name its file as `seal_file = "..."`, or hold it as `seal` in this file
definition-chain-of-links = the chain has { $links } links
definition-links-wanted = 1 to { $most } links make a gap
definition-shims-on-hand = { $shims } shims are on hand
definition-shims-wanted = name the { $most } that matter at most
definition-link-name-twice = link { $link } has the name of link { $earlier }
definition-own-name-wanted = give each its own name
definition-class-without-limits = class `{ $class }` on { $nominal } has no limits here
definition-upper-without-lower = `upper` is given without `lower`
definition-both-deviations-wanted = give both deviations, signed
definition-lower-without-upper = `lower` is given without `upper`
definition-link-without-tolerance = link `{ $link }` has no tolerance
definition-add-tolerance = add `plus_minus`, or `upper` and `lower`, or `class`
definition-link-with-tolerances = link `{ $link }` has more than one tolerance
definition-keep-one-tolerance = keep one of `plus_minus`, `upper` with `lower`, and `class`
definition-file-of-kind = this is a { $kind } file
definition-file-of-kind-wanted = a { $kind } file is wanted here
definition-file-holds-bytes = the file holds { $bytes } bytes
definition-bytes-at-most = a definition is a few thousand, and at most { $most } are read
definition-file-empty = the file is empty
definition-no-schema-line = there is no `schema` line
definition-schema-line-unfit = the `schema` line is not text in quotes
definition-version-of-file = the file says version `{ $version }` of { $kind }
definition-version-read = version 1 is read here: `{ $schema_line }`
definition-schema-not-known = `{ $line }` is not a known schema
definition-schema-lines-wanted = a definition file starts with one of { $lines }
definition-limit-from-to = { $min } to { $max }
definition-limit-at-least = at least { $min }
definition-limit-at-most = at most { $max }
definition-limit-none = no bound
definition-limit-without-bounds = a limit without `min` and `max`
definition-limit-bounds-wanted = give one or both
definition-min-above-max = `min` is above `max`: { $limit }
definition-smaller-as-min = give the smaller value as `min`
definition-levels-are = `conforms_from` is { $from } and `does_not_conform_to` { $to }
definition-levels-wanted = 0 % < does_not_conform_to < conforms_from < 100 % is wanted
definition-gauge-without-uncertainty = both uncertainties are zero
definition-gauge-uncertainty-wanted = no gauge is without: take them from the certificate and a few repeated readings
definition-half = half { $half }
definition-outline-of-corners = the outline has { $corners } corners
definition-corners-wanted = 3 to { $most } corners make a section
definition-corner-at-radius = corner { $number } is at radius `{ $radius }`
definition-corner-wanted = each corner is `[radius, axial]`, radius above zero
definition-sides-cross = the side behind corner { $first } crosses or touches the one behind { $second }
definition-corners-in-turn = name the corners in turn round the section, each once
definition-counter-clockwise-wanted = name them counter-clockwise, with the radius to the right and the axial distance up
definition-clockwise = the corners run clockwise
definition-plain-number-wanted = a plain number
definition-missing-from-table = `{ $key }` is missing from `{ $table }`
definition-missing-from-file = `{ $key }` is missing from the file
definition-add = add { $line }
definition-add-described = add { $line } ({ $what })
definition-the-table = the table `{ $table }`
definition-the-tables = the tables `{ $table }`
definition-no-key-of-table = `{ $key }` is not a key of `{ $table }`
definition-no-key-of-file = `{ $key }` is not a key of the file
# $hint is empty, or definition-did-you-mean.
definition-known-keys = { $hint }known keys are { $keys }
definition-known-words = { $hint }known are { $words }
definition-not-known-here = `{ $word }` is not known here
definition-found-text = the text `{ $text }`
definition-found-bare-number = the bare number `{ $number }`
definition-found-table = a table
definition-found-list = a list
definition-text-wanted = text in quotes is wanted
definition-list-wanted = a list in brackets is wanted
definition-whole-number-wanted = a whole number, such as `3`, is wanted
definition-own-table-wanted = a table of its own is wanted
definition-table-wanted = a table is wanted
definition-type-wanted = { $wanted } is wanted
definition-not-a-date = `{ $text }` is not a date
definition-does-not-fit = `{ $text }` does not fit
definition-at-line = line { $line }: { $found }; { $fits }
definition-at-line-and-column = line { $line }, column { $column }: { $found }; { $fits }
definition-number-wanted = a number
definition-must-be-below = { $key } must be below { $other_key }
definition-must-be-at-most = { $key } must be at most { $other_key }
definition-joint = joint

## Polymers by their code in ISO 1629
polymer-nr = natural rubber (isoprene)
polymer-cr = chloroprene
polymer-nbr = acrylonitrile-butadiene
polymer-hnbr = hydrogenated acrylonitrile-butadiene
polymer-epdm = ethylene-propylene-diene
polymer-fkm = fluorocarbon
polymer-vmq = methyl-vinyl silicone
polymer-fvmq = fluoro-silicone
polymer-acm = acrylate

## A procedure: what does not fit in it, and what would
definition-procedure-second-caution = `{ $hazard }` has a second caution
definition-procedure-one-caution-wanted = say all of it in one
definition-procedure-of-steps = the procedure has { $steps } steps
definition-procedure-steps-wanted = 1 to { $most } steps make a job
definition-procedure-step-of-evidence = the step wants { $evidence } pieces of evidence
definition-procedure-evidence-at-most = at most { $most } belong to one step: make it two
definition-procedure-evidence-name-twice = `{ $name }` stands twice in this step
definition-procedure-own-name-wanted = give each its own name
definition-procedure-step-without-proof = nothing shows that step `{ $step }` was done
definition-procedure-add-evidence = add evidence that is always given, such as a tick
definition-procedure-id-twice = `{ $id }` is the id of step { $step } too
definition-procedure-own-id-wanted = give each step its own id
definition-procedure-stage-comes-after = stage `{ $stage }` comes after `{ $before }`
definition-procedure-stages-order = the stages follow each other: { $stages }
definition-procedure-rule-twice = `{ $rule }` stands twice
definition-procedure-rule-once = once is enough: all rules must hold
definition-procedure-rules-contrary = `{ $other }` and `{ $rule }` never hold together
definition-procedure-make-two-steps = make two steps of it, each with its own rule
definition-procedure-rule-never-holds = `{ $rule }` never holds here
definition-procedure-for-load-ring = the procedure is for a { $load_ring }
definition-procedure-hazard-twice = `{ $hazard }` stands twice
definition-procedure-hazard-once = once is enough
definition-procedure-hazard-without-caution = hazard `{ $hazard }` has no caution
definition-procedure-add-caution = add `[[caution]]` with `hazard = "{ $hazard }"` and its `text`
definition-procedure-given-for = `{ $key }` is given for a { $kind }
definition-procedure-leave-out-or-change-kind = leave it out, or change `kind`
definition-procedure-reading-set-has-no-readings = the reading set has no `readings`
definition-procedure-add = add { $words }
definition-procedure-value-has-no-quantity = the value has no `quantity`
definition-procedure-add-quantity = add what it measures, such as `quantity = "length"`
definition-procedure-value-has-no-example = the value has no `example`
definition-procedure-add-example = add how it is typed, with its unit, such as `example = "0.8 um"`
definition-procedure-measures-of-quantity = `{ $measures }` is of `{ $quantity }`
definition-procedure-value-of-quantity = the value is of `{ $quantity }`: another word, or none
definition-procedure-limit-of-quantity = `{ $limit }` is a limit of { $quantity }
definition-procedure-other-limit-wanted = the value is a { $quantity }: another limit, or none
definition-procedure-limit-not-judged = the limit is named and nothing judges it
definition-procedure-add-limits-gate = give the step a `gate` with `decided_by = "limits"`, or leave the limit out
definition-procedure-decides-in-stage = `{ $decides }` decides in stage `{ $stage }`
definition-procedure-once-for-joint = it belongs to a stage that is done once for the joint
definition-procedure-for-each-half = it belongs to a stage that is done for each half
definition-procedure-nothing-decides = nothing in step `{ $step }` lets `{ $decides }` decide
definition-procedure-one-reading-set-wanted = one reading set of that question, always given, is wanted in the step
definition-procedure-reading-set-wanted = a reading set of that question, always given, is wanted in the step
definition-procedure-limited-value-wanted = a value with a `limit`, always given, is wanted in the step
definition-procedure-tick-wanted = a tick or a second person, always given, is wanted in the step
definition-procedure-definition-decides = the joint's own definition decides
definition-procedure-hold-point-in-stage = hold point `{ $point }` stands in stage `{ $stage }`
definition-procedure-stage-wanted = it belongs to stage { $stages }
definition-procedure-hold-point-decided-by = hold point `{ $point }` is decided by `{ $decided_by }`
definition-procedure-height-decided-by = the height is decided by `assembled-height`
definition-procedure-gap-decided-by = the gap is decided by `seal-gap`, `closing`, or a value against `limits.seal_gap`
definition-procedure-hold-point-not-kept = no step keeps the hold point `{ $point }` in every joint
definition-procedure-add-hold-point = add a gate with `hold_point = "{ $point }"` to a step without `when`
definition-procedure-empty = `{ $key }` is empty
definition-procedure-sentence-wanted = say it in a sentence or two
definition-procedure-has-characters = `{ $key }` has { $length } characters
definition-procedure-characters-at-most = at most { $most } are read at the bench
definition-procedure-id-is = `{ $key }` is `{ $id }`
definition-procedure-id-wanted = small letters and digits joined by hyphens, at most { $longest }, such as `wet-the-toric`
definition-procedure-or = { $one } or { $other }

## A quantity as it is typed
# No `; ` in these: it parts what was found from what would fit.
units-has-no-unit = `{ $text }` has no unit
units-plain-number-wanted = a plain number such as `0.05` is wanted
units-not-number = `{ $text }` is not a number
units-too-large = `{ $text }` is too large to be a number
units-no-number = `{ $text }` does not start with a number
units-other-kind = `{ $text }` is { $kind }
units-unknown-unit-near = `{ $symbol }` in `{ $text }` is not a known unit (did you mean `{ $nearest }`?)
units-unknown-unit = `{ $symbol }` in `{ $text }` is not a known unit
units-beyond = `{ $text }` is beyond anything that { $quantity } can be here
units-quantity-wanted = { $quantity } is wanted, such as `{ $example }` ({ $units })
units-range-wanted = two limits are wanted, such as `{ $example }..{ $example }`, the smaller first
units-no-range = `{ $text }` has no `..`
units-range-turned = `{ $low }` is larger than `{ $high }`
units-with-its-unit = { $quantity } with its unit in quotes, such as "{ $example }"
quantity-a-length = a length
quantity-an-angle = an angle
quantity-a-temperature = a temperature
quantity-a-pressure = a pressure
quantity-a-force-per-length = a force per length
quantity-a-force = a force
quantity-a-mass = a mass
quantity-a-speed = a speed
quantity-a-speed-of-rotation = a speed of rotation
quantity-a-thermal-expansion = a thermal expansion
quantity-a-share = a share
quantity-a-time = a time
quantity-a-volume = a volume
quantity-a-torque = a torque
quantity-a-temperature-difference = a temperature difference
quantity-a-heat-transfer-coefficient = a heat transfer coefficient
quantity-a-thermal-conductivity = a thermal conductivity
quantity-a-specific-heat = a specific heat
quantity-a-density = a density
quantity-a-leak-rate = a leak rate
quantity-a-hardness = a hardness

## Numbers that can't be worked with
distribution-place-not-usable = place { $place } has no usable height and standard uncertainty
distribution-places = a range needs 2 to { $most } places, { $found } were given
fit-amplitude-unresolved = the amplitude { $amplitude } is below 2 of its standard uncertainties ({ $uncertainty }): it has no direction
fit-angle = angle
fit-not-finite = { $list } number { $row } is not a usable number
fit-observations = the observations
fit-rank-deficient = the observations fix only { $rank } of { $coefficients } coefficients
fit-column = a column
fit-row = the row
fit-shape = { $list } has { $found } values where { $expected } are needed
fit-too-few-rows = { $rows } observations cannot fix { $coefficients } coefficients
fit-weight = the weight of observation { $row } is not positive
fit-weighted-model = the weighted model
fit-weighted-observations = the weighted observations
fit-weights = the weights
profile-coarse = a cut-off spans { $found } points, where { $fewest } are wanted
profile-height-not-usable = height number { $point } is not a usable number
profile-points = a profile of { $found } points, where { $fewest } to { $most } are wanted
profile-step-above-zero = step and cut-off must be above zero
sample-draws = the number of draws must be 1 to { $most }, not { $found }
sample-no-terms = there is no term to sum
sample-term-not-usable = term { $term } has no usable sensitivity, centre and width
sample-too-many-terms = { $found } terms scatter; the sequence serves at most { $most }
uncertain-reading-not-usable = reading { $reading } is not a usable number
uncertain-readings-too-few = there are not two readings of the same thing

## Verdicts
verdict-conforms = conforms
verdict-not-proven = not proven
verdict-does-not-conform = does not conform

## Where figures come from
source-common-practice = { $what } (common practice, no source)
source-from-memory = { $cite } (from memory)
## Report: the parts to scale, and the limits
report-section-whose = half { $half }: { $seal }
report-section-not-drawn = Where a half is not drawn, the measures in its definition do not make a section: check diameters, angles and distances.
report-section-how-drawn = Each half is drawn where its load ring just touches, not squeezed: geometry tells that much and no more. A toric is thinned by its stretch on the ring at constant volume. In the drawing of the joint the dashed lines are the housing faces at the nominal seal gap, set evenly about the lapped faces; how far each half really moves follows from the face loads.
report-section-limits = Limits, and where they come from
report-section-title = The parts to scale
report-section-of = Of
report-section-both = both
report-section-joint = joint
report-section-limit-on = Limit on
report-section-as-written = As written, with its origin
report-section-seal-gap = seal gap
report-section-no-limits = The definitions state no limits.
report-section-face-load = face load per length, at the contact band's mean diameter
report-section-mean-assembled-height = mean assembled height
report-section-height-range = range of the assembled height
report-section-ramp-finish-ra = ramp finish Ra
report-section-face-flatness = face flatness
report-section-eccentricity = eccentricity
report-section-tip = tip of the halves to each other
report-section-sliding-speed = sliding speed
report-section-temperature = temperature
report-section-pressure-difference = pressure difference
report-section-toric-stretch = toric stretch
report-section-washer-free-height = free height of the washer
report-section-ramp-angle-difference = ramp angle difference
report-section-tool-diameter-difference = tool diameter difference
report-section-toric-stretched = toric { $section } section, { $inside } inside, { $material }, stretched { $stretch } on the ring
report-section-toric = toric { $section } section, { $inside } inside, { $material }
report-section-conical-washer = conical washer, { $material }

## Report: leak test
report-leak-stayed-dry = It stayed dry as long as it was asked to.
report-leak-not-long-enough = It is dry, but not for long enough yet.
report-leak-wet-trace = A wet trace was seen.
report-leak-watched-for-time = watched for { $time }
report-leak-at-most = at most { $limit }
report-leak-by-pressure-change = leak, by pressure change
report-leak-by-bubbles-under-water = leak, by bubbles under water
report-leak-by-bubbles-in-film = leak, by bubbles in a film
report-leak-by-soak = leak, by a soak
report-leak-find-it = Find the leak: faces, both torics, housing joint, hose and fittings.
report-leak-uncertainty = Where the uncertainty comes from
report-leak-to-know = To know beside the number
report-leak-title = Leak test
report-leak-rate = leak rate
report-leak-the-same = the same
report-leak-counted-at-0-c = counted at 0 °C
report-leak-counted-at-20-c = counted at 20 °C
report-leak-smallest-seen = smallest leak that would have been seen
report-leak-within-with-probability = within the limit with probability
report-leak-left-out-for-settling = left out for settling
report-leak-watched-for = watched for
report-leak-largest-pressure = largest pressure over the atmosphere
report-leak-stored-energy = stored energy
report-leak-give-that-hides = give of the rubber that would hide a leak as large as the limit
report-leak-standard-uncertainty = standard uncertainty, { $unit }
report-leak-part = part

## Report: parts that belong together
report-match-nothing = There was nothing to compare.
report-match-all-fit = Ring, load ring, housing, tool, material and chain fit together.
report-match-not-everything = Not everything could be compared.
report-match-some-do-not = Some of the parts do not fit together.
report-match-question = parts that belong together
report-match-comparisons-fit = { $fitting } of { $all } comparisons fit
report-match-each-must-fit = each must fit
report-match-do-not = { $unfit } do not
report-match-not-proven = { $open } not proven
report-match-do-not-not-proven = { $unfit } do not, { $open } not proven
report-match-both-halves = both halves
report-match-joint = joint
report-match-of = Of
report-match-deed = { $whose }, { $what }: { $verdict } Found: { $found } Wanted: { $fits }
report-match-nothing-compared = Nothing was compared: the definitions hold no two values that bear on each other.
report-match-title = Parts that belong together

## Report: what many of its pages say
report-common-fitting-report = Fitting report: { $joint }
report-common-notice = Not a signed record: nobody has signed this report, and nothing guards it against a later change.
report-common-caution = Before you press or lift: lips and ring edges are sharp, rings are heavy, and fingers fit between a ring and its housing. Wear cut-resistant gloves and keep bare hands off the lapped face. Follow the seal maker's instruction and the shop's safety rules; where they differ from this page, they stand.
report-common-half = half { $half }
report-common-what-to-do = What to do
report-common-verdict = Verdict
report-common-event = Event
report-common-compared = Compared
report-common-found = Found
report-common-what-fits = What fits
report-common-none = none
report-common-none-stated = none stated
report-common-not-known = not known
report-common-u-not-known = { $value } (U not known)
report-common-and = { $first } and { $last }
report-common-within = Within the limit, the uncertainty taken in.
report-common-covered = The uncertainty covers the limit: measure better or more.
report-common-outside = Outside the limit, the uncertainty taken in.

## Report: photos of a job
report-photos-no-pictures = Files that are no pictures
report-photos-made-smaller = Photos are made smaller for the page; the attached record holds each file as it was, under the hash of its content.
report-photos-title = Photos
report-photos-alt = Photo { $photo } of { $place }, event { $event }
report-photos-caption = { $place }, event { $event }: { $photo }.
report-photos-by = { $who }, { $moment }; content { $hash }
report-photos-file = File
report-photos-type = Type
report-photos-bytes = Bytes
report-photos-content = Content

## Report: record of a job
report-record-title = { $report } · job { $job }
report-record-notice = The signatures are in the attached record: `ringtrue job verify` checks them, and this file.
report-record-of-job = Job { $job }, { $events } events.
report-record-export = The whole record of job { $job }
report-record-place = The proven place of the job in the tree over its store's events
report-record-kind = Metal face seal joint · record of a job
report-record-signed-by = Signed by
report-record-job = Job
report-record-record = Record
report-record-signed = signed
report-record-person = { $name } ({ $role })
report-record-gate-overridden = Gate { $place }: { $verdict }, OVERRIDDEN by event { $event }.
report-record-gate-holds = Gate { $place }: { $verdict }, and it holds the job.
report-record-open = not signed: work goes on
report-record-held = not signed: a gate holds the job
report-record-changed-since = changed since it was signed
report-record-decisions = Overrides and corrections
report-record-checks = Against which it can be checked
report-record-how-checked = A changed, missing or added event is found by its hash; whoever holds the whole store and the keys can write another history, which the checkpoint shows when it is kept elsewhere: `ringtrue job verify --all --against SIZE:ROOT`.
report-record-section = Record of the job
report-record-signatures = Signatures
report-record-gates = Gates
report-record-for = For
report-record-by = By
report-record-as = As
report-record-key = Key
report-record-what = What
report-record-why = Why
report-record-who = Who
report-record-nobody-signed = Nobody has signed yet.
report-record-covers-event = Covers event
report-record-whole-job = the whole job
report-record-hold-point = hold point { $place }
report-record-overridden = OVERRIDDEN: gate { $place }, verdict of event { $event }
report-record-corrected = CORRECTED: event { $event }
report-record-this-job = This job
report-record-events = Events
report-record-opened = Opened
report-record-checkpoint = Checkpoint
report-record-last-hash = Last hash
report-record-opened-by = { $moment } by { $who }
report-record-its-store = Its store
report-record-last-signed = Last signed
report-record-signed-checkpoint = { $checkpoint } by { $name }, { $moment }
report-record-code-of-job = job, number of events and last hash
report-record-code-of-store = the store's checkpoint
report-record-when-utc = When, UTC
report-record-corrected-by = CORRECTED by event { $event }.
report-record-later = What became known later
report-record-kind-opened = opened
report-record-kind-recorded = recorded
report-record-kind-assessed = assessed
report-record-kind-corrected = corrected
report-record-kind-overridden = overridden
report-record-kind-signed = signed
report-record-kind-followed-up = followed-up

## Report: ramp finish
report-finish-too-many = Too many of the values lie outside the limit.
report-finish-question = ramp finish, { $parameter }
report-finish-from-zero = { $value } µm (0 to { $most } µm)
report-finish-at-most = at most { $max } µm
report-finish-at-least = at least { $min } µm
report-finish-between = { $min } to { $max } µm
report-finish-limit-and-rule = { $limit }, { $rule }
report-finish-16-percent-rule = 16 % rule
report-finish-max-rule = max rule
report-finish-title = Ramp finish
report-finish-probability = Within the limit with probability { $probability }.
report-finish-judged = { $outside } of { $values } values lie outside the limit, where the { $rule } allows { $allowed }; they run from { $least } to { $most } µm.
report-finish-judged-scatter = { $outside } of { $values } values lie outside the limit, where the { $rule } allows { $allowed }; they run from { $least } to { $most } µm, standard deviation { $deviation } µm.
report-finish-trace = trace
report-finish-edition = By { $edition }.
report-finish-cut-off-table = by the table
report-finish-cut-off-nearest-row = the table's nearest row
report-finish-cut-off-feed = by the feed of the turned surface
report-finish-cut-off-given = as given
report-finish-cut-off-longest = the longest that the trace allows
report-finish-ends-left-out = half a cut-off at each end left out
report-finish-ends-kept = ends kept, their weights made to sum to one
report-finish-ends-none = nothing filtered here
report-finish-filter = Gaussian filter of ISO 16610-21, cut-off { $cut_off } mm ({ $why }), { $length } mm evaluated, { $ends }.

## Report: rubber law
report-law-question = rubber law, { $material }
report-law-modulus = Young's modulus { $modulus } MPa
report-law-deed = Take a law of fewer constants, or add a test in another mode: no face load is worked out with a law that does not hold.
report-law-fit = { $points } points at stretches of { $least } to { $most }, off by { $rms } MPa rms and by { $worst } of the stress at most. The stress is known to a standard uncertainty of { $uncertainty } where a load ring works. The law holds { $holds }.
report-law-tests = Tests: { $source }
report-law-title = Rubber law
report-law-constant = Constant
report-law-value = value
report-law-standard-uncertainty = standard uncertainty

## Report: seating of the load ring
report-seating-caution = Lips and seats are sharp and the ring heavy: cut-resistant gloves, no finger between ring and housing, and push with the installing tool, never with a screwdriver. A mallet is a soft one. The seal maker's instruction stands before this page.
report-seating-question-toric = seating of the toric
report-seating-toric-fits = The toric passes the lip, is held by it, and its rubber stands it.
report-seating-toric-limit = stretch limit, lip and elongation at break
report-seating-question-washer = seating of the conical washer
report-seating-washer-fits = Its edges bear all round before the joint is closed, and it stands that.
report-seating-down-to = down to a height of { $height }
report-seating-washer-limit = flattening at the largest gap, and what its material stands
report-seating-not-proven = Not all that was compared could be proven.
report-seating-outside = What was compared is outside what fits.
report-seating-push-held = push { $push } ({ $held } where its edges can't slide), { $how }
report-seating-no-push = no push was computed
report-seating-push = push { $push }, { $how }
report-seating-seat-toric = Seat the toric { $how }.
report-seating-seat-washer = Seat the conical washer { $how }.
report-seating-what-was-compared = What was compared
report-seating-title-toric = Seating of the toric
report-seating-title-washer = Seating of the conical washer
report-seating-how-one-side = At one side: the ring tipped so that the far side just touches the lip as the near side has passed; an upper bound.
report-seating-height-just-touching = assembled height, just touching
report-seating-washer-height-drawn = height of the free washer, drawn
report-seating-washer-height-measured = height of the free washer, measured
report-seating-height-own-weight = height under the ring's own weight
report-seating-pressed-down-by = pressed down ({ $origin })
report-seating-height-edges-sit = height when its edges sit
report-seating-largest-stretch = largest principal stretch
report-seating-force-edges-sit-on = force when its edges sit, { $surface }
report-seating-by-formula = the same by the disc-spring formula (EN 16984), no friction
report-seating-seats = seats
report-seating-friction = friction
report-seating-dry = dry
report-seating-wetted = wetted
report-seating-force-edges-sit = force when the edges sit
report-seating-not-computed = not computed
report-seating-edges-held = edges held by shoulder and bore
report-seating-no-sliding = no sliding
report-seating-how-flattened = Flattened all round by what the washer may stand uneven: an upper bound, since where it stands lower it is flattened by less.
report-seating-formula-error = The disc-spring formula is 3 to 11 % above finite elements.
report-seating-no-uncertainty = The push has no uncertainty here; friction's standard uncertainty of { $u } ({ $origin }) would be part of it.
report-seating-uncertainty = Its uncertainty u is made of { $modulus } by the modulus, { $friction } by friction's standard uncertainty of { $u } ({ $origin }), and { $mesh } by the mesh.
report-seating-hand-and-tool = Hands are taken to give { $hand } ({ $hand_origin }), tool and mallet { $tool } ({ $tool_origin }).
report-seating-stretch-on-ring = stretch on the ring
report-seating-section-free = section, free
report-seating-section-on-ring = section on the ring
report-seating-interference = interference on the lip's diameter
report-seating-nose-radius = radius of the lip's nose ({ $origin })
report-seating-push-on = push, { $way }, { $surface }
report-seating-lip = lip
report-seating-pressed-all-round = pressed all round
report-seating-at-one-side = at one side
report-seating-push-all-round = push, all round
report-seating-push-at-one-side = push, at one side
report-seating-way-since-touch = way since the touch
report-seating-stretch-here = stretch here
report-seating-toric-drawn = the toric under the retaining lip, where the push is largest
report-seating-toric-as-far = the toric under the retaining lip, as far as it was followed
report-seating-force-all-round = force, all round
report-seating-pressed-down = pressed down
report-seating-height = height
report-seating-washer-drawn = the conical washer, its edges down all round
report-seating-washer-as-far = the conical washer, as far as it was followed

## Report: the work, step by step
report-work-title = The work, step by step
report-work-stage-of-half = { $stage }, half { $half }
report-work-unsigned = waits for its signature
report-work-done = done
report-work-overridden = OVERRIDDEN
report-work-held = HELD: { $verdict }
report-work-not-done = not done
report-work-no-longer-counts = Event { $event } no longer counts: { $why }
report-work-passed-over = The verdict of event { $event } is passed over: { $why }
report-work-hold-point-signed = Hold point signed, up to event { $event }.
report-work-job-signed = Job signed, up to event { $event }.
report-work-gauge = gauge { $gauge }
report-work-nothing-stated = nothing stated
report-work-yes = { $ask }: yes
report-work-no = { $ask }: NO
report-work-all-done = Done.
report-work-standard-uncertainty = standard uncertainty { $u }
report-work-photo = { $ask }: photo { $photo }
report-work-second-person = { $ask }: seen by this second person
report-work-bytes = { $file }, { $bytes } bytes
report-work-rows = { $file }, { $rows } rows
report-work-before-steps = Before the steps
report-work-caution = Caution
report-work-number = No.
report-work-cautions-above = Each of these stands in the procedure of this job before the steps named. The safety data sheet, local rules and the seal maker's instruction stand above them.
report-work-cautions-title = Cautions that were given
report-work-fell-away = Steps that this joint does not need
report-work-decided-by = Decided by
report-work-gate = Gate
report-work-by-matching = matching
report-work-by-assembled-height = assembled-height
report-work-by-seal-gap = seal-gap
report-work-by-face-load = face-load
report-work-by-limits = limits
report-work-by-evidence = evidence
report-work-by-alignment = alignment
report-work-by-roughness = roughness
report-work-by-flatness = flatness
report-work-by-seating = seating
report-work-by-chilling = chilling
report-work-by-leak-test = leak-test
report-work-by-agents = agents
report-work-by-closing = closing
report-work-overridden-by = OVERRIDDEN, event { $event }
report-work-holds = HOLDS THE JOB
report-work-not-signed = not signed
report-work-not-judged = not judged
report-work-judged-times = judged { $times } times

## Drawings: what several of them say
figure-common-min = min { $value }
figure-common-max = max { $value }
figure-common-range = { $low } to { $high }
figure-common-bars = Bars: ±U.
figure-common-axis-below = axis level below
figure-common-facing =
    facing half b,
    angles run
    counter-clockwise

## Drawings: light bands of a lapped face
figure-bands-title-heights = Height round the ring, in bands
figure-bands-title-bends = Bend along each azimuth
figure-bands-axis-heights = height, bands
figure-bands-axis-bends = bend, bands (+ crown, − dish)
figure-bands-along-ring = angle round the ring, degrees
figure-bands-along-azimuth = azimuth of the band's line, degrees
figure-bands-curve = Curve: mean and second wave.
figure-bands-place = { $bands } at { $angle }
figure-bands-alt-heights = Heights in bands round the ring, one band { $band } µm: { $places }.
figure-bands-alt-bends = Bends in bands, one band { $band } µm: { $places }.

## Drawings: chilling
figure-chilling-toric-alone = toric alone
figure-chilling-toric-on-ring = toric on its ring
figure-chilling-title = Contraction in the cold, and the core's way back
figure-chilling-smaller-by = smaller at the lip by, { $unit }
figure-chilling-minutes-in-cold = minutes in the cold of { $temperature }
figure-chilling-95-percent-after = { $toric }: 95 % after { $time }
figure-chilling-shop-rule = shop rule: 5 min (common practice, no source)
figure-chilling-core-temperature = core temperature, { $unit }
figure-chilling-minutes-in-room = minutes in the room of { $temperature }
figure-chilling-dew-point = dew point { $temperature }
figure-chilling-may-be-closed = within 2 K of the room: the joint may be closed
figure-chilling-at-once = at once
figure-chilling-after = after { $time }
figure-chilling-told = { $toric }: { $smaller } smaller, 95 % of it after { $time }, warm again after { $rewarm }
figure-chilling-alt = Contraction over time in { $cold } and core temperature over time in a room of { $room }. { $torics }. Five minutes reach { $share } % of the contraction alone.

## Drawings: closed joint
figure-closing-bar-widest = Bar: widest.
figure-closing-wider = Outside the circle: wider than the mean, { $stretch } times.
figure-closing-gap = Gap { $narrowest } to { $widest }, mean { $mean }.
figure-closing-dashed-limits = Dashed: limits.
figure-closing-title = Closed joint from above: gap and bolts
figure-closing-read = read, { $unit }
figure-closing-order-in-table = { $count } bolts: their order stands in the table.
figure-closing-bolts = { $count } bolts; the number in each is its turn. Bolt 1 at the top.
figure-closing-alt-gap = The gap of the closed joint is { $mean } on the mean, { $narrowest } at its narrowest at { $narrowest_at } and { $widest } at its widest at { $widest_at }.
figure-closing-alt-bolts = Bolts are drawn in the order { $order }.

## Drawings: codes for a camera
figure-code-alt = QR code of { $what }: { $text }
figure-code-title = QR code of { $what }

## Drawings: housings from above
figure-eccentricity-title = Housings from above: offset of the axes
figure-eccentricity-stands-off = axis of half { $half } stands off { $offset } towards { $direction }
figure-eccentricity-heavy-circle-limit = Heavy circle: limit { $limit }.
figure-eccentricity-dots = Dots: what the sweep leaves.
figure-eccentricity-bar = Bar outside: faces nearest.
figure-eccentricity-dashed = Dashed: U.
figure-eccentricity-alt = The axis of half { $half } stands off { $offset } towards { $direction }.
figure-eccentricity-alt-faces = The axis of half { $half } stands off { $offset } towards { $direction }; the faces are { $mrad } mrad out of square, nearest at { $nearest }.

## Drawings: spread of the seal gap
figure-gap-worst-case = worst case
figure-gap-root-sum-square = root-sum-square
figure-gap-sampled = sampled, 99.73 % of joints
figure-gap-title = Seal gap against its limits
figure-gap-below = below: { $share }
figure-gap-above = above: { $share }
figure-gap-axis = seal gap, { $unit }
figure-gap-nominal = nominal: { $gap }
figure-gap-alt = Distribution of the seal gap in { $draws } draws. Limits { $limits }; nominal { $nominal }; worst case { $worst_min } to { $worst_max }; root-sum-square { $rss_min } to { $rss_max }; 99.73 % of joints between { $sampled_min } and { $sampled_max }; outside the limits { $outside }.
figure-gap-others = { $count } others together
figure-gap-measured = { $link } (measured)
figure-gap-share = share of the gap's variance
figure-gap-shares-alt = Share of the gap's variance by link: { $links }.
figure-gap-shares-title = What spreads the gap

## Drawings: heights round the ring
figure-heights-no-bars = No bars: U not known.
figure-heights-plane-and-harmonic = Curve: fitted plane; dashed: with second harmonic.
figure-heights-plane = Curve: fitted plane.
figure-heights-title = Assembled height round the ring, { $whose }
figure-heights-limit = limit: { $limit } over the lowest place
figure-heights-axis = assembled height, { $unit }
figure-heights-along = angle from the paint mark, counter-clockwise, degrees
figure-heights-mean = mean: { $height }
figure-heights-suspect = suspect
figure-heights-place = { $height } at { $angle }
figure-heights-alt = Assembled heights of { $whose } in { $unit } against the angle from the paint mark, with the fitted plane: { $places }.

## Drawings: leak test
figure-leak-title = Compensated pressure over time
figure-leak-axis = absolute pressure at { $temperature } °C, kPa
figure-leak-minutes = minutes
figure-leak-settling = settling, { $time } left out
figure-leak-line = Line: { $rate } Pa m³/s.
figure-leak-readings = Full: fitted readings; open: left out.
figure-leak-alt = { $readings } readings over { $time }, each taken to one temperature; the first { $settling } left out as settling. The fitted line goes from { $first } kPa to { $last } kPa.

## Drawings: a value against its limit
figure-scale-alt = { $quantity }: { $value }; limit { $limits }.
figure-scale-title = { $quantity } against its limit

## Drawings: face load
figure-load-axis-gap = seal gap, { $unit }
figure-load-gap-limits = gap limits
figure-load-title = Face load over the seal gap
figure-load-with-change = broken line with its band: with the change
figure-load-title-change = Face load over the seal gap, with and without the change
figure-load-axis-travel = travel of the ring from the first touch, { $unit }
figure-load-disc-spring = broken line: disc-spring formula, EN 16984
figure-load-over-gap-limits = over the gap limits
figure-load-nominal-gap = nominal gap
figure-load-title-half = Face load over the travel, { $whose }
figure-load-axis-load = face load, { $unit } at the contact band's mean diameter
figure-load-whole-curve = the whole curve: first touch at { $touch } { $unit }
figure-load-at-nominal-gap = { $load } at the nominal gap, { $gap }
figure-load-at-largest-gap = { $load } at the largest gap, { $gap }
figure-load-at-smallest-gap = { $load } at the smallest gap, { $gap }
figure-load-limits = limits { $limits }
figure-load-no-limits = no limits
figure-load-smallest = smallest
figure-load-nominal = nominal
figure-load-largest = largest
figure-load-alt = Face load at the contact band's mean diameter, { $diameter }, falling as the seal gap grows: { $loads }.
figure-load-alt-half = Face load of { $whose } over the travel of its ring from the first touch.
figure-load-alt-half-end = Face load of { $whose } over the travel of its ring from the first touch, to { $load } at a travel of { $travel }.
figure-load-alt-half-nominal = Face load of { $whose } over the travel of its ring from the first touch, to { $load } at a travel of { $travel }; the nominal gap leaves it a travel of { $nominal }.

## Drawings: ring from above
figure-ring-labelled = 1 place in { $every } labelled
figure-ring-suspect = { $angle } suspect
figure-ring-no-high-side =
    no high side
    is resolved
figure-ring-way-round =
    angles run this
    way from the
    paint mark
figure-ring-high-side = high side
figure-ring-tilt = tilt { $tilt }
figure-ring-title = Ring from above, { $whose }
figure-ring-tint = Dashed circle: mean height. Tint: fitted plane above it; rays: below it.
figure-ring-no-tilt = All places stand at one height: there is no tilt to draw.
figure-ring-triangle = Triangle: a place that stands off the fitted shape.
figure-ring-open-circle = Open circle on the face: read here again.
figure-ring-try = try { $number }
figure-ring-range = range { $range }
figure-ring-try-told = try { $number }: range { $range }, { $verdict }
figure-ring-tries-alt = The tries at { $whose }, at one exaggeration: { $tries }.
figure-ring-tries-title = Tries, { $whose }
figure-ring-exaggeration = Heights are drawn about { $times } times larger than the face.
figure-ring-paint-mark = paint mark
figure-ring-alt = { $whose }: { $places } places, range { $range }, tilt { $tilt }, high side { $direction }
figure-ring-alt-suspect = the place at { $angle } stands off the shape
figure-ring-alt-press = press { $amount } at { $angle }
figure-ring-alt-lift = lift { $amount } at { $angle }
figure-ring-alt-read-here = read here { $amount } at { $angle }
figure-ring-alt-take-out = take out { $amount } at { $angle }
figure-ring-read-here = read here
figure-ring-press = press
figure-ring-lift = lift
figure-ring-take-out = take out

## Drawings: ramp finish
figure-finish-title = Traced profile { $number } and its roughness
figure-finish-axis-profile = profile, µm
figure-finish-axis-roughness = roughness, µm
figure-finish-along = along the profile, mm
figure-finish-mean-line = Curve: mean line, cut-off { $cut_off } mm. Dashed: sampling lengths.
figure-finish-not-filtered = Not filtered here. Dashed: sampling lengths.
figure-finish-alt = Trace { $number } over { $length } mm in { $sampling_lengths } sampling lengths; of all traces Ra { $ra } µm, Rq { $rq } µm, Rz { $rz } µm.

## Drawings: rubber law
figure-law-title = Stretch tests and fitted law, { $material }
figure-law-alt = Engineering stress over stretch from { $least } to { $most }, points measured and lines fitted: { $tests }.
figure-law-test = { $mode }, { $points } points, off by { $rms } MPa rms
figure-law-axis-stress = engineering stress, MPa
figure-law-axis-stretch = stretch
figure-law-points-and-lines = points measured, lines fitted

## Drawings: stages of squeezing
figure-stages-title = { $count } stages, { $whose }

## Drawings: half-sections to scale
figure-section-sizes-in-inches = sizes in inches
figure-section-sizes-in-mm = sizes in mm
figure-section-title = Half-section to scale, { $whose }
figure-section-just-touch = load rings just touch: { $touch }
figure-section-alt-closed = Closed, the nominal seal gap is { $gap }; limits { $limits }.
figure-section-joint-alt = Both halves to scale with their lapped faces together and their load rings just touching: housing face to housing face { $touch }.
figure-section-joint-title = The joint, half-section to scale
figure-section-closed = closed: nominal seal gap { $gap }, limits { $limits }
figure-section-zigzag = thin zigzag lines: not given by the definition
figure-section-axis = axis
figure-section-nominal-seal-gap = nominal seal gap { $gap }
figure-section-installed-alt = Both halves to scale as installed: lapped faces together, nominal seal gap { $gap }; assembled height of half a { $height_a }, of half b { $height_b }; the load rings are drawn as they are squeezed there.
figure-section-installed-title = The joint as installed, half-section to scale
figure-section-depth = depth { $depth }
figure-section-stands-proud = stands proud { $height } when just touching
figure-section-lip-high = lip { $height } high
figure-section-face = face
figure-section-band = band
figure-section-lip = lip
figure-section-housing-ramp = housing ramp
figure-section-ring-ramp = ring ramp
figure-section-conical-washer = conical washer
figure-section-free = free { $diameter }
figure-section-alt-toric = toric section { $diameter } on the ring
figure-section-alt-washer = conical washer between its two seats
figure-section-alt-ramps = ring ramp { $ring } and housing ramp { $housing } to the axis
figure-section-alt = Half-section of { $whose } to scale: lapped face { $face_inner } to { $face_outer }, contact band { $band_inner } to { $band_outer }
figure-section-alt-proud = the lapped face stands { $height } proud when the load ring just touches
figure-section-alt-deep = housing { $depth } deep

## Drawings: squeezed sections
figure-squeezed-largest-stretch = largest principal stretch
figure-squeezed-title = Squeezed section, { $whose }
figure-squeezed-peak = peak { $peak }
figure-squeezed-parting-line-now = parting line now
figure-squeezed-middle-line-now = middle line now
figure-squeezed-before = before
figure-squeezed-parting-line-rolled = The parting line is rolled by { $angle } from where it stood.
figure-squeezed-middle-line-rolled = The middle line is rolled by { $angle } from where it stood.
figure-squeezed-housing = housing
figure-squeezed-ring = ring
figure-squeezed-lip = lip
figure-squeezed-tool = tool
figure-squeezed-contact-pressure = contact pressure
figure-squeezed-alt-peak = largest contact pressure { $peak }
figure-squeezed-alt-stretch = largest principal stretch { $stretch }
## Report: what several of its pages say
report-page = page { $page } of { $pages }
report-caution = Caution.
report-corrected = CORRECTED by event { $event }
report-correction = CORRECTION
report-overridden = OVERRIDDEN
report-cautions = (cautions { $cautions })
report-nothing-to-do = Nothing to correct in what was measured and compared.
report-type-not-read = the report's type can't be read: the program is damaged, install it again
report-not-set = the report could not be set ({ $why }); please report this with the files that led here
report-under = under { $percent }
report-over = over { $percent }
report-travel = travel
report-roll = roll
report-stretch = stretch
report-height = height
report-whose-at-nominal-gap = { $whose }, at the nominal gap
report-whose-at-end-of-curve = { $whose }, at the end of its curve
report-range = { $from } to { $to }
report-section-as-ring-goes-in = { $whose }: its section as the ring goes in
report-squeezed-between-walls = squeezed between its walls
report-at-end-motion = at the end of the motion
report-peak-pressure = peak pressure
report-one-seal-closed-against-like = one seal, closed against its like
report-this-gap = this gap
report-gap-by-sizes = gap by the sizes
report-gap-by-feelers = mean of the feelers
report-load-below = below the limit of { $limit }
report-load-above = above the limit of { $limit }
report-load-perhaps-below = may be below the limit of { $limit }
report-load-perhaps-above = may be above the limit of { $limit }
report-load-stands-inside = inside the limits
report-u-not-known = { $value } (U not known)
report-at-least = at least { $limit }
report-at-most = at most { $limit }
report-what-to-do = What to do
report-verdict = Verdict
report-compared = Compared
report-found = Found
report-what-fits = What fits
report-figure = Figure
report-value = Value
report-source = source
report-half = half { $half }
report-half-a = Half a
report-half-b = Half b
report-gauge = Gauge
report-limit-none-stated = none stated
report-no-limit-given = no limit given
report-no-limit-to-judge = There is no limit to judge it by.
report-not-stated = not stated
report-not-known = not known
report-not-reached = not reached
report-not-swept = not swept
report-yes = yes
report-no = no
report-at = at

## Report: the agent that cleans and wets
report-agents-refused = Refused for the load ring: { $reason }.
report-agents-wet-wipe-can-be-lit-here = { $flash }: a wet wipe can be lit here
report-agents-warm-part-lights-it = { $flash }: a warm part lights it
report-agents-vapour-made = All of it evaporated makes { $litres } l of vapour.
report-agents-air-that-thins = { $air } m³ of air thin it to 25 % of the lower explosive limit.
report-agents-air-every-hour = If as much is used every hour, { $air } m³/h hold the eight-hour limit, with a factor of { $factor } for air that mixes badly.
report-agents-beside-verdict = { $what } (beside the verdict)
report-agents-may-be-used = It may wipe and wet this load ring here.
report-agents-not-proven = Not everything about it is proven.
report-agents-may-not-be-used = It may not be used so here.
report-agents-question = { $agent } on { $material }
report-agents-comparisons-fit = { $fit } of { $of } comparisons fit
report-agents-each-must-fit = each must fit
report-agents-take-another = Take an agent that evaporates without a film and is free of petroleum.
report-agents-leave-both-halves-open = Leave both halves open: { $wait }.
report-agents-use-less = Use less of it, or move more air, before it is opened.
report-agents-ask-data-sheet = Ask the compound's data sheet before it touches the load ring.
report-agents-throw-away-as = Throw away as { $disposal }.
report-agents-title = Cleaning and wetting agent
report-agents-what-it-is = what it is
report-agents-behind-load-ring = behind the load ring
report-agents-gone-after = as likely as not gone after { $likely }, almost surely after { $by }
report-agents-flash-point = flash point
report-agents-explosive-in-air-from = explosive in air from
report-agents-over-wet-wipe = over a wet wipe
report-agents-times-explosive = { $times } times that at 20 °C
report-agents-its-vapour = its vapour
report-agents-times-as-heavy-as-air = { $times } times as heavy as air: it lies at the floor
report-agents-value = value
report-agents-figures = Figures
report-agents-evaporation = evaporation

## Report: alignment of the housings
report-align-eccentricity = Eccentricity
report-align-limit = at most { $limit } mrad
report-align-limit-by-geometry = at most { $limit } mrad by the geometry
report-align-angle-u-not-known = { $angle } mrad (U not known)
report-align-to-half = Half { $half }, relative to the other half: { $found }.
report-align-to-axis = Half { $half }, relative to the axis that the indicator turned on: { $found }.
report-align-to-half-nothing = Half { $half }, relative to the other half.
report-align-to-axis-nothing = Half { $half }, relative to the axis that the indicator turned on.
report-align-offset = offset { $offset }, towards { $at }
report-align-offset-not-resolved = offset { $offset }, in a direction that is not resolved
report-align-angle = angle { $angle }, faces nearest at { $at }
report-align-angle-not-resolved = angle { $angle }, its direction not resolved
# Where a half, a place or an amount is not known, "none" is given for it.
report-align-move = { $half ->
    [none] { $by ->
        [none] Move towards { $at }.
       *[other] Move by { $by } towards { $at }.
    }
   *[other] { $by ->
        [none] Move half { $half } towards { $at }.
       *[other] Move half { $half } by { $by } towards { $at }.
    }
}
report-align-open-gap = { $half ->
    [none] { $by ->
        [none] Open the gap at { $at }.
       *[other] Open the gap at { $at } by { $by }.
    }
   *[other] { $by ->
        [none] Open the gap at { $at }, at half { $half }.
       *[other] Open the gap at { $at } by { $by }, at half { $half }.
    }
}
report-align-measure-again = { $half ->
    [none] Measure again.
   *[other] Measure half { $half } again.
}
report-align-measure-again-at = { $half ->
    [none] Measure again at { $at }.
   *[other] Measure half { $half } again at { $at }.
}
report-align-look-at-surface = { $half ->
    [none] Look at the surface.
   *[other] Look at the surface of half { $half }.
}
report-align-sweep-of-half = { $surface } of half { $half }
report-align-tip-stated = At most { $limit }°: the limit that is stated, for the housings as they stand and for a half while it is lowered.
report-align-tip = At most { $most }° by the parts as drawn: { $reasons }.
report-align-tip-no-limit = Where the seal maker states a limit, that one holds.
report-align-tip-lift = the load ring leaves its seat on the high side at { $lift }°
report-align-tip-edge = a housing's edge touches at { $edge }°
report-align-tip-innermost-edge = the innermost edge of a housing's face (a wide face allows less) touches at { $edge }°
report-align-tip-bottom = the toric runs off below on the low side at { $bottom }°
report-align-eccentricity-of-housings = eccentricity of the housings
report-align-angle-of-housings = tip of the housings to each other
report-align-nothing-was-swept = There is a limit and nothing was swept.
report-align-caution = Lock out the drive before a shaft is turned by hand, and never stand under a part that hangs: rated slings, licensed riggers, the shop's rules.
report-align-how-far-tipped = How far a half may be tipped while it is lowered
report-align-small-print = The zone of concentricity or coaxiality on a drawing (ISO 1101) is a diameter: twice the eccentricity. What a sweep leaves after its first wave is out-of-round or out-of-flat, which no move mends.
report-align-title = Alignment of the housings
report-align-first-wave = first wave, { $unit }
report-align-left = left, { $unit }
report-align-out-of-form = more than U explains
report-align-sweep = sweep
report-align-readings = readings
report-align-towards = towards

## Report: what it rests on
report-basis-terms = ± and U stand for the expanded uncertainty, k = 2, about 95 %. Angles run counter-clockwise from the paint mark, seen facing the lapped face. Assembled height is from the housing face to the lapped face, positive where the lapped face stands proud. The range is the highest place less the lowest. The tilt is that of the least-squares plane, peak to peak round the measuring circle; the second harmonic is the amplitude of an oval about it, with two highs and two lows.
report-basis-drawn = A value conforms where the probability of conformity is { $accept } or more, does not conform where it is { $reject } or less, and is not proven in between.
report-basis-drawn-apart = Half a: a value conforms where the probability of conformity is { $accept_a } or more, does not conform where it is { $reject_a } or less, and is not proven in between. Half b: a value conforms where the probability of conformity is { $accept_b } or more, does not conform where it is { $reject_b } or less, and is not proven in between.
report-basis-repeats = { $uncertainty } (cancels in range and tilt, not in mean height)
report-basis-does-not-repeat = { $uncertainty }, without the resolution
report-basis-caliper = caliper
report-basis-rule = rule
report-basis-files-that-were-read = Files that were read
report-basis-how-verdicts-are-drawn = How verdicts are drawn
report-basis-title = What this rests on
report-basis-no-files = No file names were handed in with the values.
report-basis-ring-batch = Ring batch
report-basis-load-ring-batch = Load ring batch
report-basis-load-ring-cured = Load ring cured
report-basis-load-ring = Load ring
report-basis-no-gauge = No gauge was named: the uncertainty is what was stated with the readings, or what the rounds show.
report-basis-depth-gauge = depth gauge
report-basis-depth-micrometer = depth micrometer
report-basis-indicator-on-stand = indicator on a stand
report-basis-feeler-blades = feeler blades
report-basis-standard-uncertainty-that-repeats = Standard uncertainty that repeats
report-basis-standard-uncertainty-that-does-not = Standard uncertainty that does not
report-basis-due-again = Due again
report-basis-overdue = Gauge { $name }: its calibration was due on { $due }, before this report was made. Have it calibrated and check what it measured since.
report-basis-no-sources = No sources were handed in.
report-basis-what = What
report-basis-file = File
report-basis-parts = Parts
report-basis-sources = Sources
report-basis-part = Part
report-basis-seal = Seal
report-basis-drawing = Drawing
report-basis-kind = Kind
report-basis-resolution = Resolution
report-basis-calibration = Calibration

## Report: chilling
report-chill-caution = Deep cold burns skin on touch: insulating gloves and eye shield. Dry ice and cold gases drive out the air: never in a closed room, car or sealed box. The seal maker's instruction and the safety data sheet of a cold liquid stand before this page.
report-chill-question = chilling to { $cold }
report-chill-air = The room's air has { $room } and { $humidity } of humidity; its dew point is { $point }
report-chill-air-without-water = The room's air has { $room } and { $humidity } of humidity; it holds no water
report-chill-air-and-toric = { $air }: { $forms }.
report-chill-may-be = This toric may be chilled so cold.
report-chill-is-warm-again = Core and ring are warm again.
report-chill-not-proven = The family's figures do not prove it: the data sheet decides.
report-chill-may-not = This toric may not be chilled so cold.
report-chill-file-forbids = The seal's file does not allow chilling.
report-chill-too-short = It was not in the cold for long enough.
report-chill-perhaps-too-short = It may not have been in the cold for long enough.
report-chill-not-warm = It is not warm again yet.
report-chill-perhaps-not-warm = It may not be warm again yet.
report-chill-contraction = { $contraction } at the lip, on its ring
report-chill-limit = seal's instruction and material
report-chill-do-not = Do not chill this toric so cold.
report-chill-do-not-by-file = Do not chill this toric: its seal's file does not allow it.
report-chill-ask-data-sheet = Before it goes into the cold, see in the compound's data sheet whether it may.
report-chill-leave-in-cold = Leave it in the cold: on its ring, 95 % of the contraction is reached { $through } after it went in.
report-chill-leave-in-room = Leave it in the room and the joint open: core and ring are within 2 K of it { $warm } after it came out of the cold.
report-chill-wait = Do not close before core and ring are within 2 K of the room: about { $wait } after a toric cold all through.
report-chill-in-a-bag = Chill it in a closed bag; wipe toric and ramps dry before they meet.
report-chill-ring-assumed = No ring was given: the toric is taken to sit unstretched on one of two to five times its volume.
report-chill-ring-given = On its ring: the hoop follows the metal, and the metal's heat goes the same way.
report-chill-shop-rule = Shop rule: { $rule } ({ $source }). Here five minutes reach { $alone } of the contraction alone and { $on_ring } on the ring; the mean of the toric alone is then { $mean } ± { $expanded } K.
report-chill-may-it-be-chilled = May it be chilled?
report-chill-ranges-behind-uncertainty = Ranges behind the uncertainty
report-chill-toric-alone = toric alone
report-chill-on-ring = on its ring
report-chill-smaller-at-lip-by = smaller at the lip by
report-chill-95-after = 95 % of it after
report-chill-in-room-half-lost-after = in the room, half of it lost after
report-chill-in-room-within-2-k = in the room, core and ring within 2 K after
report-chill-in-room-takes-up-water-for = in the room, takes up water for
report-chill-no-time = no time
report-chill-cold = { $room }, cold { $cold }
report-chill-wider-than-lip-by = wider than the lip by
report-chill-nothing-forms = nothing forms on the cold toric
report-chill-may-be-wet = the cold toric is within a kelvin of it and may be wet
report-chill-dew-forms = dew forms on the cold toric
report-chill-frost-forms = frost forms on the cold toric and melts to water
report-chill-from = from
report-chill-to = to
report-chill-unit = unit
report-chill-title = Chilling

## Report: closing
report-close-out-of-parallel = Out of parallel by { $off }, widest at { $at }.
report-close-out-of-parallel-with-tilt = Out of parallel by { $off }, widest at { $at }, a tilt of { $tilt } mrad.
report-close-not-resolved = Out of parallel by { $off }, its direction not resolved.
report-close-not-resolved-with-tilt = Out of parallel by { $off }, its direction not resolved, a tilt of { $tilt } mrad.
report-close-within-limits-with-probability = Within the limits with probability { $probability }.
report-close-load-at-narrowest = Face load where it is narrowest: { $load }.
report-close-load-at-widest = Face load where it is widest: { $load }.
report-close-question = gap of the closed joint, all round
report-close-pull-down-order = Pull-down order ({ $source })
report-close-bolts-each-round = Bolts, each round: { $bolts }.
report-close-of-readings = The plane of least squares through the readings; the narrowest and the widest of plane and readings are judged each by itself.
report-close-of-order = Order and equal steps only: the torque is the job sheet's.
report-close-gap = gap, { $unit }
report-close-off-plane = off the plane, { $unit }
report-close-stands-off = stands off
report-close-of-the-way = of the way
report-close-force-all-round = force all round
report-close-on-each-bolt = on each bolt
report-close-alone = alone
report-close-step = step
report-close-title = Closing

## Report: its first page
cover-half-deed = Half { $half }: { $deed }
cover-cautions-first = Before any of this is done, read the caution on the pages that it comes from. Safety data sheets, local codes and the shop's safety rules stand above this page.
cover-kind = Metal face seal joint · fitting report
cover-this-joint-conforms = This joint conforms.
cover-this-joint-not-proven = This joint is not proven.
cover-this-joint-does-not-conform = This joint does not conform.
cover-shaft-horizontal = shaft horizontal
cover-shaft-vertical = shaft vertical
cover-all-keeps = Everything that was measured and compared keeps its limits, the uncertainty taken in.
cover-not-proven = Not proven: { $open }.
cover-does-not-conform = Does not conform: { $broken }.
cover-does-not-conform-not-proven = Does not conform: { $broken }. Not proven: { $open }.
cover-measure-height = Measure the assembled height round the ring.
cover-shop = Shop
cover-machine = Machine
cover-attitude = Attitude
cover-made = Made

## Report: face load
report-load-no-limit = no limit
report-load-no-limit-is-given = no limit is given
report-load-no-figure = no figure
report-load-value = { $load } at the nominal gap
report-load-deed = Face load: { $why }
report-load-oil-caution = The friction below which a toric would slide instead of roll is no leave to oil a ramp. It holds for one friction all round, and can't see a patch of oil, a twist or the entry past the lip. Fit the toric and the ramps clean and dry unless the seal maker's instruction says otherwise.
report-load-finding = half { $half }: { $found }; { $fits }: { $verdict } [{ $sources }].
report-load-at-the = At the
report-load-of-the-half = Of the half
report-load-travel-a = Travel a, { $length }
report-load-weight-shaft-standing = Weight of the ring: added above, taken off below, shaft standing
report-load-weight-shaft-level = Weight of the ring: no part in the load, shaft level
report-load-not-known-at-nominal-gap = not known at the nominal gap
report-load-over-gap-limits = Face load over the gap limits, uncertainty taken in
report-load-question = face load
report-load-inside = Inside its limits at every gap that the joint may close to, the uncertainty taken in.
report-load-outside = Outside its limits at a gap that the joint may close to, the uncertainty taken in.
report-load-not-solved = The curve was not solved to its end: no verdict is drawn from it.
report-load-not-reached = The curve does not reach every gap that the joint may close to.
report-load-no-limits = The seals' definitions give no limits of the face load.
report-load-covers-limit = The uncertainty of the load covers a limit: have the rubber's modulus measured.
report-load-measure-modulus = Face load: have the modulus of this batch of load rings measured; hardness alone leaves it too uncertain.
report-load-compare = Face load: compare load ring, ramps and gap with the drawing before the joint is closed; a shim that opens the gap takes load off, one that closes it adds load.
report-load-title = Face load
report-load-not-computed = The face load was not computed for this report: nothing is said about it.
report-load-each-half = Each half
report-load-how-well-load-known = How well the load is known
report-load-small-print = Face load is the axial force over the circumference at the contact band's mean diameter, { $diameter }. Each load ring is solved by finite elements as a squeezed section that sticks or slides on its ramps or seats; both halves then carry one force and share the travel that the gap leaves them. Travel counts from where the load ring just touches both sides. The sections are drawn between two solved steps, each node on a straight line.
report-load-mean-of-gap = mean of the gap
report-load-gap = Gap, { $length }
report-load-load-and-u = Load ± U, { $unit }
report-load-force-all-round = Force all round
report-load-face-pressure = Face pressure, { $unit }
report-load-travel-b = Travel b, { $length }
report-load-inside-limits = Inside its limits
report-load-smallest-gap = smallest gap
report-load-nominal-gap = nominal gap
report-load-largest-gap = largest gap
report-load-assembled-height-where-load-ring-just = Assembled height where the load ring just touches
report-load-assembled-height-at-nominal-gap = Assembled height at the nominal gap
report-load-roll-section-there = Roll of the section there
report-load-largest-contact-pressure-there-over-tenth = Largest contact pressure there, over a tenth of the section
report-load-largest-principal-stretch-there = Largest principal stretch there
report-load-largest-stretch-over-least-elongation-at = Largest stretch, over the least elongation at break
report-load-travel-from-which-curve-twice-as = Travel from which the curve is twice as steep as in its middle
report-load-clear-retaining-lip = clear of the retaining lip, the least from the largest gap to the smallest
report-load-friction-that-rolling-asks-for-one = Friction that rolling asks for, one all round
report-load-beyond-curve = beyond the curve
report-load-no-lip = no lip
report-load-does-not-roll = does not roll
report-load-steel = { $whose }: a steel washer, with the modulus of its definition; its edges slide with a friction of { $friction } where none is stated (common practice, no source).
report-load-modulus-measured = { $whose }: Young's modulus { $young } MPa, measured; U = { $u } of it goes into the load.
report-load-modulus-tests = { $whose }: Young's modulus { $young } MPa at zero strain, with the law fitted to the material's stretch tests; U = { $u } of the stress goes into the load.
report-load-modulus-hardness = { $whose }: Young's modulus { $young } MPa, from hardness alone. The published relations differ by up to a factor of 1.6 and compounds scatter about them: U = { $u } of it goes into the load.
report-load-error-band = The computed forces lie within { $band } % for a given modulus past the first tenth of the travel; each point's own band is taken in too, and drawn about the curve.
report-load-first-loading = The curve is that of the first slow loading of a new, dry load ring. One that has been worked is softer, and rubber relaxes with time: neither is in these numbers.
report-load-closing-joint = Closing the joint
report-load-closing-caution = At the nominal gap the load rings push the halves apart with { $force }, and with more where the gap is smaller. Draw the halves together and let them go evenly, with long bolts or a press rated for it; undone bolt by bolt they spring apart. Keep hands from between the halves. Follow the seal maker's instruction and the shop's safety rules; where they differ from this page, they stand.
report-load-closing-force = Closing force for the whole ring at the nominal gap: { $force }. Bolts or a press must supply it besides what the joint itself needs.

## Report: flatness of the lapped face
report-flat-crown = The face is a crown, high in the middle
report-flat-dish = The face is a dish, low in the middle
report-flat-saddle = The face is a saddle, high along one azimuth and low along another
report-flat-straight = The bands are straight
report-flat-crown-or-dish = The bands are closed: a crown or a dish, nobody pressed to tell
report-flat-wavy = The face is wavy round the ring
report-flat-told = { $shape }.
report-flat-not-told = { $shape }, though that is not told from chance.
report-flat-second-wave = Second wave { $bands } bands, crest at { $crest }.
report-flat-probability = Within the limit with probability { $probability }.
report-flat-all = all
report-flat-u-bands = U, bands
report-flat-question = flatness of the lapped face
report-flat-limit = at most { $bands } bands, { $um } µm
report-flat-value = { $um } ± { $expanded } µm, { $bands } bands
report-flat-value-u-not-known = { $um } µm, { $bands } bands (U not known)
report-flat-small-print = Light: { $source }, { $wavelength } nm; one band is { $band } µm of air gap as it was seen. Peak to valley; a wedge does not count, and the flat's own error is left out.
report-flat-title = Flatness of the lapped face
report-flat-read-bands = read, bands
report-flat-height-bands = height, bands

## Report: seal gap and dimension chain
report-gap-outside-share = Outside: { $outside }.
report-gap-centre-none-listed = Seal gap: a shim of { $amount } centres it between its limits; no shim on hand was listed.
report-gap-centre-none-fits = Seal gap: a shim of { $amount } centres it between its limits; none of the shims on hand makes it conform.
report-gap-take-out-none-listed = Seal gap: take { $amount } out of the stack to centre it between its limits; no shim on hand was listed.
report-gap-take-out-none-fits = Seal gap: take { $amount } out of the stack to centre it between its limits; none of the shims on hand makes it conform.
report-gap-measure-first = Measure “{ $link }” first: it makes { $share } of the spread.
report-gap-fit-one = Seal gap: fit the shim of { $shim } { $unit } from those on hand. That opens the mean gap to { $gap }, with { $outside } outside the limits.
report-gap-fit-several = Seal gap: fit the shims { $shims } { $unit } ({ $together } together) from those on hand. That opens the mean gap to { $gap }, with { $outside } outside the limits.
report-gap-measured = measured
report-gap-none = none
report-gap-root-sum-square = Root-sum-square
report-gap-of-the-gap = Of the gap
report-gap-scale = Seal gap, 99.73 % of joints
report-gap-all-inside = As good as every joint made to this chain is inside the limits.
report-gap-some-outside = Some joints made to this chain are outside the limits: measure its links.
report-gap-all-outside = As good as every joint made to this chain is outside the limits.
report-gap-question = seal gap
report-gap-none-in-draws = none in { $draws } draws
report-gap-dimension-chain = The dimension chain
report-gap-small-print = { $draws } quasi-random draws, seed { $seed }. + opens the gap, − closes it. Root-sum-square is about the middle of the worst case. A measured link's value and standard uncertainty stand in the place of its tolerance.
report-gap-title = Seal gap
report-gap-from = From, { $unit }
report-gap-to = To, { $unit }
report-gap-worst-case-every-link-at-worst = Worst case: every link at its worst
report-gap-sampled-99-73-joints = Sampled: 99.73 % of joints
report-gap-nominal-gap = Nominal gap
report-gap-mean-of-gap = Mean of the gap
report-gap-standard-deviation = Standard deviation
report-gap-joints-below-smallest-gap = Joints below the smallest gap
report-gap-joints-above-largest-gap = Joints above the largest gap
report-gap-shim-that-centres-gap-opens = Shim that centres the gap (+ opens)
report-gap-size = Size, { $unit }
report-gap-as-written = As written
report-gap-std-deviation = Std deviation, { $unit }
report-gap-no-shim-needed = No shim is needed: the gap conforms without one.
report-gap-shims-on-hand = Shims on hand
report-gap-pieces = Pieces, { $unit }
report-gap-together = Together, { $unit }
report-gap-mean = Mean gap, { $unit }
report-gap-further-sets-not-listed = { $more } further sets are not listed.
report-gap-view = View
report-gap-link = Link
report-gap-share = Share
report-gap-outside = Outside
report-gap-sign = Sign
report-gap-limits = Limits

## Report: assembled height of a half
report-height-question-range = half { $half }, height round the ring
report-height-question-mean = half { $half }, mean assembled height
report-height-title = Half { $half }: assembled height
report-height-range = range { $range }
report-height-mean = mean { $mean }
report-height-range-of-half = Range of the assembled height, half { $half }
report-height-mean-of-half = Mean assembled height, half { $half }
report-height-probability = Probability that it conforms: { $probability }.
report-height-nothing-known = No uncertainty is known, so nothing can be proven.
report-height-rounds-disagree = The rounds differ by more than the gauge explains: something moved between them, or a reading was taken wrongly.
# "none" is given for a place or an amount that is not known.
report-height-press = { $at ->
    [none] { $by ->
        [none] press the ring down.
       *[other] press the ring down by about { $by }.
    }
   *[other] { $by ->
        [none] press the ring down at { $at }.
       *[other] press the ring down at { $at } by about { $by }.
    }
}
report-height-lift = { $at ->
    [none] { $by ->
        [none] lift the load ring.
       *[other] lift the load ring by about { $by }.
    }
   *[other] { $by ->
        [none] lift the load ring at { $at }.
       *[other] lift the load ring at { $at } by about { $by }.
    }
}
report-height-measure-again = { $at ->
    [none] measure again.
   *[other] measure again at { $at }.
}
report-height-range-and-u = Range ± U
report-height-value-and-u = Value ± U
report-height-u = U, { $unit }
report-height-not-resolved = { $direction } (not resolved)
report-height-angle-u-not-known = { $angle }° (U not known)
report-height-one = one
report-height-averaged = { $rounds }, averaged
report-height-suspect = { $rounds }; suspect
report-height-row-mean = Mean height
report-height-tilt-peak-peak = Tilt, peak to peak
report-height-diameter-not-known = diameter not known
report-height-tilt-as-angle = Tilt as an angle
report-height-high-side = High side
report-height-too-few-places = too few places
report-height-second-harmonic = Second harmonic
report-height-height = Height, { $unit }
report-height-off-plane = Off plane
report-height-quantity = Quantity
report-height-limit = Limit
report-height-angle = Angle
report-height-rounds = Rounds
report-height-row-range = Range
report-height-not-measured = This half was not measured.
report-height-no-readings = no readings
report-height-nothing-compare = nothing to compare
report-height-no-limit = No limit is given, so nothing is judged.
report-height-not-measured-text = This half was not measured: there are no readings, and no verdict but “not proven”.
report-height-readings-place-by-place = Readings, place by place
report-height-take-out = take the half out and start again.
report-height-tries-so-far = The tries so far
report-height-from-gauge = from the gauge's definition
report-height-as-stated-with-readings = as stated with the readings
report-height-estimated-from-rounds = estimated from the rounds
report-height-not-known = not known: neither a gauge nor rounds to go by
report-height-small-print = Readings: { $file }. Standard uncertainty of one reading, the part that differs from reading to reading: { $u }.
report-height-try = Try
report-height-tilt = Tilt
report-height-readings = Readings
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
check-alignment-tip-limit = Largest tip of the halves to each other, in place of the file's
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
   *[hours] follow-up at { $hours }
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
refusal-unprintable = `{ $name }` holds a character that can't be printed
refusal-empty-file = the file of `{ $name }` is empty
refusal-name-file-that-holds-it = name the file that holds it
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
store-has-keeper = there is a keeper in this store by now
store-not-first = there are people in this store already
store-no-person = there is no person named { $name }
store-other-history = job { $job } is here with another history from event { $event } on
store-refused = job { $job }, event { $event }: { $why }
store-other-request = the key `{ $key }` stands for another request
store-exists = { $path } is there already

## Settings of a check by their names, as a history tells them, and the words that some are one of
setting-name-agent = agent
setting-name-air-changes = air changes
setting-name-air-speed = air speed
setting-name-amount = amount
setting-name-atmosphere = atmosphere
setting-name-bay = bay
setting-name-bend = bend
setting-name-bolts = bolts
setting-name-bubble-diameter = bubble diameter
setting-name-bubbles = bubbles
setting-name-by = by
setting-name-closed = closed
setting-name-coefficient = coefficient
setting-name-cold = cold
setting-name-cut-off = cut off
setting-name-depth = depth
setting-name-diameter = diameter
setting-name-dry = dry
setting-name-edition = edition
setting-name-face-diameter = face diameter
setting-name-feed = feed
setting-name-filtered = filtered
setting-name-free-height = free height
setting-name-free-height-uncertainty = free height uncertainty
setting-name-friction-uncertainty = friction uncertainty
setting-name-give = give
setting-name-housing-diameter = housing diameter
setting-name-humidity = humidity
setting-name-in-cold = in cold
setting-name-limit = limit
setting-name-medium = medium
setting-name-moves = moves
setting-name-over = over
setting-name-plus = plus
setting-name-pressed = pressed
setting-name-pressure = pressure
setting-name-pressure-resolution = pressure resolution
setting-name-room = room
setting-name-room-coefficient = room coefficient
setting-name-rule = rule
setting-name-sag = sag
setting-name-since = since
setting-name-soak = soak
setting-name-source = source
setting-name-spacing = spacing
setting-name-step = step
setting-name-steps = steps
setting-name-temperature-resolution = temperature resolution
setting-name-temperature-uncertainty = temperature uncertainty
setting-name-tip-limit = tip limit
setting-name-top = top
setting-name-uncertainty = uncertainty
setting-name-view = view
setting-name-volume = volume
setting-name-volume-uncertainty = volume uncertainty
setting-name-wanted = wanted
setting-name-wavelength = wavelength
setting-name-wet = wet
setting-word-a = half a
setting-word-b = half b
setting-word-in = in counts up
setting-word-out = out counts up
setting-word-still-air = still air
setting-word-moving-air = moving air
setting-word-liquid = liquid
setting-word-helium = helium
setting-word-sodium = sodium
setting-word-mercury-green = mercury, green line
setting-word-towards = towards the pressure
setting-word-away = away from the pressure
setting-word-gauge = gauge
setting-word-absolute = absolute
setting-word-immersion = immersion
setting-word-film = film
setting-word-dry = dry
setting-word-wet = wet
setting-word-iso-4287 = ISO 4287
setting-word-iso-21920 = ISO 21920
setting-word-16-percent = 16 % rule
setting-word-max = max rule
