"""The commands of a page: every "$ mitefall ..." line of its console blocks, in order."""
import re
import sys


def commands_of(root, page="README.md"):
    text = (root / page).read_text()
    blocks = re.findall(r"```console\n(.*?)```", text, re.S)
    commands = [line[2:] for block in blocks for line in block.splitlines() if line.startswith("$ ")]
    if len(commands) < 10:
        sys.exit(f"{page}: only {len(commands)} commands found; the pattern no longer fits")
    return commands
