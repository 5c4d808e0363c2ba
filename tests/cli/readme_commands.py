#!/usr/bin/env python3
"""Runs every "$ mitefall ..." line of the README's console blocks, in order, in one empty folder.

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
commands = commands_of(root)

failures = 0
with tempfile.TemporaryDirectory() as folder:
    os.symlink(root / "docs", pathlib.Path(folder) / "docs")
    for command in commands:
        words = shlex.split(command)
        if words[0] != "mitefall":
            sys.exit(f"README.md: not a command of ours: {command}")
        done = subprocess.run([str(program), *words[1:]], cwd=folder, capture_output=True, text=True)
        if done.returncode != 0 or not done.stdout:
            failures += 1
            print(f"FAILED ({done.returncode}): {command}\n{done.stdout}{done.stderr}")
print(f"{len(commands) - failures} passed, {failures} failed")
sys.exit(1 if failures else 0)
