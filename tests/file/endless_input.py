#!/usr/bin/env python3
"""Input without end is refused at its limit, by what is read and with what to do; nothing reads it to its end.

usage: endless_input.py PROGRAM
"""
import json
import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import threading

program = pathlib.Path(sys.argv[1]).resolve()
limit = 4 << 20  # src/cli/input.h
failures = []
tried = []


def bound():
    resource.setrlimit(resource.RLIMIT_AS, (1 << 30, 1 << 30))


def run(*words, **more):
    try:
        return subprocess.run([str(program), *words], capture_output=True, text=True, timeout=120, preexec_fn=bound, **more)
    except subprocess.TimeoutExpired:
        failures.append(f"{' '.join(words)}: read without end")
        return None


def refused(what, done, code, *said):
    tried.append(what)
    if done is None:
        return
    if done.returncode != code:
        failures.append(f"{what}: ended with {done.returncode}, not {code}: {done.stderr[:300]}")
    for text in said:
        if text not in done.stderr:
            failures.append(f"{what}: does not say \"{text}\": {done.stderr[:300]}")


too_large = ("too large", str(limit), "What to do")
refused("forecast /dev/zero", run("forecast", "/dev/zero"), 3, "/dev/zero", *too_large)
with open("/dev/zero", "rb") as zeros:
    refused("forecast - < /dev/zero", run("forecast", "-", stdin=zeros), 3, "standard input", *too_large)
with tempfile.TemporaryDirectory() as scratch:
    folder = pathlib.Path(scratch)
    large = folder / "large.json"
    with large.open("wb") as file:
        file.truncate(64 << 30)
    refused("forecast on a file of 64 GB", run("forecast", str(large)), 3, "large.json", *too_large)

    # A pipe that never ends: the writer finds out, and how much it got rid of tells how much was read.
    pipe = folder / "pipe"
    os.mkfifo(pipe)
    taken = []

    def pour():
        with open(pipe, "wb", buffering=0) as sink:
            try:
                while sum(taken) < 64 * limit:
                    taken.append(sink.write(b"{" * 65536))
            except BrokenPipeError:
                pass

    writer = threading.Thread(target=pour)
    writer.start()
    refused("forecast on a pipe without end", run("forecast", str(pipe)), 3, *too_large)
    writer.join()
    if sum(taken) > 2 * limit:
        failures.append(f"a pipe without end: {sum(taken)} bytes were read, not {limit}")

    just_fits = folder / "fits.json"
    just_fits.write_bytes(b" " * (limit - 2) + b"{}")
    done = run("forecast", str(just_fits))
    tried.append("a file of just the limit")
    if done and "too large" in done.stderr:
        failures.append("a file of just the limit is too large")
    refused("forecast on a folder", run("forecast", scratch), 4, "folder")
    refused("forecast on nothing", run("forecast", str(folder / "none")), 4, "cannot be read")
    refused("--file /dev/zero", run("--file", "/dev/zero", "show"), 9, "not a file")

    # Levels within one another, and one long line.
    deep = folder / "deep.json"
    deep.write_text("[" * 1_000_000)
    refused("a million levels", run("forecast", str(deep)), 3, "levels")
    wide = folder / "wide.json"
    wide.write_text(json.dumps({"x" * 3_000_000: 1}))
    done = run("forecast", str(wide))
    refused("a key of 3 MB", done, 3)
    if done and len(done.stderr) > 20_000:
        failures.append(f"a key of 3 MB is told in {len(done.stderr)} letters")

print(f"{len(tried)} tried: {'; '.join(tried)}. Failed: {len(failures)}")
for text in failures:
    print("FAILED", text)
sys.exit(1 if failures else 0)
