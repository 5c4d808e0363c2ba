#!/usr/bin/env python3
"""The program is built so that a fault in reading somebody's file ends it instead of obeying the file.

usage: hardening.py PROGRAM

Looks into the binary (readelf of binutils) for what cmake/options.cmake asks for.
"""
import re
import subprocess
import sys

program = sys.argv[1]


def readelf(*options):
    return subprocess.run(["readelf", "--wide", *options, program], capture_output=True, text=True, check=True).stdout


header, segments, dynamic, symbols = readelf("-h"), readelf("-l"), readelf("-d"), readelf("--dyn-syms")
found = {
    "no fixed addresses (PIE)": re.search(r"Type:\s+DYN", header) and re.search(r"FLAGS_1.*\bPIE\b", dynamic),
    "tables read-only once it runs (RELRO)": "GNU_RELRO" in segments,
    "bound before it runs (BIND_NOW)": re.search(r"FLAGS.*\bBIND_NOW\b|FLAGS_1.*\bNOW\b", dynamic),
    "guarded stacks": "__stack_chk_fail" in symbols,
    "checked calls of the C library": re.search(r"\b__\w+_chk\b(?!.*__stack_chk)", symbols.replace("__stack_chk_fail", "")),
    "a stack that is no code": re.search(r"GNU_STACK\s+.*\bRW\s", segments),
    "no segment written and run": not re.search(r"LOAD\s+.*\bRWE\b", segments),
    "no library sought beside it": not re.search(r"\((RPATH|RUNPATH)\)", dynamic),
}
for what, there in found.items():
    print(f"  {'yes' if there else 'NO '} {what}")
sys.exit(0 if all(found.values()) else 1)
