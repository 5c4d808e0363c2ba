#!/usr/bin/env python3
"""Holds the answers of one build against those of another, to the last bit.

  frozen_answers.py make PROGRAM FOLDER      makes 20 collections of our own in FOLDER/collections
  frozen_answers.py ask PROGRAM FOLDER NAME  asks each of them every question, into FOLDER/NAME
  frozen_answers.py compare FOLDER OLD NEW   tells every difference; ends with 1 if a number or a word is another

The collections are made once, by the program as it was, and copied before they are asked: a build that is to give the same answers
is asked about the same files. Random choices are drawn from the number of the collection alone.
"""
import datetime
import json
import os
import random
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

COLLECTIONS = 20
DRAWS = "16"
FIRST = datetime.date(2026, 3, 2)
KINDS = ["corn snake", "ball python", "boa constrictor", "Morelia viridis", "western hognose", "leopard gecko",
         "king snake", "nobody knows", "carpet python", "garter snake"]


def day(number: int) -> str:
    return (FIRST + datetime.timedelta(days=number)).isoformat()


class House:
    """One collection while it is made. What the program refuses is no part of it."""

    def __init__(self, program: str, file: Path, number: int):
        self.program, self.file, self.dice = program, file, random.Random(number)
        self.today = 0
        self.rooms, self.tubs, self.animals = [], [], []

    def run(self, *words: str) -> "subprocess.CompletedProcess[str]":
        return subprocess.run([self.program, "-f", str(self.file), "--today", day(self.today), "--json", *words],
                              capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False)

    def record(self, *words: str) -> bool:
        return self.run("record", *words, "--knowing").returncode == 0

    def some(self, chance: float) -> bool:
        return self.dice.random() < chance

    def move_in(self) -> None:
        pick = self.dice.choice
        for i in range(self.dice.randint(1, 3)):
            room = f"room-{i}"
            next_door = ["--adjoins", self.rooms[-1]] if self.rooms and self.some(0.5) else []
            if self.record("room", room, "--temperature", f"{self.dice.randint(22, 30)} C", "--floor-cm2", "90000",
                           "--humidity", str(self.dice.randint(30, 80)), *next_door):
                self.rooms.append(room)
        for i in range(self.dice.randint(2, 8)):
            tub = f"tub-{i}"
            if self.record("enclosure", tub, "--room", pick(self.rooms), "--temperature",
                           f"{self.dice.randint(24, 32)} C", "--night", f"{self.dice.randint(20, 26)} C",
                           "--floor-cm2", str(self.dice.randint(1500, 9000)), "--material",
                           pick(["sealed", "sealed", "porous"]), "--substrate", pick(["paper", "paper", "loose"])):
                self.tubs.append(tub)
        for i in range(self.dice.randint(1, len(self.tubs) + 2)):
            self.take_in(f"animal-{i}", quarantine=False)
        for name, kind in (("dog", "dog"), ("pond", "fish"), ("pet", "tarantula")):
            if self.some(0.2):
                self.record("bystander", name, "--kind", kind, "--room", pick(self.rooms))

    def take_in(self, animal: str, quarantine: bool) -> None:
        said = "--quarantine" if quarantine else "--no-quarantine"
        if self.record("arrival", animal, "--kind", self.dice.choice(KINDS), "--enclosure", self.dice.choice(self.tubs),
                       said):
            self.animals.append(animal)
            if self.some(0.9):
                self.record("weight", animal, f"{self.dice.choice([80, 150, 300, 620, 900, 2400])} g")

    def happen(self) -> None:
        """Something beside the day's work."""
        pick = self.dice.choice
        if not self.animals:
            return
        animal, tub = pick(self.animals), pick(self.tubs)
        either = [
            lambda: self.record("shed", animal, pick(["cloudy", "shed", "clear"])),
            lambda: self.record("condition", animal, pick(["thin", "gravid", "sick", "neonate"])),
            lambda: self.record("condition", animal, "reacted", "--agent", "ivermectin"),
            lambda: self.record("direction", animal, pick(["spray-animal", "oral-fluralaner"]), "--who", "the veterinarian",
                                "--text", "as agreed", "--up-to", "100 mg/L", "--treatments", "3"),
            lambda: self.record("acknowledgement", "100 mg/L", "--animal", animal),
            lambda: self.record("handling", animal, pick(self.animals)),
            lambda: self.record("shared-item", "hook", "--from", tub, "--to", pick(self.tubs)),
            lambda: self.record("move", animal, "--to", tub),
            lambda: self.record("departure", animal, "--because", pick(["died", "sold"])),
            lambda: self.take_in(f"late-{self.today}", quarantine=self.some(0.7)),
            lambda: self.record("check", tub, pick(["none", "none", "1"]), "--method", pick(["look-over", "paper-trap"])),
            lambda: self.record("treatment", tub, "spray-bedding", "--strength", "10 mg/L"),
            lambda: self.record("treatment", tub, "soak", "--animals", animal),
            lambda: self.record("substrate", tub),
            lambda: self.record("water", tub, pick(["out", "back"])),
            lambda: self.record("weight", animal, f"{self.dice.randint(90, 1500)} g"),
            lambda: self.record("room-treatment", pick(self.rooms)),
            lambda: self.run("batch", "make", f"b-{self.today}", "1 L", "--target", "10 mg/L", "--stock-is", "plain"),
        ]
        pick(either)()

    def work(self, share: float) -> None:
        answer = self.run("today")
        tasks = json.loads(answer.stdout)["result"].get("tasks", []) if answer.returncode == 0 else []
        for task in tasks:
            if task.get("state") != "open" or task.get("kind") == "hygiene" or not self.some(share):
                continue
            found = ["--found", "none"] if task.get("kind") == "check" else []
            self.run("done", task["key"], "--no-score", *found)

    def live(self) -> None:
        self.run("new")
        self.move_in()
        self.today = self.dice.randint(5, 40)
        for _ in range(self.dice.randint(0, 4)):
            self.happen()
        if self.some(0.9):
            self.record("sighting", self.dice.choice(self.tubs), self.dice.choice(["1", "2-10", "11-50"]))
        if self.some(0.8):
            self.run("plan", "--draws", "8", "--adopt", "recommended")
        for _ in range(self.dice.randint(0, 24)):
            self.work(self.dice.choice([0, 0.5, 1, 1, 1]))
            self.today += 1
            if self.some(0.4):
                self.happen()


def make(program: str, folder: Path) -> None:
    collections = folder / "collections"
    collections.mkdir(parents=True)
    days = {}
    for number in range(COLLECTIONS):
        house = House(program, collections / f"{number:02}.mitefall", number)
        house.live()
        days[f"{number:02}"] = {"today": day(house.today), "animals": house.animals}
        print(f"{number + 1} of {COLLECTIONS}: {len(house.animals)} animals, day {house.today}", flush=True)
    (collections / "days.json").write_text(json.dumps(days, indent=1))


def questions(animals: "list[str]") -> "dict[str, list[str]]":
    asked = {name: [name] for name in ("show", "journal", "exposure", "verdicts", "today", "course", "shopping")}
    asked["verdicts-all"] = ["verdicts", "--all", "--reasons"]
    for name in ("tonight", "origin", "plan", "late", "rescore", "clear", "next-check", "matters"):
        asked[name] = [name, "--draws", DRAWS]
    del asked["tonight"]
    asked["plan-work"] = ["plan", "--draws", DRAWS, "--prefer", "work", "--course"]
    asked["clear-traps"] = ["clear", "--draws", DRAWS, "--by", "paper-trap", "--rounds", "3"]
    asked["batches"] = ["batch", "list"]
    asked["mix"] = ["mix", "1 L", "--target", "10 mg/L", "--stock-is", "plain", "--each-animal"]
    for animal in animals:
        asked[f"release-{animal}"] = ["release", animal, "--draws", DRAWS]
    return asked


def ask(program: str, folder: Path, name: str) -> None:
    days = json.loads((folder / "collections" / "days.json").read_text())
    for number, of in days.items():
        to = folder / name / number
        to.mkdir(parents=True)
        file = to / "collection.mitefall"
        shutil.copy(folder / "collections" / f"{number}.mitefall", file)
        for question, words in questions(of["animals"]).items():
            done = subprocess.run([program, "-f", str(file), "--today", of["today"], "--json", *words],
                                  capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False)
            answer = {"exit": done.returncode, "answer": json.loads(done.stdout) if done.stdout else None,
                      "error": done.stderr.replace(str(file), "FILE")}
            (to / f"{question}.json").write_text(json.dumps(answer, indent=1, ensure_ascii=False))
        os.remove(file)
        print(f"{number}: asked", flush=True)


def differences(old, new, at: str):
    """(pointer, old, new) of each leaf that is another; a member that is only new has no old."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted(old.keys() | new.keys()):
            if key not in new:
                yield f"{at}/{key}", old[key], "(gone)"
            elif key not in old:
                yield f"{at}/{key}", "(new)", new[key]
            else:
                yield from differences(old[key], new[key], f"{at}/{key}")
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (a, b) in enumerate(zip(old, new)):
            yield from differences(a, b, f"{at}/{i}")
    elif old != new or type(old) is not type(new):
        yield at, old, new


def compare(folder: Path, old: str, new: str) -> int:
    told, files, members = 0, 0, Counter()
    for before in sorted((folder / old).glob("*/*.json")):
        name = before.relative_to(folder / old)
        after = folder / new / name
        files += 1
        if not after.exists():
            print(f"{name}: not answered any more")
            told += 1
            continue
        for at, was, is_now in differences(json.loads(before.read_text()), json.loads(after.read_text()), ""):
            if was == "(new)":
                members["/".join("*" if part.isdigit() else part for part in at.split("/"))] += 1
                continue
            told += 1
            print(f"{name} {at}\n  - {json.dumps(was, ensure_ascii=False)}\n  + {json.dumps(is_now, ensure_ascii=False)}")
    for member, times in sorted(members.items()):
        print(f"only new: {member} ({times} times)")
    print(f"{files} answers, {told} differences, {sum(members.values())} new members")
    return 1 if told or not files else 0


if __name__ == "__main__":
    if len(sys.argv) == 4 and sys.argv[1] == "make":
        make(sys.argv[2], Path(sys.argv[3]))
    elif len(sys.argv) == 5 and sys.argv[1] == "ask":
        ask(sys.argv[2], Path(sys.argv[3]), sys.argv[4])
    elif len(sys.argv) == 5 and sys.argv[1] == "compare":
        sys.exit(compare(Path(sys.argv[2]), sys.argv[3], sys.argv[4]))
    else:
        sys.exit(__doc__)
