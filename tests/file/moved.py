#!/usr/bin/env python3
"""The collection is moved, removed or replaced while it is served: nothing is answered as if it were saved.

usage: moved.py PROGRAM

Also: who may read what the program makes.
"""
import http.client
import json
import os
import pathlib
import shutil
import stat
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
failures = []
tried = []


def expect(holds, text):
    if not holds:
        failures.append(text)


def run(file, *words, umask=None):
    before = os.umask(umask) if umask is not None else None
    try:
        return subprocess.run([str(program), "--file", str(file), *words], capture_output=True, text=True)
    finally:
        if before is not None:
            os.umask(before)


def make(file, rooms):
    expect(run(file, "new").returncode == 0, f"new {file}")
    for name in rooms:
        run(file, "record", "room", name, "--temperature", "28 C", "--floor-cm2", "90000")


def rooms_of(file):
    done = run(file, "--json", "show")
    return sorted(row["room"] for row in json.loads(done.stdout)["result"]["rooms"]) if done.returncode == 0 else None


class Server:
    def __init__(self, file):
        self.process = subprocess.Popen([str(program), "--file", str(file), "serve", "--port", "0"],
                                        stdout=subprocess.PIPE, text=True)
        self.address = self.process.stdout.readline().split("http://")[1].strip().rstrip("/")
        self.sent = 0

    def ask(self, method, path, body=None):
        connection = http.client.HTTPConnection(self.address, timeout=60)
        text = None if body is None else json.dumps(body)
        connection.request(method, path, text, {"Content-Type": "application/json"} if text else {})
        answer = connection.getresponse()
        bytes_read = answer.read()
        return answer.status, bytes_read

    def add_room(self, name):
        self.sent += 1
        body = {"room": name, "name": "", "day_c": 28, "night_c": 26, "humidity_percent": 50, "adjoining": [], "floor_cm2": 90000}
        return self.ask("POST", "/api/record", {"facts": [{"kind": "room-added", "body": body}], "request": f"moved-file-request-{self.sent}"})

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait(20)


def refused_in_words(what, answer):
    status, body = answer
    expect(status == 500, f"{what}: {status}")
    if status == 500:
        message = json.loads(body)["error"]["message"]
        expect("no longer the file that was opened" in message, f"{what}: {message}")


def changed_while_served(what, change, back=None):
    """After `change` everything is refused; after `back` it goes on where it was."""
    tried.append(what)
    with tempfile.TemporaryDirectory() as scratch:
        file = pathlib.Path(scratch) / "c.mitefall"
        other = pathlib.Path(scratch) / "other.mitefall"
        make(file, ["first"])
        make(other, ["another-house", "and-its-cellar"])
        with Server(file) as server:
            status, _ = server.add_room("second")
            expect(status == 200, f"{what}: before it: {status}")
            change(file, other)
            before = file.read_bytes() if file.exists() else None
            refused_in_words(f"{what}: writing", server.add_room("lost"))
            for path in ("/api/status", "/api/collection", "/api/journal", "/api/backup"):
                refused_in_words(f"{what}: {path}", server.ask("GET", path))
            expect((file.read_bytes() if file.exists() else None) == before, f"{what}: what lies there now was written to")
            if back is None:
                return
            back(file)
            status, body = server.add_room("third")
            expect(status == 200, f"{what}: put back: {status} {body}")
        expect(rooms_of(file) == ["first", "second", "third"], f"{what}: put back: {rooms_of(file)}")


def put_aside(file, _):
    os.rename(file, str(file) + ".aside")


def put_back(file):
    os.replace(str(file) + ".aside", file)


def exchanged(file, other):
    put_aside(file, other)
    os.rename(other, file)


changed_while_served("removed", lambda file, _: file.unlink())
changed_while_served("moved away and back", put_aside, put_back)
changed_while_served("another put in its place, and taken away again", exchanged, put_back)
changed_while_served("another copied over it", lambda file, other: shutil.copyfile(other, file))
changed_while_served("emptied", lambda file, _: file.write_bytes(b""))


def an_older_copy():
    """A backup put back over the file: what was recorded since is gone, and that is not passed over."""
    with tempfile.TemporaryDirectory() as scratch:
        file = pathlib.Path(scratch) / "c.mitefall"
        copy = pathlib.Path(scratch) / "copy.mitefall"
        make(file, ["first"])
        shutil.copyfile(file, copy)
        with Server(file) as server:
            server.add_room("second")
            shutil.copyfile(copy, file)
            refused_in_words("an older copy put over it: writing", server.add_room("third"))
    tried.append("an older copy put over it")


def who_may_read():
    with tempfile.TemporaryDirectory() as scratch:
        file = pathlib.Path(scratch) / "c.mitefall"
        theirs = pathlib.Path(str(file) + ".making")
        theirs.write_text("somebody's own\n")
        for umask in (0o000, 0o022, 0o077):
            file.unlink(missing_ok=True)
            expect(run(file, "new", umask=umask).returncode == 0, f"new with umask {umask:03o}")
            mode = stat.S_IMODE(file.stat().st_mode)
            expect(mode == 0o600, f"new with umask {umask:03o}: {mode:03o}")
        expect(theirs.read_text() == "somebody's own\n", "a file of somebody's was removed")
        with Server(file) as server:
            before = set(os.listdir(tempfile.gettempdir())) | set(os.listdir(scratch))
            status, body = server.ask("GET", "/api/backup")
            expect(status == 200 and body[:15] == b"SQLite format 3", f"a copy: {status}")
            left = (set(os.listdir(tempfile.gettempdir())) | set(os.listdir(scratch))) - before
            expect(not [name for name in left if "mitefall" in name], f"a copy leaves {left}")
            copy = pathlib.Path(scratch) / "copy.mitefall"
            copy.write_bytes(body)
            expect(rooms_of(copy) == rooms_of(file), "the copy is not the collection")
        expect(sorted(os.listdir(scratch)) == ["c.mitefall", "c.mitefall.making", "copy.mitefall"], f"left: {os.listdir(scratch)}")
        expect(run(file, "new").returncode == 5, "new over a collection")
    tried.append("who may read it")


an_older_copy()
who_may_read()
print(f"{len(tried)} tried: {'; '.join(tried)}. Failed: {len(failures)}")
for text in failures:
    print("FAILED", text)
sys.exit(1 if failures else 0)
