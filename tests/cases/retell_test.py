#!/usr/bin/env python3
"""A collection told again without names answers as the collection does.

usage: retell_test.py PROGRAM

Puts the forty enclosures of a case on record under other names, with an entry that is damaged and a course, lets the program
retell them, puts the retelling on record too, and asks both the same: every figure, day and choice must be the same, and no
name may stand in the file.
"""
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
import run_cases  # noqa: E402

TODAY, SHIFTED = "2026-11-25", "2022-11-25"
QUESTIONS = [["show"], ["verdicts"], ["verdicts", "--strength", "200 mg/L"], ["exposure"], ["today"], ["course"]]
# What stands in place of the words of the case: an order of names of its own, and letters nothing else has.
OTHER_WORDS = {"animal-": "zuk", "Animal ": "\u0416uk 'Q' ", "enclosure-": "zuk-", "Enclosure ": "Tub \u0416",
               "room-": "zukzuk", "Room ": "\u0416uk's ", "a note": "\u0416 bit him", "Guest ": "\u0416"}
MORE = """2026-11-20 sighted
2026-11-24 plan-adopted rounds=2026-11-24,2026-12-01 enclosures=zuk-5,zuk-6
2026-11-24 task-done task="2026-11-24/bedding/zuk-6"
2026-11-24 vet-direction animal=zuk7 method=soak who="\u0416" text="zuk7, twice"
"""


def collection_of(program, file, today, text):
    """A collection with the entries of a case on record."""
    ask(program, file, today, "new")
    raw = sqlite3.connect(file)
    for line in text.splitlines():
        entry = re.fullmatch(rf"({run_cases.DAY}) ([a-z-]+)(?: (.*))?", line)
        if entry:
            run_cases.Entry(entry.group(1), entry.group(2), entry.group(3) or "").write(raw)
    raw.commit()
    raw.close()


def ask(program, file, today, *words):
    done = subprocess.run([str(program), "--file", str(file), "--today", today, *words], capture_output=True, text=True,
                          stdin=subprocess.DEVNULL)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}: {done.stderr}")
    return done.stdout


def facts_of(answer):
    """All of an answer but its texts: figures as printed, truths, days, and choices that are the same words."""
    if isinstance(answer, dict):
        return {key: facts_of(one) for key, one in answer.items()}
    if isinstance(answer, list):
        return [facts_of(one) for one in answer]
    if isinstance(answer, run_cases.Number) or not isinstance(answer, str):
        return answer
    day = re.fullmatch(r"(\d{4})(-\d{2}-\d{2})", answer)
    return (int(day.group(1)), day.group(2)) if day else "a text"


def shifted(answer):
    """With its days four years earlier."""
    if isinstance(answer, dict):
        return {key: shifted(one) for key, one in answer.items()}
    if isinstance(answer, list):
        return [shifted(one) for one in answer]
    return (answer[0] - 4, answer[1]) if isinstance(answer, tuple) else answer


CHOICES = {"ruling", "method", "tag", "source", "kind", "danger", "state", "count", "where", "condition"}


def choices_of(answer):
    """Choices by their names; the arguments of what is told have names of their own ("where" is a place there)."""
    if isinstance(answer, dict):
        chosen = [(key, one) for key, one in answer.items() if key in CHOICES]
        return chosen + [choice for key, one in answer.items() if key != "args" for choice in choices_of(one)]
    return [choice for one in answer for choice in choices_of(one)] if isinstance(answer, list) else []


def other_words(text):
    for ours, theirs in OTHER_WORDS.items():
        text = re.sub(rf"(?<![a-z-]){ours}(?!added|moved|arrived|left|treated)", lambda _: theirs, text)
    return text


def main(program):
    program = pathlib.Path(program).resolve()
    failures = []
    case = (pathlib.Path(__file__).parent / "forty-enclosures.case").read_text(encoding="utf-8")
    entries = "\n".join(other_words(line) for line in case.splitlines() if re.match(run_cases.DAY, line)) + "\n" + MORE
    first = entries[:10]
    earlier = f"{int(first[:4]) - 4}{first[4:]}"  # as many days as from TODAY to SHIFTED, one 29 February among them
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        ours = folder / "ours.mitefall"
        collection_of(program, ours, TODAY, entries)
        if len(re.findall("\u0416|zuk", ask(program, ours, TODAY, "journal", "--json"))) < 300:
            failures.append("the collection has hardly a name")
        for words, today in (([], TODAY), (["--first-day", earlier], SHIFTED)):
            file, theirs = folder / f"{today}.case", folder / f"{today}.mitefall"
            ask(program, ours, TODAY, "retell", "--out", str(file), *words)
            text = file.read_text(encoding="utf-8")
            if any(letters in text for letters in ("\u0416", "zuk", "Q", "Tub")):
                failures.append(f"{today}: a name stands in the file")
            if f"\ntoday {today}\n" not in text:
                failures.append(f"the file does not say that today is {today}")
            collection_of(program, theirs, today, text)
            for question in QUESTIONS:
                before = run_cases.parse(ask(program, ours, TODAY, *question, "--json"))
                after = run_cases.parse(ask(program, theirs, today, *question, "--json"))
                wanted = facts_of(before) if today == TODAY else shifted(facts_of(before))
                if "damage" not in after or wanted != facts_of(after):
                    failures.append(f"{today}: {' '.join(question)} answers otherwise")
                if choices_of(before["result"]) != choices_of(after["result"]):
                    failures.append(f"{today}: {' '.join(question)} chooses otherwise")
    print("\n".join(failures) or f"{2 * len(QUESTIONS)} answers are the same")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
