#!/usr/bin/env python3
"""Runs every command of the README on the demo collection, as wide as several terminals, and reads the lines.

usage: terminal_widths.py PROGRAM PROJECT_ROOT
"""
import fcntl
import os
import pathlib
import pty
import re
import shlex
import struct
import subprocess
import sys
import tempfile
import termios
import unicodedata

from readme import commands_of

program, root = (pathlib.Path(argument).resolve() for argument in sys.argv[1:])
commands = commands_of(root)
# The demo is the collection; the README makes its own.
commands = ["mitefall demo"] + [one for one in commands if one != "mitefall new"] + ["mitefall show", "mitefall serve --port none"]
failures = []


def columns(line):
    """By Unicode Standard Annex 11, and none for what combines."""
    return sum(
        0 if unicodedata.category(c) in ("Mn", "Me", "Cf") else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in line
    )


def check(what, output, width):
    for line in output.splitlines():
        if columns(line) > width:
            failures.append(f"{what}: {columns(line)} columns, not {width}: {line}")


def surroundings(**more):
    kept = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "NO_COLOR", "TERM")}
    return {**kept, **more}


def run_all(width, commands=commands, **environment):
    with tempfile.TemporaryDirectory() as folder:
        os.symlink(root / "docs", pathlib.Path(folder) / "docs")
        for command in commands:
            words = [str(program), *shlex.split(command)[1:]]
            done = subprocess.run(words, cwd=folder, capture_output=True, text=True, env=surroundings(**environment))
            if (done.returncode != 0) != (words[-2:] == ["--port", "none"]):
                failures.append(f"{command}: {done.returncode} {done.stderr}")
            if done.stdout.startswith("{"):
                continue  # JSON is for programs
            check(command, done.stdout + done.stderr, width)
            if "\x1b" in done.stdout:
                failures.append(f"{command}: colour in a pipe")


def on_terminal(columns_wide, **environment):
    """What `demo` writes to a terminal of that width."""
    leader, follower = pty.openpty()
    fcntl.ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns_wide, 0, 0))
    with tempfile.TemporaryDirectory() as folder:
        process = subprocess.Popen(
            [str(program), "verdicts", "--file", str(demo)],
            cwd=folder,
            stdout=follower,
            stderr=subprocess.DEVNULL,
            env=surroundings(TERM="xterm", **environment),
        )
        os.close(follower)
        output = b""
        while True:
            try:
                part = os.read(leader, 65536)
            except OSError:
                break
            if not part:
                break
            output += part
        process.wait()
        os.close(leader)
    return output.decode().replace("\r", "")


for width in (40, 80, 120):
    run_all(width, COLUMNS=str(width))
run_all(80, ["mitefall demo", "mitefall evidence"])  # no terminal and no wish

with tempfile.TemporaryDirectory() as home:
    demo = pathlib.Path(home) / "demo.mitefall"
    subprocess.run([str(program), "demo", "--file", str(demo)], capture_output=True, check=True)
    colour = re.compile(r"\x1b\[[0-9;]*m")
    told = on_terminal(57)
    if not colour.search(told):
        failures.append("no colour on a terminal")
    check("a terminal of 57 columns", colour.sub("", told), 57)
    if max(map(columns, colour.sub("", told).splitlines())) < 45:
        failures.append("the terminal was not asked for its width")
    if "\x1b" in on_terminal(57, NO_COLOR="1"):
        failures.append("colour in spite of NO_COLOR")
    if not colour.search(on_terminal(57, NO_COLOR="")):
        failures.append("an empty NO_COLOR counts as none (no-color.org)")
    check("COLUMNS before the terminal", colour.sub("", on_terminal(57, COLUMNS="40")), 40)

print("\n".join(failures) or f"{len(commands)} commands fit")
sys.exit(1 if failures else 0)
