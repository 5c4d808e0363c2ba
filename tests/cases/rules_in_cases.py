#!/usr/bin/env python3
"""Every rule of the safety check stands in a plain case: each row of src/safety/rules.def is told by an answer that an
expectation of some case holds for, as a reason, as what to do about it, as a caution or inside another.

usage: rules_in_cases.py PROGRAM PROJECT_ROOT
"""
import pathlib
import re
import sys

sys.dont_write_bytecode = True
import run_cases  # noqa: E402

# What no command can ask for today, each with the test that holds it. One that a case tells after all is reported.
NOT_ASKED_FOR = {
    "strength_unknown": "tests/safety/gates_test.cpp; every command has a strength",
    "bench_first": "the same",
    "acknowledge_for_empty": "tests/safety/gates_test.cpp; a verdict is about an animal",
    "no_such_animal": "tests/safety/permit_test.cpp; plans ask only for what is there",
    "no_such_enclosure": "the same",
    "no_such_room": "the same",
    "check_the_name": "the same",
    "not_done_to_an_enclosure": "the same",
    "not_done_to_a_room": "the same",
    "ask_as_it_is_done": "the same",
    "nobody_there": "the same",
    "treat_the_enclosure": "the same",
    "day_is_over": "tests/safety/wet_book_test.cpp; plans begin today",
}
ROW = re.compile(r"^(?:RULE|FACT|CAUTION|REMEDY|PART)\((\w+)", re.M)


def told_in(answer):
    """The ids that an answer tells, at any depth."""
    if isinstance(answer, dict):
        for key, value in answer.items():
            if key in ("rule", "remedy_rule") and isinstance(value, str):
                yield value
            yield from told_in(value)
    elif isinstance(answer, list):
        for value in answer:
            yield from told_in(value)


def main(program, root):
    root = pathlib.Path(root)
    rules = ROW.findall((root / "src" / "safety" / "rules.def").read_text(encoding="utf-8"))
    if len(rules) < 120:
        sys.exit(f"only {len(rules)} rows found in src/safety/rules.def: the pattern no longer fits")
    told = set()
    for case in map(run_cases.Case, run_cases.files_in([root / "tests" / "cases"])):
        told |= set(told_in(run_cases.Run(case, pathlib.Path(program).resolve()).asserted))
    missing = [rule for rule in rules if rule not in told and rule not in NOT_ASKED_FOR]
    stale = sorted(rule for rule in NOT_ASKED_FOR if rule not in rules or rule in told)
    for rule in missing:
        print(f"src/safety/rules.def: no case tells: {rule}")
    for rule in stale:
        print(f"no exception any more, take it out of NOT_ASKED_FOR: {rule}")
    print(f"{len(rules)} rules, {len(missing)} without a case")
    return 1 if missing or stale else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
