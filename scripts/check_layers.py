#!/usr/bin/env python3
"""Every #include "folder/file.h" under src/ must be allowed by src/LAYERS; folders form a straight line.

A folder within a folder may have a line of its own, "formats/text". Who may include "formats" from outside may include all
that is in it; within, each folder includes only those it names."""
import pathlib
import re
import sys

SOURCE = pathlib.Path(__file__).resolve().parent.parent / "src"


def read_layers():
    allowed = {}
    for number, line in enumerate((SOURCE / "LAYERS").read_text().splitlines(), 1):
        line = line.split("#")[0].strip()
        if not line:
            continue
        name, _, rest = line.partition(":")
        name = name.strip()
        later = [word for word in rest.split() if word not in allowed]
        if later:
            sys.exit(f"src/LAYERS:{number}: {name} may include only folders named above it, not {', '.join(later)}")
        allowed[name] = set(rest.split()) | {name}
    return allowed


def folder_of(path, allowed):
    """The folder a file belongs to: the innermost that has a line."""
    parents = [str(parent) for parent in pathlib.PurePath(path).parents]
    return next((parent for parent in parents if parent in allowed), parents[-2] if len(parents) > 1 else "")


def may_include(folder, other, allowed):
    top = other.split("/")[0]
    return other in allowed[folder] or (top in allowed[folder] and top != folder.split("/")[0])


def main():
    allowed = read_layers()
    faults = []
    for folder in sorted(p.name for p in SOURCE.iterdir() if p.is_dir()):
        if folder not in allowed:
            faults.append(f"src/{folder}: not named in src/LAYERS")
    count = 0
    for path in sorted(SOURCE.rglob("*")):
        if path.suffix not in (".h", ".cpp"):
            continue
        folder = folder_of(path.relative_to(SOURCE), allowed)
        if folder not in allowed:
            continue
        for number, line in enumerate(path.read_text().splitlines(), 1):
            found = re.match(r'\s*#\s*include\s+"([^/"]+/[^"]+)"', line)
            if not found:
                continue
            count += 1
            other = folder_of(found.group(1), allowed)
            if not may_include(folder, other, allowed):
                faults.append(f"{path.relative_to(SOURCE.parent)}:{number}: {folder} may not include {other}")
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"layers: {count} includes checked, {len(faults)} faults")
    sys.exit(1 if faults else 0)


main()
