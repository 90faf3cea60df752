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
report-measured-gap = measured gap
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
report-agents-refused = Refused for the toric: { $reason }.
report-agents-wet-wipe-can-be-lit-here = { $flash }: a wet wipe can be lit here
report-agents-warm-part-lights-it = { $flash }: a warm part lights it
report-agents-vapour-made = All of it evaporated makes { $litres } l of vapour.
report-agents-air-that-thins = { $air } m³ of air thin it to 25 % of the lower explosive limit.
report-agents-air-every-hour = If as much is used every hour, { $air } m³/h hold the eight-hour limit, with a factor of { $factor } for air that mixes badly.
report-agents-beside-verdict = { $what } (beside the verdict)
report-agents-may-be-used = It may wipe and wet this toric here.
report-agents-not-proven = Not everything about it is proven.
report-agents-may-not-be-used = It may not be used so here.
report-agents-question = { $agent } on { $material }
report-agents-comparisons-fit = { $fit } of { $of } comparisons fit
report-agents-each-must-fit = each must fit
report-agents-take-another = Take an agent that evaporates without a film and is free of petroleum.
report-agents-leave-both-halves-open = Leave both halves open: { $wait }.
report-agents-use-less = Use less of it, or move more air, before it is opened.
report-agents-ask-data-sheet = Ask the compound's data sheet before it touches the toric.
report-agents-throw-away-as = Throw away as { $disposal }.
report-agents-title = Cleaning and wetting agent
report-agents-what-it-is = what it is
report-agents-behind-toric = behind the toric
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
report-align-tip = At most { $most }° by the parts as drawn: { $reasons }. Where the seal maker states a limit, that one holds.
report-align-tip-lift = the load ring leaves its seat on the high side at { $lift }°
report-align-tip-edge = a housing's edge touches at { $edge }°
report-align-tip-innermost-edge = the innermost edge of a housing's face (a wide face allows less) touches at { $edge }°
report-align-tip-bottom = the toric runs off below on the low side at { $bottom }°
report-align-eccentricity-of-housings = eccentricity of the housings
report-align-angle-of-housings = angle of the housings
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
report-chill-may-be = This toric may be chilled so far.
report-chill-not-proven = The family's figures do not prove it: the data sheet decides.
report-chill-may-not = This toric may not be chilled so far.
report-chill-contraction = { $contraction } at the lip, on its ring
report-chill-limit = seal's instruction and material
report-chill-do-not = Do not chill this toric so far.
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
report-close-small-print = The plane of least squares through the readings; the narrowest and the widest of plane and readings are judged each by itself. Order and equal steps only: the torque is the job sheet's.
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
report-load-clear-retaining-lip-at-end-curve = Clear of the retaining lip at the end of the curve
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
