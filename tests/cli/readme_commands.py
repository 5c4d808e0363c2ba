#!/usr/bin/env python3
"""Runs every "$ mitefall ..." line of the console blocks of README.md and of the guide, in order, each page in an empty folder.

usage: readme_commands.py PROGRAM PROJECT_ROOT
"""
import os
import pathlib
import shlex
import subprocess
import sys
import tempfile

from readme import commands_of

program, root = (pathlib.Path(argument).resolve() for argument in sys.argv[1:])


def failures_of(page):
    failures = 0
    commands = commands_of(root, page)
    with tempfile.TemporaryDirectory() as folder:
        os.symlink(root / "docs", pathlib.Path(folder) / "docs")
        for command in commands:
            words = shlex.split(command)
            if words[0] != "mitefall":
                sys.exit(f"{page}: not a command of ours: {command}")
            done = subprocess.run([str(program), *words[1:]], cwd=folder, capture_output=True, text=True)
            if done.returncode != 0 or not done.stdout:
                failures += 1
                print(f"FAILED ({done.returncode}): {command}\n{done.stdout}{done.stderr}")
    print(f"{page}: {len(commands) - failures} passed, {failures} failed")
    return failures


sys.exit(1 if sum(failures_of(page) for page in ("README.md", "docs/guide.md")) else 0)
