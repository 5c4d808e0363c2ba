#!/usr/bin/env python3
"""Every rule of the safety check stands in a plain case: each sentence its gates can say, as a reason, as what to do about
it or as a caution, is in one that an expectation of some case holds for.

usage: rules_in_cases.py PROGRAM PROJECT_ROOT

The sentences are read from the gates themselves, so that a new rule without a case fails here.
"""
import pathlib
import re
import sys

sys.dont_write_bytecode = True
import run_cases  # noqa: E402

FILES = ["gate_*.cpp", "cautions.cpp", "handling.cpp", "direction.cpp"]
# What no command can ask for today, each with the test that holds it. One that a case says after all is told.
NOT_ASKED_FOR = {
    "the strength of the mix is not known": "tests/safety/gates_test.cpp; every command has a strength",
    "work it out on the mixing bench first": "the same",
    "{} of permethrin is stronger than the usual {}": "tests/safety/gates_test.cpp; commands judge the usual one",
    "mix at most {} and follow the label": "the same",
    "for places where no animal lives": "tests/safety/gates_test.cpp; a verdict is about an animal",
}
FEWEST_SPACES = 2  # shorter ones are keys, or parts of others

LITERAL = r'"(?:[^"\\]|\\.)*"'


def sentences(path):
    code = re.sub(r"//[^\n]*|^#[^\n]*", "", path.read_text(encoding="utf-8"), flags=re.M)
    for run in re.findall(rf"{LITERAL}(?:\s*{LITERAL})*", code):
        text = "".join(part[1:-1] for part in re.findall(LITERAL, run)).replace('\\"', '"')
        if re.sub(r"\{[^}]*\}", "", text).strip().count(" ") >= FEWEST_SPACES:
            yield text


def is_said(sentence, said):
    pattern = ".*".join(re.escape(part) for part in re.split(r"\{[^}]*\}", sentence))
    return re.search(pattern, said) is not None


def main(program, root):
    root = pathlib.Path(root)
    said = set()
    for case in map(run_cases.Case, run_cases.files_in([root / "tests" / "cases"])):
        asks = [step for _, step in case.steps if isinstance(step, run_cases.Command)]
        if not any(e.pointer.count("/reasons") + e.pointer.count("/cautions") for ask in asks for _, e in ask.expectations):
            continue
        for one in run_cases.Run(case, pathlib.Path(program).resolve()).asserted:
            said |= {one["text"], one.get("remedy") or "", one.get("source") or ""}
    said = "\n".join(said)
    files = [file for names in FILES for file in (root / "src" / "safety").glob(names)]
    rules = {(file.name, text) for file in files for text in sentences(file)}
    if len(rules) < 80:
        sys.exit(f"only {len(rules)} sentences found in src/safety: the pattern no longer fits")
    missing = sorted(rule for rule in rules if not is_said(rule[1], said) and rule[1] not in NOT_ASKED_FOR)
    stale = sorted(text for text in NOT_ASKED_FOR if text not in {rule[1] for rule in rules} or is_said(text, said))
    for file, text in missing:
        print(f"src/safety/{file}: no case says: {text}")
    for text in stale:
        print(f"no exception any more, take it out of NOT_ASKED_FOR: {text}")
    print(f"{len(rules)} sentences, {len(missing)} without a case")
    return 1 if missing or stale else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
