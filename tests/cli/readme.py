"""The commands of the README: every "$ mitefall ..." line of its console blocks, in order."""
import re
import sys


def commands_of(root):
    text = (root / "README.md").read_text()
    blocks = re.findall(r"```console\n(.*?)```", text, re.S)
    commands = [line[2:] for block in blocks for line in block.splitlines() if line.startswith("$ ")]
    if len(commands) < 10:
        sys.exit(f"README.md: only {len(commands)} commands found; the pattern no longer fits")
    return commands
