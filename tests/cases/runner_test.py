#!/usr/bin/env python3
"""The runner of plain cases fails where it should: each case below is wrong in one way, and it says so.

usage: runner_test.py PROGRAM
"""
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
SENTENCE = "A case for the runner.\n\n"
PLACE = "2026-01-01 room-added room=den\n2026-01-01 enclosure-added enclosure=tub room=den\n"
IVY = PLACE + """2026-01-01 animal-arrived animal=ivy taxon="corn snake" enclosure=tub
2026-11-20 weighed animal=ivy mass_g=900
"""
ASK = "today 2026-11-25\n$ mitefall show\n"

RIGHT = {
    "a number as printed": SENTENCE + IVY + ASK + "/result/animals/0/weight/mass_g is 900.0\n",
    "all, some and none": SENTENCE + IVY + ASK + '/result/animals/*/taxon is "corn snake"\n'
                          "some /result/animals/*/animal is ivy\nno /result/animals/animal=moss\n",
    "lines skipped": SENTENCE + IVY + ASK + "| ...\n| ivy     corn snake  tub        den   900 g\n",
    "an entry that corrects": SENTENCE + IVY + "2026-11-20 weighed animal=ivy mass_g=80 corrects=4\n" + ASK +
                              "/result/animals/0/weight/mass_g is 80.0\n",
}
WRONG = {
    "another value": (SENTENCE + IVY + ASK + "/result/animals/0/animal is moss\n", "said: ivy"),
    "the same number printed otherwise": (SENTENCE + IVY + ASK + "/result/animals/0/weight/mass_g is 900\n", "said: 900.0"),
    "a pointer that leads nowhere": (SENTENCE + IVY + ASK + "/result/beasts/0/animal is ivy\n", "nothing there"),
    "a no that means nothing": (SENTENCE + IVY + ASK + "no /result/beasts/animal=ivy\n", "nothing there"),
    "a no that is there": (SENTENCE + IVY + ASK + "no /result/animals/animal=ivy\n", "no /result"),
    "some, and there is none": (SENTENCE + IVY + ASK + "some /result/animals/*/animal is moss\n", "said: ivy"),
    "another count": (SENTENCE + IVY + ASK + "/result/animals counts 2\n", "counts 2"),
    "another order": (SENTENCE + IVY + ASK + '/result/animals/*/animal are ["moss", "ivy"]\n', 'said: ["ivy"]'),
    "another text": (SENTENCE + IVY + ASK + "| nothing\n", "the text is another"),
    "another exit code": (SENTENCE + IVY + ASK + "exits 4\n", "ended with 0"),
    "nothing to compare with": (SENTENCE + IVY + ASK + "/result/animals as before\n", "no answer before"),
    "an entry that does not count": (SENTENCE + IVY + "2026-11-20 weighed animal=moss mass_g=9\n" + ASK +
                                     "/result/animals/0/animal is ivy\n", "does not count"),
    "an entry the journal does not take": (SENTENCE + IVY + "2026-11-20 weighed animal=ivy mass_g=9 corrects=99\n" + ASK +
                                           "/result/animals/0/animal is ivy\n", "does not take"),
    "no day": (SENTENCE + IVY + "$ mitefall show\n/result/animals/0/animal is ivy\n", "which day is today"),
    "no sentence": (IVY + "\n" + ASK + "/result/animals/0/animal is ivy\n", "begins with a sentence"),
    "nothing expected": (SENTENCE + IVY + ASK, "expects something"),
    "a line that is nothing": (SENTENCE + IVY + ASK + "/result/animals/0/animal is ivy\nivy is well\n", "no expectation"),
}


def run(*words):
    done = subprocess.run([sys.executable, str(HERE / "run_cases.py"), *map(str, words)], capture_output=True, text=True)
    return done.returncode, done.stdout + done.stderr


def main(program):
    program = pathlib.Path(program).resolve()
    failures = []
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "some.case"
        for name, text in RIGHT.items():
            file.write_text(text)
            code, said = run(program, file)
            if code != 0:
                failures.append(f"{name}: should hold: {said}")
        for name, (text, wanted) in WRONG.items():
            file.write_text(text)
            code, said = run(program, file)
            if code != 1 or wanted not in said or "Traceback" in said:
                failures.append(f"{name}: should fail with \"{wanted}\": {code} {said}")
        file.write_text(SENTENCE + IVY + ASK + "/result/animals/0/animal is ?\n"
                        "/result/animals/*/animal are ?\n$ mitefall show\n| ?\n")
        run("--bless", program, file)
        code, said = run(program, file)
        if code != 0 or "/result/animals/0/animal is ivy" not in file.read_text():
            failures.append(f"what was blessed does not hold: {said}{file.read_text()}")
    print("\n".join(failures) or f"{len(RIGHT) + len(WRONG) + 1} held")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
