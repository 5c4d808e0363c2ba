#!/usr/bin/env python3
"""Every #include "folder/file.h" under src/ must be allowed by src/LAYERS; folders form a straight line."""
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
        folder = path.relative_to(SOURCE).parts[0]
        if folder not in allowed:
            continue
        for number, line in enumerate(path.read_text().splitlines(), 1):
            found = re.match(r'\s*#\s*include\s+"([^/"]+)/[^"]+"', line)
            if not found:
                continue
            count += 1
            if found.group(1) not in allowed[folder]:
                faults.append(f"{path.relative_to(SOURCE.parent)}:{number}: {folder} may not include {found.group(1)}")
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"layers: {count} includes checked, {len(faults)} faults")
    sys.exit(1 if faults else 0)


main()
