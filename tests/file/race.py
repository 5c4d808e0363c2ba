#!/usr/bin/env python3
"""Several programs write to one collection at the same moment, over and over: command lines and the server.

usage: race.py PROGRAM [ROUNDS]

Whatever each of them was answered must hold: what was accepted is in the journal once, what was refused is not, and
the journal still folds. Prints what was tried and what was lost; ends with 1 where anything was.
"""
import http.client
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import threading
import time

program = pathlib.Path(sys.argv[1]).resolve()
rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
draw = random.Random(20261128)
failures = []
tried = {}
today = "2026-03-01"


def fail(text):
    failures.append(text)


class CommandLine:
    """One process for each write."""

    name = "command line"

    def __init__(self, file):
        self.file = file

    def write(self, deed):
        words = [str(program), "--file", self.file, "--json", "--today", today, *deed.words]
        done = subprocess.run(words, capture_output=True, text=True, stdin=subprocess.DEVNULL)
        if done.returncode not in (0, 4, 5, 6):
            return None, f"{' '.join(deed.words)}: {done.returncode} {done.stderr or done.stdout}"
        if done.returncode != 0:
            return None, None
        return json.loads(done.stdout)["result"]["ids"], None


class Page:
    """A page of the server, with a connection of its own."""

    name = "page"

    def __init__(self, address):
        self.address = address
        self.connection = None

    def ask(self, method, path, body=None):
        for attempt in (1, 2):
            try:
                if self.connection is None:
                    self.connection = http.client.HTTPConnection(self.address, timeout=60)
                text = None if body is None else json.dumps(body)
                self.connection.request(method, path, text, {"Content-Type": "application/json"} if text else {})
                answer = self.connection.getresponse()
                return answer.status, json.loads(answer.read())
            except (http.client.HTTPException, ConnectionError):
                self.connection = None
                if attempt == 2:
                    raise

    def write(self, deed):
        path, body = deed.web
        status, answer = self.ask("POST", path, {**body, "request": deed.key or f"race-{draw.getrandbits(64):020d}"})
        if status == 200:
            return answer["result"]["ids"], None
        if status in (404, 409):
            return None, None
        return None, f"{path} {body}: {status} {answer}"


class Deed:
    """One thing to put on record, as a command and as a request. `key`: of the request, if several send the same."""

    def __init__(self, words, path, body, key=None):
        self.words, self.web, self.key = words, (path, body), key


def facts(kind, body):
    return "/api/record", {"facts": [{"day": today, "kind": kind, "body": body}]}


def room(name, key=None):
    body = {"room": name, "name": "", "day_c": 28, "night_c": 26, "humidity_percent": 50, "adjoining": [], "floor_cm2": 90000}
    words = ["record", "room", name, "--temperature", "28 C", "--night", "26 C", "--floor-cm2", "90000"]
    return Deed(words, *facts("room-added", body), key)


def enclosure(name, room_name):
    body = {"enclosure": name, "name": "", "room": room_name, "material": "sealed", "substrate": "paper", "day_c": 28,
            "night_c": 26, "humidity_percent": 50, "floor_cm2": 4000}
    words = ["record", "enclosure", name, "--room", room_name, "--material", "sealed", "--substrate", "paper",
             "--temperature", "28 C", "--night", "26 C", "--floor-cm2", "4000"]
    return Deed(words, *facts("enclosure-added", body))


def withdrawal(entry):
    return Deed(["withdraw", str(entry), "--because", "race"], "/api/withdraw", {"entries": [entry], "reason": "race"})


def all_at_once(writers, deeds):
    """What each was answered: the numbers of its entries, or None where it was refused."""
    answers = [None] * len(writers)
    gate = threading.Barrier(len(writers))

    def work(place):
        gate.wait()
        answers[place], fault = writers[place].write(deeds[place])
        if fault:
            fail(f"{writers[place].name}: {fault}")

    threads = [threading.Thread(target=work, args=(place,)) for place in range(len(writers))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return answers


def same_name(number, writers):
    """Everybody adds the same room: one of them does."""
    answers = all_at_once(writers, [room(f"same-{number}")] * len(writers))
    if sum(answer is not None for answer in answers) != 1:
        fail(f"round {number}: the same room was added by {answers}")
    return answers


def others(number, writers):
    """Everybody adds a room of their own: all of them do."""
    answers = all_at_once(writers, [room(f"own-{number}-{place}") for place in range(len(writers))])
    if None in answers:
        fail(f"round {number}: a room nobody else named was refused: {answers}")
    return answers


def made_alone(number, writer, name):
    """A room that one writer adds with nobody beside it: a place to race for."""
    made = all_at_once([writer], [room(name)])
    if made[0] is None:
        fail(f"round {number}: a room that nobody else named was refused to the only writer")
    return made


def pulled_away(number, writers):
    """One takes a room away while the others put an enclosure into it: never both."""
    made = made_alone(number, writers[0], f"gone-{number}")
    if made[0] is None:
        return made
    deeds = [withdrawal(made[0][0])] + [enclosure(f"in-{number}-{place}", f"gone-{number}") for place in range(1, len(writers))]
    answers = all_at_once(writers, deeds)
    if answers[0] is not None and any(answer is not None for answer in answers[1:]):
        fail(f"round {number}: a room was withdrawn and an enclosure put into it: {answers}")
    return made + ([] if answers[0] is None else [None]) + answers[1:], answers[0]


def taken_twice(number, writers):
    """Everybody withdraws the same entry: one of them does."""
    made = made_alone(number, writers[0], f"twice-{number}")
    if made[0] is None:
        return made
    answers = all_at_once(writers, [withdrawal(made[0][0])] * len(writers))
    if sum(answer is not None for answer in answers) != 1:
        fail(f"round {number}: an entry was withdrawn by {answers}")
    return made, next((answer for answer in answers if answer is not None), None)


def sent_twice(number, writers):
    """Pages send the same request: it is written once and answered to all of them."""
    pages = [writer for writer in writers if isinstance(writer, Page)]
    answers = all_at_once(pages, [room(f"sent-{number}", f"race-key-of-round-{number:06d}")] * len(pages))
    if any(answer != answers[0] for answer in answers) or answers[0] is None:
        fail(f"round {number}: one request was answered as {answers}")
    return answers[:1]


def journal(file):
    done = subprocess.run([str(program), "--file", file, "--json", "journal"], capture_output=True, text=True)
    if done.returncode != 0:
        fail(f"journal: {done.returncode} {done.stderr}")
        return []
    answer = json.loads(done.stdout)
    if "damage" in answer:
        fail(f"damaged: {answer['damage'][0]['message']}")
    return answer["result"]["entries"]


def still_folds(file, page):
    done = subprocess.run([str(program), "--file", file, "show"], capture_output=True, text=True)
    if done.returncode != 0 or done.stderr:
        fail(f"show: {done.returncode} {done.stderr}")
    status, answer = page.ask("GET", "/api/situation")
    if status != 200:
        fail(f"situation: {status} {answer}")


def main(folder):
    file = os.path.join(folder, "race.mitefall")
    subprocess.run([str(program), "--file", file, "new"], check=True, stdout=subprocess.DEVNULL)
    server = subprocess.Popen([str(program), "--file", file, "--today", today, "serve", "--port", "0"],
                              stdout=subprocess.PIPE, text=True)
    try:
        address = server.stdout.readline().split("http://")[1].strip().rstrip("/")
        pages = [Page(address) for _ in range(4)]
        line = CommandLine(file)
        crews = [([line, line], 25), ([line, pages[0]], 25), ([line] * 4, 3), ([line, line, pages[0], pages[1]], 7), (pages[:2], 20), (pages, 20)]
        kept, withdrawn = [], 0
        for number in range(rounds):
            crew = draw.choices([one for one, _ in crews], [weight for _, weight in crews])[0]
            kinds = [same_name, same_name, others, pulled_away, taken_twice] + ([sent_twice] if line not in crew else [])
            kind = draw.choice(kinds)
            result = kind(number, crew)
            if isinstance(result, tuple):
                result, taken = result
                withdrawn += taken is not None
            kept += [entry for answer in result if answer is not None for entry in answer]
            what = f"{kind.__name__.replace('_', ' ')}: {len(crew)} writers"
            tried[what] = tried.get(what, 0) + 1
            if number % 200 == 199:
                still_folds(file, pages[0])
            if len(failures) > 20:
                break
        still_folds(file, pages[0])
        entries = journal(file)
        numbers = [row["id"] for row in entries]
        stated = [row["id"] for row in entries if row["kind"] != "withdrawn"]
        replaced = [row["corrects"] for row in entries if row["corrects"] is not None]
        lost = sorted(set(kept) - set(numbers))
        if lost:
            fail(f"accepted and lost: entries {lost}")
        if len(set(kept)) != len(kept):
            fail(f"one number was answered to two: {sorted(n for n in set(kept) if kept.count(n) > 1)}")
        if sorted(kept) != stated:
            fail(f"in the journal, but nobody was told so: {sorted(set(stated) - set(kept))}")
        if len(replaced) != withdrawn or len(set(replaced)) != len(replaced):
            fail(f"{withdrawn} withdrawals were accepted, {len(replaced)} are there")
        if server.poll() is not None:
            fail(f"the server ended with {server.returncode}")
        return len(entries)
    finally:
        server.terminate()
        server.wait(20)


# In memory where there is some: the rounds are about order, not about the disk.
memory = "/dev/shm" if os.path.isdir("/dev/shm") and os.access("/dev/shm", os.W_OK) else None
begun = time.monotonic()
with tempfile.TemporaryDirectory(dir=memory) as scratch:
    entries = main(scratch)
print(f"{sum(tried.values())} rounds in {time.monotonic() - begun:.0f} s, {entries} entries; lost or broken: {len(failures)}")
for what, count in sorted(tried.items()):
    print(f"  {count:4} x {what}")
for text in failures[:20]:
    print("FAILED", text)
sys.exit(1 if failures or sum(tried.values()) < rounds else 0)
