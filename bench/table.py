#!/usr/bin/env python3
"""What a keeper waits for, as one table.

  table.py PROGRAM LARGE_FILE [ROW ...]   PROGRAM: mitefall; LARGE_FILE: made from bench/large_file.cpp; ROW: parts of the names of rows

Every row is a command of the program on a collection made for it: waiting time, processor time of all threads and the most memory, as the
middle one of three, or once where it takes longer than ten seconds.
"""
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TODAY = "2026-11-25"
TIMES, LONG = 3, 10.0
CLIMATES = {"one": "one climate", "two": "two climates", "thirteen": "thirteen climates", "all": "a climate each"}


def once(program: str, words: "list[str]") -> "tuple[float, float, float]":
    """Waiting time and processor time in seconds, most memory in MiB."""
    begin = time.monotonic()
    child = subprocess.Popen([program, *words], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    said = child.stderr.read() if child.stderr else b""
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(words)}: ended with {child.returncode}: {said.decode()[-300:]}")
    return time.monotonic() - begin, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def measured(program: str, words: "list[str]") -> "tuple[float, float, float]":
    runs = [once(program, words)]
    while len(runs) < TIMES and runs[0][0] < LONG:
        runs.append(once(program, words))
    return tuple(statistics.median(run[i] for run in runs) for i in range(3))  # type: ignore[return-value]


def row(name: str, program: str, words: "list[str]") -> None:
    wait, used, memory = measured(program, words)
    print(f"| {name} | {1000 * wait:,.0f} ms | {1000 * used:,.0f} ms | {memory:,.0f} MiB |", flush=True)


def main() -> None:
    program, maker, *wanted = sys.argv[1:]
    is_wanted = lambda name: not wanted or any(part in name for part in wanted)
    folder = Path(tempfile.mkdtemp())
    print("| | to wait | processor | most memory |\n|---|---|---|---|")

    if is_wanted("start"):
        row("start: `--version`", program, ["--version"])
    demo = folder / "demo.mitefall"
    subprocess.run([program, "-f", str(demo), "demo"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    if is_wanted("demo"):
        row("demo: `plan`", program, ["-f", str(demo), "plan"])
    for count, climates in [(n, c) for n in (10, 100, 1000) for c in CLIMATES] + [(10000, "one")]:
        name = f"{count:,} in {CLIMATES[climates]}"
        questions = ["plan"] + (["show", "exposure", "today"] if climates == "one" else [])
        questions = [one for one in questions if is_wanted(f"{name}: `{one}`")]
        if not questions:
            continue
        file = folder / "large.mitefall"
        file.unlink(missing_ok=True)
        subprocess.run([maker, str(file), str(count), climates], check=True)
        for question in questions:
            if question == "today":
                once(program, ["-f", str(file), "--today", TODAY, "plan", "--adopt", "recommended"])
            row(f"{name}: `{question}`", program, ["-f", str(file), "--today", TODAY, question])
    shutil.rmtree(folder)


main()
