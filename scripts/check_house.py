#!/usr/bin/env python3
"""Rules of the house that no compiler knows. Tells every breach, and ends with 1 if there is one.

- Each folder of src/ and ui/src/ has a README that says its question, inputs, outputs and assumptions.
- A page names no file that is not there.
- A test is named by what holds, in words: at least three, small letters.
- Below src/words no sentence is made: a literal of several words tells an error of input or a broken contract, or
  stands in one of the files of names listed here. What a keeper is told stands in src/words, by id.
- No function of src/ is longer than 40 lines, but for those listed here, which may only get shorter.

Told beside it, as figures and not as a rule: how long the files and the functions of src/ are in the middle.
"""
import pathlib
import re
import statistics
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
LONGEST = 40
LONG = ROOT / "scripts" / "long_functions.txt"


def tracked(*patterns):
    listed = subprocess.run(["git", "ls-files", *patterns], cwd=ROOT, capture_output=True, text=True, check=True)
    return [ROOT / line for line in listed.stdout.splitlines()]


def readmes():
    for folder in sorted({path.parent for path in tracked("src/*/*.h", "src/*/*.cpp")}):
        page = folder / "README.md"
        if not page.exists():
            yield f"{folder.relative_to(ROOT)}: no README.md"
            continue
        text = page.read_text()
        for word in ("**Question.**", "**Inputs.**", "**Outputs.**", "Assumptions"):
            if word not in text:
                yield f"{page.relative_to(ROOT)}: does not say {word}"


def named_files():
    """Files named in `...` or linked, with a folder before them; a pattern or a placeholder is none."""
    roots = ["", "src/", "ui/src/", "ui/", "docs/", "tests/"]
    for page in tracked("*.md"):
        for name in re.findall(r"[`(]((?:\.\./)*[\w./-]+/[\w.-]+\.(?:h|cpp|md|py|ts|svelte|toml|sh|json|spec\.ts))[`)#]",
                               page.read_text()):
            if name.startswith(("build/", "node_modules/")):
                continue
            places = [page.parent / name, *(ROOT / root / name for root in roots)]
            if not any(place.exists() for place in places):
                yield f"{page.relative_to(ROOT)}: names {name}, which is not there"


def test_names():
    for path in tracked("tests/*.cpp"):
        for name in re.findall(r"\b(?:TEST|TEST_F|TEST_P|RC_GTEST_PROP|RC_GTEST_FIXTURE_PROP)\(\w+,\s*(\w+)",
                               path.read_text()):
            if name != name.lower() or name.count("_") < 2:
                yield f"{path.relative_to(ROOT)}: a test named {name} does not say what holds"


CONTROL = ("if", "for", "while", "switch", "else", "do", "namespace", "struct", "class", "enum", "return", "case", "}", "using")


def functions(text):
    """(name, lines) of what looks like a function in code laid out by clang-format."""
    lines = text.splitlines()
    for last, line in enumerate(lines):
        if not line.endswith("{"):
            continue
        first = last
        while first > 0 and lines[first - 1].strip() and lines[first - 1][-1] not in ";{}:>" \
                and not lines[first - 1].lstrip().startswith("//"):
            first -= 1
        head = " ".join(part.strip() for part in lines[first:last + 1])
        name = re.search(r"([~\w:]+)\(", head)
        if not name or head.startswith(CONTROL) or "=" in head[:name.start()] or re.search(r"\](\(.*\))?[\w ]*\{$|\]\(", head):
            continue
        indent = re.match(" *", lines[first]).group()
        end = next((i for i in range(last + 1, len(lines)) if lines[i] == indent + "}"), None)
        if end is not None:
            yield name.group(1), end - first + 1


def long_functions():
    allowed = {}
    for line in LONG.read_text().splitlines():
        if line and not line.startswith("#"):
            where, name, lines = line.split()
            allowed[(where, name)] = int(lines)
    for path in tracked("src/*/*.cpp", "src/*/*.h"):
        where = str(path.relative_to(ROOT))
        for name, lines in functions(path.read_text()):
            most = allowed.get((where, name), LONGEST)
            if lines > most:
                yield f"{where}: {name} has {lines} lines, at most {most}"


# Names of things as a keeper reads and types them, one table each; and a plain case, which is a file for developers.
NAMES = {"src/evidence/cited.cpp", "src/evidence/taxon.h", "src/mixing/spoons.cpp", "src/mixing/stock_form.cpp", "src/mixing/tools.cpp",
         "src/records/method.h", "src/records/task_key.h", "src/records/thing.h", "src/records/vocabulary.h",
         "src/safety/agent_words.cpp", "src/safety/methods.cpp", "src/safety/rules.cpp", "src/safety/verdict.cpp", "src/service/demo.cpp",
         "src/service/retelling.cpp", "src/units/customary.cpp", "src/units/show.cpp"}
LITERAL = re.compile(r'//[^\n]*|/\*.*?\*/|\'(?:[^\'\\\n]|\\.)\'|"((?:[^"\\\n]|\\.)*)"', re.S)
SEVERAL_WORDS = re.compile(r"[A-Za-z]{2,}[,;:]? +[a-z]{2,}")
OF_AN_ERROR = re.compile(r"\b(\w*[eE]rror\w*|fail|wrong|invalid|throw|refuse\w*|expects|ContractViolation|static_assert|check_\w+|\.what|takes|vocabulary)\b")
HEAD = re.compile(r"^(?:\S.*|    \S.*)\)(?: const)? \{$", re.M)


def sentences_below_words():
    layers = [line.split(":")[0].strip() for line in (ROOT / "src" / "LAYERS").read_text().splitlines()
              if line.strip() and not line.startswith("#")]
    engines = [*layers[:layers.index("words")], "service"]
    for path in tracked(*(f"src/{folder}/*" for folder in engines)):
        where = str(path.relative_to(ROOT))
        if path.suffix not in (".h", ".cpp") or where in NAMES:
            continue
        text = path.read_text()
        for found in LITERAL.finditer(text):
            at = found.start()
            said = re.sub(r"\{[^}]*\}", "", found.group(1) or "")
            if "_" in said or not SEVERAL_WORDS.search(said):
                continue
            begin = max(text.rfind(end, 0, at) for end in (";\n", "{\n", "}\n"))
            heads = HEAD.findall(text, 0, at)
            if OF_AN_ERROR.search(text, max(begin, 0), at) or (heads and "Error" in heads[-1]):
                continue
            yield f"{where}:{text.count(chr(10), 0, at) + 1}: says \"{found.group(1)}\"; what is told stands in src/words"


ONE_LINE = re.compile(r" *(?!return|if|for|while|switch|case|else)[\w:<>&*, \[\]]*[\w~>&*]+ ?\(.*\)(?: const| noexcept| override|: .*)* \{.*\}$")


def middle_lengths():
    texts = [path.read_text() for path in tracked("src/*.cpp", "src/*.h")]
    files = [len(text.splitlines()) for text in texts]
    lengths = [lines for text in texts for _, lines in functions(text)]
    lengths += [1 for text in texts for line in text.splitlines() if ONE_LINE.match(line)]
    return (f"half of {len(files)} files have at most {statistics.median_low(files)} lines, "
            f"half of {len(lengths)} functions at most {statistics.median_low(lengths)}")


def main():
    if sys.argv[1:] == ["list-long"]:
        for path in tracked("src/*/*.cpp", "src/*/*.h"):
            for name, lines in functions(path.read_text()):
                if lines > LONGEST:
                    print(path.relative_to(ROOT), name, lines)
        return
    faults = [fault for rule in (readmes, named_files, test_names, sentences_below_words, long_functions) for fault in rule()]
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"rules of the house: {len(faults)} faults; {middle_lengths()}")
    sys.exit(1 if faults else 0)


main()
