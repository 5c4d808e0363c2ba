#!/usr/bin/env python3
"""Runs plain cases (docs/cases.md): journal entries, a day, a command, what is said, in one file.

usage: run_cases.py [--bless] PROGRAM FILE|FOLDER...

Prints every line of a case that does not hold beside what was said. With --bless what is said now is written into the
files in place of what they expected; whoever does that reads the difference before it is committed.
"""
import json
import os
import pathlib
import re
import shlex
import sqlite3
import subprocess
import sys
import tempfile

# What an entry of a case means where it leaves a key out: a usual room, a sealed tub with paper, nothing special. The
# kind of an animal, its weight and all that a rule may hang on is always written.
USUAL = {
    "room-added": {"day_c": 25, "night_c": 25, "humidity_percent": 50, "adjoining": [], "floor_cm2": 120000},
    "enclosure-added": {"material": "sealed", "substrate": "paper", "day_c": 30, "night_c": 27,
                        "humidity_percent": 60, "floor_cm2": 2800},
    "animal-arrived": {"origin": "", "quarantine": False},
    "bystander-noted": {"room": ""},
    "animal-left": {"reason": ""},
    "handled": {"shared_bag": False},
    "condition-noted": {"present": True, "agent": "", "note": ""},
    "meal": {"outcome": "eaten", "prey": "", "number": 0, "mass_g": 0, "treated_prey": False},
    "eggs": {"present": True},
    "thing-kept": {"enclosure": "", "room": ""},
    "signs-noted": {"seen": [], "gone": []},
    "outside-contact": {"rooms": [], "enclosures": [], "note": ""},
    "sighted": {"count": "2-10", "where": "on-animal"},
    "checked": {"method": "look-over", "count": "none"},
    "treated": {"animals": [], "strength_mg_per_l": 0},
    "room-treated": {"strength_mg_per_l": 0},
    "water-moved": {"out": True},
    "vet-direction": {"who": "a veterinarian", "text": "as agreed"},
    "plan-adopted": {"rooms": [], "change_substrate": False, "keep_damp": False, "strength_mg_per_l": 10},
    "task-skipped": {"reason": ""},
    "withdrawn": {"reason": ""},
}
NAMED_AFTER = {"room-added": "room", "enclosure-added": "enclosure", "animal-arrived": "animal", "bystander-noted": "taxon"}
LISTS = {"adjoining", "animals", "enclosures", "fresh_tubs", "gone", "rooms", "rounds", "seen"}
DAY = r"\d{4}-\d{2}-\d{2}"


class Wrong(Exception):
    """The case itself cannot be read or put on record."""


class Number(str):
    """A number exactly as it was printed."""


def parse(text):
    return json.loads(text, parse_float=Number, parse_int=Number)


def to_json(value, gap=""):
    """JSON with numbers exactly as they were printed."""
    if isinstance(value, Number):
        return str(value)
    if isinstance(value, dict):
        return "{" + f",{gap}".join(f"{json.dumps(key)}:{gap}{to_json(one, gap)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + f",{gap}".join(to_json(one, gap) for one in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def show(value):
    """A value as a case writes it: a word as it is, all else in JSON."""
    is_word = isinstance(value, str) and re.fullmatch(r"[a-z][a-z0-9-]*", value) and value not in ("true", "false", "null")
    return value if is_word else to_json(value, " ")


def value_of(text):
    """JSON, or a bare text that is none."""
    try:
        return parse(text)
    except ValueError:
        return text


def read_fields(text):
    """key=value key=value: a value is JSON, or a word; of a list, words with commas between them."""
    fields = {}
    at = 0
    while at < len(text):
        start = re.compile(r"\s*([a-z_0-9]+)=").match(text, at)
        if not start:
            raise Wrong(f"key=value is expected here: {text[at:]}")
        key = start.group(1)
        at = start.end()
        if text[at:at + 1] in ('"', "[", "{"):
            try:
                value, at = json.JSONDecoder(parse_float=Number, parse_int=Number).raw_decode(text, at)
            except ValueError as fault:
                raise Wrong(f"the value of {key} is no JSON: {fault}")
        else:
            word = re.compile(r"\S*").match(text, at)
            at = word.end()
            value = word.group().split(",") if key in LISTS else value_of(word.group())
        fields[key] = value
        at = re.compile(r"\s*").match(text, at).end()
    return fields


class Entry:
    def __init__(self, day, kind, rest):
        given = read_fields(rest)
        self.day, self.kind = day, kind
        self.corrects = int(given.pop("corrects")) if "corrects" in given else None
        self.body = dict(USUAL.get(kind, {}), **given)
        if kind in NAMED_AFTER:
            self.body.setdefault("name", self.body.get(NAMED_AFTER[kind], ""))

    def write(self, raw):
        try:
            raw.execute("INSERT INTO fact (day, recorded_at, kind, body, corrects) VALUES (?, ?, ?, ?, ?)",
                        (self.day, f"{self.day}T12:00:00.000000Z", self.kind, to_json(self.body), self.corrects))
        except sqlite3.Error as fault:
            raise Wrong(f"the journal does not take this entry: {fault}")


class Expectation:
    """[some|no] POINTER, then: is VALUE, are LIST, has VALUE, counts N, at least N, at most N, as before, no less, no more"""
    with_value = ("is", "has", "are", "counts", "at least", "at most")
    against_before = ("as before", "no less", "no more")

    def __init__(self, text):
        found = re.fullmatch(rf"(?:(some|no) )?(/(?:[^\s\"]|\"[^\"]*\")*)(?: ({'|'.join(self.with_value)}) (.+)"
                             rf"| ({'|'.join(self.against_before)}))?", text)
        if not found:
            raise Wrong(f"this is no expectation: {text}")
        self.whose, self.pointer, self.how, self.wanted, before = found.groups()
        self.how = self.how or before
        if self.how is None and self.whose != "no":
            raise Wrong(f"what is expected there? is, has, counts ... is missing: {text}")
        if before and self.whose:
            raise Wrong(f"what is compared with the answer before stands alone: {text}")

    def ground(self):
        """What must be there for a "no" to mean anything: the last list that is searched, or what it would lie in."""
        steps = re.findall(r"/(?:[^/\"]|\"[^\"]*\")*", self.pointer)
        searched = [n for n, step in enumerate(steps) if step == "/*" or "=" in step]
        return "".join(steps[:searched[-1] if searched else -1])

    def holds_for(self, value):
        if self.how is None:
            return True
        if self.how == "counts":
            return isinstance(value, (list, dict)) and len(value) == int(self.wanted)
        if self.how in ("at least", "at most"):
            distance = float(value) - float(self.wanted) if isinstance(value, Number) else float("nan")
            return distance >= 0 if self.how == "at least" else distance <= 0
        wanted = value_of(self.wanted)
        if self.how == "is":
            return value == wanted and type(value) is type(wanted)
        if isinstance(value, str) and not isinstance(value, Number):
            return str(wanted) in value
        return isinstance(value, list) and wanted in value

    def holds_since(self, before, now):
        """Against what the same pointer led to in the answer before."""
        if self.how == "as before":
            return before == now
        return len(before) == len(now) == 1 and isinstance(now[0], Number) and (
            float(now[0]) >= float(before[0]) if self.how == "no less" else float(now[0]) <= float(before[0]))


def is_one(element, wishes):
    for wish in wishes.split(","):
        key, _, wanted = wish.partition("=")
        wanted = wanted.strip('"')
        value = element.get(key, Wrong) if isinstance(element, dict) else Wrong
        if value is Wrong or (value if isinstance(value, str) else json.dumps(value)) != wanted:
            return False
    return True


def follow(answer, pointer):
    """Everything a pointer leads to, each with all it lies in. RFC 6901; in a list also * and KEY=VALUE,KEY=VALUE."""
    reached = [(answer, ())]
    for step in re.findall(r"/((?:[^/\"]|\"[^\"]*\")*)", pointer):
        step = step.replace("~1", "/").replace("~0", "~")
        found = []
        for value, around in reached:
            around = around + (value,)
            if isinstance(value, dict):
                found += [(one, around) for key, one in value.items() if step in ("*", key)]
            elif isinstance(value, list) and step.isdigit():
                found += [(one, around) for one in value[int(step):int(step) + 1]]
            elif isinstance(value, list):
                found += [(one, around) for one in value if step == "*" or ("=" in step and is_one(one, step))]
        reached = found
    return reached


def short(text, most=400):
    return text if len(text) <= most else text[:most] + " ..."


class Command:
    def __init__(self, words, line):
        self.words, self.line = words, line
        self.lines = []  # numbers of the lines that tell what is said
        self.exits, self.expectations, self.text = 0, [], []

    def run(self, program, folder, today):
        wants_text = bool(self.text)
        call = [str(program), "--today", today, *self.words] + ([] if wants_text else ["--json"])
        surroundings = {"PATH": os.environ.get("PATH", ""), "COLUMNS": "80", "NO_COLOR": "1"}
        return subprocess.run(call, cwd=folder, env=surroundings, capture_output=True, stdin=subprocess.DEVNULL)


class Case:
    def __init__(self, path):
        self.path = path
        self.lines = path.read_text(encoding="utf-8").splitlines()
        self.steps = []  # (number of the line, Entry | day | Command)
        self.read()

    def read(self):
        if not self.lines or not re.fullmatch(r"[A-Z\"].*\.", self.lines[0]):
            raise Wrong(f"{self.path}:1: a case begins with a sentence that says what it proves")
        end_of_words = next((n for n, line in enumerate(self.lines) if not line.strip()), len(self.lines))
        command = None
        for number, line in enumerate(self.lines[end_of_words:], end_of_words + 1):
            try:
                command = self.read_line(number, line, command)
            except Wrong as fault:
                raise Wrong(f"{self.path}:{number}: {fault}")
        if not any(isinstance(step, Command) and (step.lines or step.exits) for _, step in self.steps):
            raise Wrong(f"{self.path}: a case expects something")

    def read_line(self, number, line, command):
        if not line.strip() or line.startswith("#"):
            return command
        entry = re.fullmatch(rf"({DAY}) ([a-z-]+)(?: (.*))?", line)
        today = re.fullmatch(rf"today ({DAY})", line)
        if entry:
            self.steps.append((number, Entry(entry.group(1), entry.group(2), entry.group(3) or "")))
            return None
        if today:
            self.steps.append((number, today.group(1)))
            return None
        if line.startswith("$ mitefall "):
            command = Command(shlex.split(line)[2:], number)
            self.steps.append((number, command))
            return command
        if command is None:
            raise Wrong(f"this is no entry, no day and no command: {line}")
        command.lines.append(number)
        if line.startswith("|"):
            command.text.append((number, line[2:]))
        elif re.fullmatch(r"exits \d+", line):
            command.exits = int(line[6:])
        else:
            command.expectations.append((number, Expectation(line)))
        if command.text and command.expectations:
            raise Wrong("a command tells its text or is looked up in JSON, not both")
        return command


class Run:
    """One case against the program. `failures`: what does not hold. `asserted`: reasons and cautions expectations
    hold for. `lines`: the file with what is said now."""

    def __init__(self, case, program):
        self.case, self.program = case, program
        self.failures, self.asserted, self.lines = [], [], list(case.lines)
        self.before = {}  # pointer -> what it led to in the last answer that was asked for it
        self.expects_damage = any(e.pointer.startswith("/damage") for _, step in case.steps if isinstance(step, Command)
                                  for _, e in step.expectations)
        with tempfile.TemporaryDirectory() as folder:
            self.play(pathlib.Path(folder))

    def fail(self, number, text):
        self.failures.append(f"{self.case.path}:{number}: {text}")

    def play(self, folder):
        made = subprocess.run([str(self.program), "new"], cwd=folder, capture_output=True, text=True)
        if made.returncode != 0:
            raise Wrong(f"{self.case.path}: no collection: {made.stderr}")
        today, waiting = None, []
        for number, step in self.case.steps:
            if isinstance(step, Entry):
                waiting.append((number, step))
            elif isinstance(step, str):
                today = step
            else:
                self.record(folder, waiting)
                waiting = []
                if today is None:
                    raise Wrong(f"{self.case.path}:{number}: the case does not say which day is today")
                self.ask(number, step, step.run(self.program, folder, today))

    def record(self, folder, entries):
        if not entries:
            return
        raw = sqlite3.connect(folder / "collection.mitefall")
        for number, entry in entries:
            try:
                entry.write(raw)
            except Wrong as fault:
                raise Wrong(f"{self.case.path}:{number}: {fault}")
        raw.commit()
        raw.close()

    def ask(self, number, command, done):
        out, err = done.stdout.decode(), done.stderr.decode()
        if done.returncode != command.exits:
            self.fail(number, f"ended with {done.returncode} instead of {command.exits}: {short(err or out)}")
        if "set aside" in err and not self.expects_damage:
            self.fail(number, f"an entry of the case does not count: {err}")
        if command.text:
            return self.compare_text(command, out)
        try:
            answer = parse(out) if out else {}
        except ValueError:
            return self.fail(number, f"no JSON: {short(out)}")
        if "damage" in answer and not self.expects_damage:
            self.fail(number, f"an entry of the case does not count: {show(answer['damage'])}")
        for line, expectation in command.expectations:
            self.look(line, expectation, answer)

    def look(self, number, expectation, answer):
        reached = follow(answer, expectation.pointer)
        now = [value for value, _ in reached]
        before = self.before.get(expectation.pointer)
        self.before[expectation.pointer] = now
        if expectation.how in Expectation.against_before:
            if before is None:
                self.fail(number, f"no answer before was asked for {expectation.pointer}")
            elif not now or not expectation.holds_since(before, now):
                self.fail(number, self.case.lines[number - 1] +
                          f"\n    before: {short(show(before))}\n       now: {short(show(now))}")
            return
        if expectation.how == "are":
            if now != value_of(expectation.wanted):
                self.fail(number, f"{self.case.lines[number - 1]}\n      said: {short(show(now))}")
                self.lines[number - 1] = f"{expectation.pointer} are {show(now)}"
            return
        good = [one for one in reached if expectation.holds_for(one[0])]
        if expectation.whose == "no" and not follow(answer, expectation.ground()):
            self.fail(number, f"{self.case.lines[number - 1]}\n      said: {self.nearest(answer, expectation.ground())}")
            return
        holds = {"some": bool(good), "no": not good, None: bool(reached) and len(good) == len(reached)}[expectation.whose]
        if holds:
            for value, around in good:
                self.asserted += [one for one in (*around, value)
                                  if isinstance(one, dict) and "rule" in one]
            return
        said = [show(value) for value, _ in reached] or [self.nearest(answer, expectation.pointer)]
        self.fail(number, self.case.lines[number - 1] + "".join(f"\n      said: {short(one)}" for one in said[:12]))
        if expectation.whose is None and expectation.how == "is" and len(set(said)) == 1 and reached:
            self.lines[number - 1] = f"{expectation.pointer} is {said[0]}"
        if expectation.whose is None and expectation.how == "counts" and len(reached) == 1:
            self.lines[number - 1] = f"{expectation.pointer} counts {len(reached[0][0])}"

    @staticmethod
    def nearest(answer, pointer):
        """Where there is nothing: the last step of the way there that leads somewhere."""
        while pointer:
            pointer = re.sub(r"/(?:[^/\"]|\"[^\"]*\")*$", "", pointer)
            reached = follow(answer, pointer)
            if reached:
                return f"nothing there; at {pointer or 'the top'} stands {show(reached[0][0])}"
        return "nothing"

    def compare_text(self, command, out):
        said = out.splitlines()
        wanted = [text for _, text in command.text]
        pattern = "".join(r"(?:.*\n)*?" if text == "..." else re.escape(text.rstrip()) + r" *\n" for text in wanted)
        if re.fullmatch(pattern, "".join(line + "\n" for line in said)):
            return
        self.fail(command.text[0][0], "the text is another" + "".join(
            f"\n    - {line}" for line in wanted) + "".join(f"\n    + {line}" for line in said))
        first, last = command.text[0][0] - 1, command.text[-1][0] - 1
        self.lines[first] = "\n".join(f"| {line}".rstrip() for line in said)
        for number in range(first + 1, last + 1):
            self.lines[number] = None


def files_in(paths):
    """Every file that is meant; of a folder its cases."""
    for path in map(pathlib.Path, paths):
        yield from sorted(path.glob("*.case")) if path.is_dir() else [path]


def main(words):
    bless = words[:1] == ["--bless"]
    program, *paths = words[1:] if bless else words
    program = pathlib.Path(program).resolve()
    paths, failed = list(files_in(paths)), 0
    for path in paths:
        try:
            run = Run(Case(path), program)
        except Wrong as fault:
            failed += 1
            print(f"FAILED {fault}")
            continue
        if run.failures:
            failed += 1
            print(f"FAILED {run.case.lines[0]}")
            for failure in run.failures:
                print(f"  {failure}")
        if bless and run.lines != run.case.lines:
            run.case.path.write_text("\n".join(line for line in run.lines if line is not None) + "\n", encoding="utf-8")
            print(f"{path} now expects what is said; read the difference")
    print(f"{len(paths) - failed} held, {failed} failed")
    return 1 if failed or not paths else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
