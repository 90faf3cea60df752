#!/usr/bin/env python3
"""Fifty tablets at one bench, for a bounded time: latencies, memory, and whether anything that was
acknowledged is lost when the program is killed and started again in the middle.

    bench/pages.py [--program FILE] [--jobs N] [--tablets N] [--seconds N]

Standard library only. The store, the people and the jobs are made for the run and thrown away.
"""

import argparse
import http.client
import json
import os
import pathlib
import subprocess
import tempfile
import threading
import time

HERE = pathlib.Path(__file__).resolve().parent.parent
PASSPHRASE = "river stone coat nine"
PORT = 7491


def start(program, store):
    """Starts the bench and gives it with the time until its first page."""
    begun = time.perf_counter()
    bench = subprocess.Popen(
        [program, "bench", "--port", str(PORT), "--store", store],
        stdout=subprocess.PIPE, text=True,
    )
    bench.stdout.readline()
    connection = http.client.HTTPConnection("127.0.0.1", PORT)
    connection.request("GET", "/sign-in")
    connection.getresponse().read()
    return bench, (time.perf_counter() - begun) * 1e3


class Tablet:
    """One tablet with its own connection; all share one person's session."""

    def __init__(self, session):
        self.session = session
        self.connection = None

    def ask(self, method, path, body=None, key=None):
        """Status and text; raises OSError where the line is cut."""
        if self.connection is None:
            self.connection = http.client.HTTPConnection("127.0.0.1", PORT, timeout=30)
        headers = {"cookie": self.session["cookie"], "x-csrf-token": self.session["token"]}
        if body is not None:
            headers["content-type"] = "application/json"
            body = json.dumps(body)
        if key is not None:
            headers["idempotency-key"] = key
        try:
            self.connection.request(method, path, body, headers)
            answer = self.connection.getresponse()
            return answer.status, answer.read().decode()
        except (OSError, http.client.HTTPException) as error:
            self.connection.close()
            self.connection = None
            raise OSError(str(error)) from error


def sign_in(session):
    connection = http.client.HTTPConnection("127.0.0.1", PORT)
    body = json.dumps({"name": "Fay", "passphrase": PASSPHRASE, "device": "bench"})
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


def work(tablet, number, state):
    """Polls and writes until the time is over; keeps what was acknowledged."""
    job, expected, turn = None, 1, 0
    while time.time() < state["until"]:
        turn += 1
        key = f"tablet {number} turn {turn}"
        try:
            if job is None:
                asked = ("POST", "/api/jobs", joint(), f"job of {number}")
            elif turn % 4 == 0:
                given = [{"kind": "tick", "name": name, "answer": "yes"}
                         for name in ("locked-out", "pressure-off")]
                deed = {"kind": "record", "step": "make-safe", "half": None, "given": given}
                asked = ("POST", f"/api/jobs/{job}/events",
                         {"expected": expected, "deed": deed}, key)
            else:
                pages = ["/jobs", f"/jobs/{job}", f"/jobs/{job}/steps/drain"]
                asked = ("GET", pages[turn % 4 - 1], None, None)
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
            if status == 401:
                with state["lock"]:
                    status, _ = tablet.ask("GET", "/api/jobs?most=0")
                    if status == 401:
                        sign_in(tablet.session)
                turn -= 1
                continue
            with state["lock"]:
                state["took"].setdefault(asked[0], []).append(took)
                if status == 201:
                    answer = json.loads(text)
                    job, expected = answer["job"], answer["expected"]
                    state["acknowledged"][job] = expected
                elif status >= 400:
                    state["odd"].append((status, text[:200]))
        except OSError:
            pass
        time.sleep(state["pause"])


def table(took):
    for method, times in sorted(took.items()):
        times.sort()
        at = lambda share: times[min(len(times) - 1, int(len(times) * share))]
        print(f"{method:5} {len(times):7} requests   median {at(0.5):6.1f} ms   "
              f"99 % {at(0.99):6.1f} ms   longest {times[-1]:7.1f} ms")


def resident_mb(pid):
    for line in pathlib.Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmHWM"):
            return int(line.split()[1]) / 1024
    return 0.0


def main():
    wanted = argparse.ArgumentParser(description=__doc__)
    wanted.add_argument("--program", default=str(HERE / "target/release/ringtrue"))
    wanted.add_argument("--store", help="a store to begin with, which is copied")
    wanted.add_argument("--tablets", type=int, default=50)
    wanted.add_argument("--seconds", type=int, default=20)
    wanted.add_argument("--pause", type=float, default=0.5, help="between two requests of a tablet")
    wanted.add_argument("--kill", action="store_true", help="kill it in the middle")
    options = wanted.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        store = os.path.join(folder, "record.db")
        if options.store:
            pathlib.Path(store).write_bytes(pathlib.Path(options.store).read_bytes())
        subprocess.run(
            [options.program, "person", "add", "Fay", "--role", "fitter", "--store", store],
            env={**os.environ, "RINGTRUE_NEW_PASSPHRASE": PASSPHRASE},
            check=True, stdout=subprocess.DEVNULL,
        )
        bench, first = start(options.program, store)
        print(f"first page {first:.0f} ms after start")
        session = {}
        sign_in(session)
        state = {"until": time.time() + options.seconds, "lock": threading.Lock(), "took": {},
                 "acknowledged": {}, "odd": [], "pause": options.pause}
        tablets = [threading.Thread(target=work, args=(Tablet(session), number, state))
                   for number in range(options.tablets)]
        for tablet in tablets:
            tablet.start()
        if options.kill:
            time.sleep(options.seconds / 2)
            bench.kill()
            bench.wait()
            bench, again = start(options.program, store)
            print(f"killed; first page {again:.0f} ms after it was started again")
        for tablet in tablets:
            tablet.join()
        table(state["took"])
        print(f"resident at most {resident_mb(bench.pid):.0f} MB")
        lost = 0
        reader = Tablet(session)
        for job, expected in state["acknowledged"].items():
            status, text = reader.ask("GET", f"/api/jobs/{job}")
            lost += status != 200 or json.loads(text)["expected"] < expected
        print(f"{len(state['acknowledged'])} jobs acknowledged, {lost} of them short, "
              f"{len(state['odd'])} odd answers {state['odd'][:3]}")
        bench.terminate()
        bench.wait()
        verified = subprocess.run(
            [options.program, "job", "verify", "--all", "--store", store],
            capture_output=True, text=True, check=False,
        )
        print(verified.stdout.splitlines()[0] if verified.stdout else verified.stderr)
        if lost or state["odd"] or verified.returncode:
            raise SystemExit(1)


if __name__ == "__main__":
    main()
