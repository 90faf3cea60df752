#!/usr/bin/env python3
"""Fifty tablets at one bench, for a bounded time: latencies, memory, and whether anything that was
acknowledged is lost when the program is killed and started again in the middle.

    bench/pages.py [--program FILE] [--store FILE] [--core N] [--tablets N] [--seconds N] [--kill]

Two times are told. The server's own is what it says itself in `Server-Timing` (W3C): from the head
of the request to the head of its answer, waiting for the store and for a thread taken in. The
tablet's is what this script saw: fifty threads of one interpreter are slower than the server, so
it holds their waiting for each other too. On a core of its own the server can't be slowed by them.

Standard library only. The store, the people and the jobs are made for the run and thrown away; a
store that is given is copied.
"""

import argparse
import http.client
import json
import os
import pathlib
import random
import re
import shutil
import subprocess
import tempfile
import threading
import time

HERE = pathlib.Path(__file__).resolve().parent.parent
# The store of many jobs has people of its own.
PERSON = "Tess Tablet"
PASSPHRASE = "river stone coat nine"


class Server:
    """The program on a store; started again it has the same port."""

    def __init__(self, program, store, core):
        self.command = [program, "bench", "--store", store]
        self.cores = None if core is None else {core}
        self.port = 0
        self.process = None

    def start(self):
        """Starts it and gives the time until its first page, in ms."""
        begun = time.perf_counter()
        self.process = subprocess.Popen(
            [*self.command, "--port", str(self.port)], stdout=subprocess.PIPE, text=True,
            preexec_fn=self.cores and (lambda: os.sched_setaffinity(0, self.cores)),
        )
        self.port = int(self.process.stdout.readline().rsplit(":", 1)[1])
        connection = self.connection()
        connection.request("GET", "/sign-in")
        connection.getresponse().read()
        return (time.perf_counter() - begun) * 1e3

    def connection(self):
        return http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)

    def resident_mb(self):
        """The most that it has held, from the kernel."""
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmHWM:\s+(\d+)", status)[1]) / 1024


class Tablet:
    """One tablet with its own connection; all share one person's session."""

    def __init__(self, server, session):
        self.server = server
        self.session = session
        self.connection = None
        self.served = None

    def ask(self, method, path, body=None, key=None):
        """Status and text; raises OSError where the line is cut. `served` is the server's own time,
        in ms."""
        if self.connection is None:
            self.connection = self.server.connection()
        headers = {"cookie": self.session["cookie"], "x-csrf-token": self.session["token"]}
        if body is not None:
            headers["content-type"] = "application/json"
            body = json.dumps(body)
        if key is not None:
            headers["idempotency-key"] = key
        try:
            self.connection.request(method, path, body, headers)
            answer = self.connection.getresponse()
            said = re.search(r"dur=([0-9.]+)", answer.getheader("server-timing", ""))
            self.served = float(said[1]) if said else None
            return answer.status, answer.read().decode()
        except (OSError, http.client.HTTPException) as error:
            self.connection.close()
            self.connection = None
            raise OSError(str(error)) from error


def sign_in(server, session):
    connection = server.connection()
    body = json.dumps({"name": PERSON, "passphrase": PASSPHRASE, "device": "bench"})
    connection.request("POST", "/api/session", body, {"content-type": "application/json"})
    answer = connection.getresponse()
    text = answer.read()
    assert answer.status == 200, text
    session["token"] = json.loads(text)["csrf_token"]
    session["cookie"] = answer.getheader("set-cookie").split(";")[0]


def joint():
    folder = HERE / "examples" / "final-drive"
    names = ["frame-half.toml", "hub-half.toml"]
    return {
        "joint": (folder / "joint.toml").read_text(),
        "files": {name: (folder / name).read_text() for name in names},
    }


def turn_of(number, turn, job, state):
    """What a tablet does next, and what that is called in the table."""
    if job is None:
        return "open a job", ("POST", "/api/jobs", joint(), f"job of {number}")
    job, expected = job
    if turn % 4 == 0:
        given = [{"kind": "tick", "name": name, "answer": "yes"}
                 for name in ("locked-out", "pressure-off")]
        deed = {"kind": "record", "step": "make-safe", "half": None, "given": given}
        asked = ("POST", f"/api/jobs/{job}/events", {"expected": expected, "deed": deed},
                 f"tablet {number} turn {turn}")
        return "record a step", asked
    # Every third page of a job is one that nobody had open lately.
    others = state["others"]
    old = others[(number * 7919 + turn * 104729) % len(others)] if others else job
    pages = [
        ("list of jobs", "/jobs"),
        ("page of a job", f"/jobs/{old if turn % 3 == 0 else job}"),
        ("page of a step", f"/jobs/{job}/steps/drain"),
        ("search", f"/jobs?search={old[-3:]}"),
        ("poll of a job", f"/api/jobs/{job}"),
    ]
    name, path = pages[turn % len(pages)]
    return name, ("GET", path, None, None)


def work(tablet, number, state):
    """Polls and writes until the time is over; keeps what was acknowledged."""
    job, turn = None, 0
    own = random.Random(number)
    # Fitters don't come in through the door all at once, and nobody breathes in step with others:
    # after equal pauses, tablets that once waited together would come together ever after.
    time.sleep(state["arrival"] * number / state["tablets"])
    while time.time() < state["until"]:
        turn += 1
        name, asked = turn_of(number, turn, job, state)
        while True:
            begun = time.perf_counter()
            try:
                status, text = tablet.ask(*asked)
                break
            except OSError:
                # The same request again, with the same key, until it is answered.
                if time.time() > state["until"] + 20:
                    return
                time.sleep(0.05)
        took = (time.perf_counter() - begun) * 1e3
        served = tablet.served
        if status == 401:
            with state["lock"]:
                status, _ = tablet.ask("GET", "/api/jobs?most=0")
                if status == 401:
                    sign_in(tablet.server, tablet.session)
            turn -= 1
            continue
        with state["lock"]:
            state["took"].setdefault(name, []).append((took, served))
            if status == 201:
                answer = json.loads(text)
                job = (answer["job"], answer["expected"])
                state["acknowledged"][job[0]] = job[1]
            elif status >= 400:
                state["odd"].append((status, text[:200]))
        time.sleep(state["pause"] * own.uniform(0.5, 1.5))


def row(name, times):
    times = sorted(times)
    if not times:
        return
    at = lambda share: times[min(len(times) - 1, int(len(times) * share))]
    print(f"  {name:15} {len(times):6}   median {at(0.5):6.1f} ms   99 % {at(0.99):6.1f} ms   "
          f"longest {times[-1]:7.1f} ms")


def table(took):
    """Times by what was asked, then reads, writes and all together."""
    both = [(name, served, seen) for name, times in took.items() for seen, served in times]
    writes = ("open a job", "record a step")
    for title, column in (("server's own time", 1), ("as the tablets saw it", 2)):
        told = [(one[0], one[column]) for one in both if one[column] is not None]
        if not told:
            continue
        print(title)
        for name in sorted(took):
            row(name, [time for asked, time in told if asked == name])
        row("all reads", [time for asked, time in told if asked not in writes])
        row("all writes", [time for asked, time in told if asked in writes])
        row("all", [time for _, time in told])


def options():
    wanted = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    wanted.add_argument("--program", default=str(HERE / "target/release/ringtrue"))
    wanted.add_argument("--store", help="a store to begin with, which is copied")
    wanted.add_argument("--core", type=int, help="the one core that the server runs on")
    wanted.add_argument("--tablets", type=int, default=50)
    wanted.add_argument("--seconds", type=int, default=20)
    wanted.add_argument("--pause", type=float, default=0.5,
                        help="mean pause between two requests of a tablet, s")
    wanted.add_argument("--kill", action="store_true", help="kill it in the middle")
    return wanted.parse_args()


def run(given, server, session):
    """All tablets at work, until the time is over; what came of it."""
    sign_in(server, session)
    _, text = Tablet(server, session).ask("GET", "/api/jobs?most=200&skip=500")
    state = {"until": time.time() + given.seconds, "lock": threading.Lock(), "took": {},
             "acknowledged": {}, "odd": [], "pause": given.pause, "tablets": given.tablets,
             "arrival": given.seconds / 4,
             "others": [line["id"] for line in json.loads(text)["jobs"]]}
    tablets = [threading.Thread(target=work, args=(Tablet(server, session), number, state))
               for number in range(given.tablets)]
    for tablet in tablets:
        tablet.start()
    if given.kill:
        time.sleep(given.seconds / 2)
        server.process.kill()
        server.process.wait()
        print(f"killed; first page {server.start():.0f} ms after it was started again")
    for tablet in tablets:
        tablet.join()
    return state


def main():
    given = options()
    with tempfile.TemporaryDirectory() as folder:
        store = os.path.join(folder, "record.db")
        if given.store:
            shutil.copyfile(given.store, store)
        subprocess.run(
            [given.program, "person", "add", PERSON, "--role", "fitter", "--store", store],
            env={**os.environ, "RINGTRUE_NEW_PASSPHRASE": PASSPHRASE},
            check=True, stdout=subprocess.DEVNULL,
        )
        # Pages of the copy that are still to be written are no work of the server's.
        os.sync()
        if given.core is not None:
            # Alone there: this script keeps off it.
            os.sched_setaffinity(0, os.sched_getaffinity(0) - {given.core})
        server = Server(given.program, store, given.core)
        print(f"first page {server.start():.0f} ms after start")
        session = {}
        state = run(given, server, session)
        table(state["took"])
        print(f"resident at most {server.resident_mb():.0f} MB")
        lost = 0
        reader = Tablet(server, session)
        for job, expected in state["acknowledged"].items():
            status, text = reader.ask("GET", f"/api/jobs/{job}")
            lost += status != 200 or json.loads(text)["expected"] < expected
        print(f"{len(state['acknowledged'])} jobs acknowledged, {lost} of them short, "
              f"{len(state['odd'])} odd answers {state['odd'][:3]}")
        server.process.terminate()
        server.process.wait()
        verified = subprocess.run(
            [given.program, "job", "verify", "--all", "--store", store],
            capture_output=True, text=True, check=False,
        )
        print(verified.stdout.splitlines()[0] if verified.stdout else verified.stderr)
        if lost or state["odd"] or verified.returncode:
            raise SystemExit(1)


if __name__ == "__main__":
    main()
