#!/usr/bin/env python3
"""Collection files made by other hands: every one of them ends in a refusal in words or in a right answer.

usage: crafted.py PROGRAM

Makes each file from a sound collection, asks the program what a keeper asks, and looks at how it ends: no crash, no
defect, no hang, no memory without end, no command to the terminal, and the damage said in words. Prints what was tried.
"""
import json
import os
import pathlib
import random
import resource
import shutil
import socket
import sqlite3
import struct
import subprocess
import sys
import tempfile
import urllib.error
import urllib.request

program = pathlib.Path(sys.argv[1]).resolve()
today = "2026-03-20"
failures = []
ends = {}
most_memory = 3 << 30  # address space of a command; a sound one takes a tenth of it
patience = 120  # seconds until a command counts as one that never ends


def bound():
    resource.setrlimit(resource.RLIMIT_AS, (most_memory, most_memory))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def run(file, *words):
    """How a command ended: its exit code, or what killed it; and what it said."""
    try:
        done = subprocess.run([str(program), "--file", str(file), "--today", today, *words], capture_output=True,
                              stdin=subprocess.DEVNULL, timeout=patience, preexec_fn=bound)
    except subprocess.TimeoutExpired:
        return "never ends", "", ""
    return done.returncode, done.stdout.decode(errors="replace"), done.stderr.decode(errors="replace")


def commands_a_terminal(text):
    return any((ord(c) < 32 and c not in "\n") or 0x7F <= ord(c) < 0xA0 or 0x202A <= ord(c) <= 0x202E or
               0x2066 <= ord(c) <= 0x2069 or ord(c) in (0x2028, 0x2029, 0x200E, 0x200F) for c in text)


questions = [["show"], ["--json", "show"], ["journal"], ["today"], ["verdicts", "--animal", "ada"], ["--json", "origin", "--draws", "8"],
             ["record", "room", "extra", "--temperature", "28 C", "--floor-cm2", "90000"], ["undo"], ["show"]]


def check(name, file, wanted):
    """`wanted`: "refused", "damage" (answered, with the damage told), "answered", or "either"."""
    codes = []
    told = False
    for words in questions:
        code, out, err = run(file, *words)
        codes.append(code)
        where = f"{name}: {' '.join(words)}"
        # 3 to 10 are said in words (docs/exit-codes.md); 1 is a defect, a negative one a crash.
        if code not in (0, 3, 4, 5, 6, 7, 8, 9, 10):
            failures.append(f"{where}: ended with {code}: {(err or out)[:300]}")
        if code != 0 and not err.strip():
            failures.append(f"{where}: refused without a word")
        if "contract broken" in out + err:
            failures.append(f"{where}: {err[:300]}")
        if commands_a_terminal(out) or commands_a_terminal(err):
            failures.append(f"{where}: commands the terminal: {[c for c in out + err if commands_a_terminal(c)][:5]}")
        told = told or "set aside" in err
        if "--json" in words and code == 0:
            told = told or "damage" in json.loads(out)
    show = codes[0]
    if wanted == "refused" and show not in (4, 8, 9, 10):
        failures.append(f"{name}: should be refused, show ended with {show}")
    if wanted in ("damage", "answered") and show != 0:
        failures.append(f"{name}: should be answered, show ended with {show}: {run(file, 'show')[2][:300]}")
    if wanted == "damage" and not told:
        failures.append(f"{name}: nothing was said of the damage")
    if wanted == "answered" and told:
        failures.append(f"{name}: damage was told where there is none")
    ends[name] = "refused" if show != 0 else "answered, damage told" if told else "answered"


def open_raw(file):
    raw = sqlite3.connect(file, isolation_level=None)
    raw.execute("PRAGMA foreign_keys = OFF")
    return raw


def schema_by_hand(raw, statement, *values):
    raw.execute("PRAGMA writable_schema = ON")
    raw.execute(statement, values)
    raw.execute("PRAGMA writable_schema = RESET")


triggers = ["fact_is_not_changed", "fact_is_not_deleted", "fact_is_not_replaced", "fact_is_corrected_once"]


def without_guards(raw, work):
    """Does `work` with no trigger, no strict types and no check in the way; the tables look untouched afterwards."""
    kept = raw.execute("SELECT type, name, tbl_name, rootpage, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'fact'").fetchall()
    table = raw.execute("SELECT sql FROM sqlite_schema WHERE name = 'fact'").fetchone()[0]
    for trigger in triggers:
        raw.execute(f"DROP TRIGGER {trigger}")
    loose = table.replace(") STRICT", ")")
    schema_by_hand(raw, "UPDATE sqlite_schema SET sql = ? WHERE name = 'fact'", loose)
    raw.execute("PRAGMA ignore_check_constraints = ON")
    work(raw)
    raw.execute("PRAGMA writable_schema = ON")
    raw.execute("UPDATE sqlite_schema SET sql = ? WHERE name = 'fact'", (table,))
    raw.executemany("INSERT INTO sqlite_schema VALUES (?, ?, ?, ?, ?)", kept)
    raw.execute("PRAGMA writable_schema = RESET")
    raw.close()


def put(raw, kind, body, day="2026-03-10", corrects=None, number=None):
    text = body if isinstance(body, (str, bytes, int, float)) or body is None else json.dumps(body)
    raw.execute("INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (?, ?, '2026-03-10T20:00:00Z', ?, ?, ?)",
                (number, day, kind, text, corrects))


def entry(*rows):
    """A file with these rows put into its journal by hand."""
    def make(file):
        def work(raw):
            for row in rows:
                put(raw, **row)
        without_guards(open_raw(file), work)
    return make


def sql(*statements):
    def make(file):
        raw = open_raw(file)
        for statement in statements:
            raw.execute(statement)
        raw.close()
    return make


def by_hand(statement, *values):
    def make(file):
        raw = open_raw(file)
        schema_by_hand(raw, statement, *values)
        raw.close()
    return make


def bytes_of(change):
    def make(file):
        data = bytearray(file.read_bytes())
        change(data)
        file.write_bytes(data)
    return make


room = {"room": "hall", "name": "", "day_c": 28, "night_c": 26, "humidity_percent": 50, "adjoining": [], "floor_cm2": 90000}
tub = {"enclosure": "tub-9", "name": "", "room": "main", "material": "sealed", "substrate": "paper", "day_c": 28, "night_c": 26,
       "humidity_percent": 50, "floor_cm2": 4000}
endless = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT count(*) FROM n"


def view_for_table(file):
    raw = open_raw(file)
    raw.execute("DROP TABLE fact")
    raw.execute("CREATE VIEW fact AS WITH RECURSIVE n(id) AS (SELECT 1 UNION ALL SELECT id + 1 FROM n) "
                "SELECT id, '2026-03-01' AS day, '' AS recorded_at, 'task-done' AS kind, '{\"task\":\"x\"}' AS body, NULL AS corrects, NULL AS request FROM n")
    raw.close()


def own_children(data):
    """The root of the journal names its first child again and again: endless rows in a small file."""
    size = struct.unpack(">H", data[16:18])[0]
    for page in range(len(data) // size):
        at = page * size
        if page > 0 and data[at] == 5:
            cells = struct.unpack(">H", data[at + 3:at + 5])[0]
            first = struct.unpack(">H", data[at + 12:at + 14])[0]
            child = data[at + first:at + first + 4]
            for cell in range(cells):
                place = struct.unpack(">H", data[at + 12 + 2 * cell:at + 14 + 2 * cell])[0]
                data[at + place:at + place + 4] = child
            data[at + 8:at + 12] = child


def circle(data):
    size = struct.unpack(">H", data[16:18])[0]
    for page in range(1, len(data) // size):
        at = page * size
        if data[at] == 5:
            data[at + 8:at + 12] = struct.pack(">I", page + 1)


def many_entries(file):
    def work(raw):
        raw.execute("BEGIN")
        for number in range(20000):
            put(raw, "task-done", {"task": f"t-{number}"})
        raw.execute("COMMIT")
    without_guards(open_raw(file), work)


def with_many(change):
    def make(file):
        many_entries(file)
        bytes_of(change)(file)
    return make


def flips(seed):
    def change(data):
        draw = random.Random(seed)
        for _ in range(draw.choice([1, 5, 50])):
            data[draw.randrange(100, len(data))] = draw.randrange(256)
    return bytes_of(change)


def twice_replaced(file):
    raw = open_raw(file)
    index = raw.execute("SELECT type, name, tbl_name, rootpage, sql FROM sqlite_schema WHERE name LIKE 'sqlite_autoindex_fact%'").fetchall()

    def work(raw):
        put(raw, "weighed", {"animal": "ada", "mass_g": 1500}, corrects=4)
        schema_by_hand(raw, "UPDATE sqlite_schema SET sql = replace(sql, 'UNIQUE', '') WHERE name = 'fact'")
        schema_by_hand(raw, "DELETE FROM sqlite_schema WHERE name LIKE 'sqlite_autoindex_fact%'")
        put(raw, "weighed", {"animal": "ada", "mass_g": 15}, corrects=4)
        schema_by_hand(raw, "INSERT INTO sqlite_schema VALUES (?, ?, ?, ?, ?)", *index[0])
    without_guards(raw, work)


def other_letters(file):
    """The same collection in UTF-16."""
    raw = open_raw(file)
    parts = [row[0] for row in raw.execute("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY rowid")]
    rest = [row[0] for row in raw.execute("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND type <> 'table' ORDER BY rowid")]
    rows = raw.execute("SELECT id, day, recorded_at, kind, body, corrects FROM fact").fetchall()
    raw.close()
    file.unlink()
    other = sqlite3.connect(file, isolation_level=None)
    other.execute("PRAGMA encoding = 'UTF-16le'")
    other.execute("PRAGMA application_id = 1299465836")
    for part in parts:
        other.execute(part)
    other.executemany("INSERT INTO fact (id, day, recorded_at, kind, body, corrects) VALUES (?, ?, ?, ?, ?, ?)", rows)
    for part in rest:
        other.execute(part)
    other.execute("PRAGMA user_version = 2")
    other.close()


def beside(suffix, content):
    def make(file):
        pathlib.Path(str(file) + suffix).write_bytes(content)
    return make


def replaced_by(kind):
    def make(file):
        file.unlink()
        if kind == "folder":
            file.mkdir()
        elif kind == "pipe":
            os.mkfifo(file)
        elif kind == "socket":
            with socket.socket(socket.AF_UNIX) as one:
                one.bind(str(file))
        else:
            file.symlink_to(kind)
    return make


def long_text(megabytes):
    return '{"task":"' + "x" * (megabytes << 20) + '"}'


cases = [
    ("as it was made", lambda file: None, "answered"),
    ("a view without end in place of the journal", view_for_table, "refused"),
    ("a view without end beside it", sql(f"CREATE VIEW more AS {endless}"), "refused"),
    ("a trigger that works without end", sql(f"CREATE TRIGGER more BEFORE INSERT ON fact BEGIN SELECT ({endless}); END"), "refused"),
    ("a trigger that writes more", sql("CREATE TRIGGER more AFTER INSERT ON fact BEGIN INSERT INTO request VALUES (NEW.id, '', 'null'); END"), "refused"),
    ("a trigger less", sql("DROP TRIGGER fact_is_not_changed"), "refused"),
    ("a trigger with other words", by_hand("UPDATE sqlite_schema SET sql = replace(sql, 'ABORT', 'IGNORE') WHERE name = 'fact_is_not_changed'"), "refused"),
    ("one more table", sql("CREATE TABLE more (x)"), "refused"),
    ("one more column", sql("ALTER TABLE fact ADD COLUMN more TEXT"), "refused"),
    ("a column that is worked out", sql("ALTER TABLE fact ADD COLUMN more TEXT GENERATED ALWAYS AS (hex(body)) VIRTUAL"), "refused"),
    ("an index over an expression", sql("CREATE INDEX more ON fact(hex(body))"), "refused"),
    ("no table of requests", sql("DROP TABLE request"), "refused"),
    ("a virtual table of no known kind", by_hand("INSERT INTO sqlite_schema VALUES ('table', 'more', 'more', 0, 'CREATE VIRTUAL TABLE more USING nothing(x)')"), "refused"),
    ("a virtual table in place of the requests", by_hand("UPDATE sqlite_schema SET rootpage = 0, sql = 'CREATE VIRTUAL TABLE request USING dbstat' WHERE name = 'request'"), "refused"),
    ("tables that are not SQL", by_hand("UPDATE sqlite_schema SET sql = 'CREATE TABLE fact (((' WHERE name = 'fact'"), "refused"),
    ("a check that calls what it likes", by_hand("UPDATE sqlite_schema SET sql = replace(sql, 'json_valid(body)', 'load_extension(body)') WHERE name = 'fact'"), "refused"),
    ("the journal shares its pages with the requests", by_hand("UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = 'request') WHERE name = 'fact'"), "either"),
    ("a version to come", sql("PRAGMA user_version = 99"), "refused"),
    ("a version below none", sql("PRAGMA user_version = -5"), "refused"),
    ("somebody else's file", sql("PRAGMA application_id = 7"), "refused"),
    ("an older version than its tables", sql("PRAGMA user_version = 1"), "refused"),
    ("in UTF-16", other_letters, "answered"),
    ("pages that are their own children", with_many(own_children), "refused"),
    ("pages in a circle", with_many(circle), "refused"),
    ("20,000 entries", many_entries, "answered"),
    ("a text of 70 MB", entry({"kind": "task-done", "body": long_text(70)}), "refused"),
    ("a text of 20 MB", entry({"kind": "task-done", "body": long_text(20)}), "either"),
    ("a body that is a number", entry({"kind": "task-done", "body": 7}), "damage"),
    ("a body of bytes", entry({"kind": "task-done", "body": b"\xff\xfe\x00"}), "damage"),
    ("no body", entry({"kind": "task-done", "body": "null"}), "damage"),
    ("a body in a million brackets", entry({"kind": "task-done", "body": "[" * 500000 + "]" * 500000}), "damage"),
    ("a key that stands twice", entry({"kind": "task-done", "body": '{"task":"a","task":"b"}'}), "damage"),
    ("a kind nobody knows", entry({"kind": "\x1b[31m\x9bnews\n", "body": {}}), "damage"),
    ("a kind that is a number", entry({"kind": 5, "body": {"task": "x"}}), "damage"),
    ("a day that is none", entry({"kind": "task-done", "body": {"task": "x"}, "day": "2026-02-31"}), "damage"),
    ("a day in words", entry({"kind": "task-done", "body": {"task": "x"}, "day": "yesterday"}), "damage"),
    ("a day of the year 1", entry({"kind": "room-added", "body": room, "day": "0001-01-01"}), "damage"),
    ("a day of the year 9999", entry({"kind": "task-done", "body": {"task": "x"}, "day": "9999-12-31"}), "damage"),
    ("an entry below nought", entry({"kind": "room-added", "body": room, "number": -5}), "damage"),
    ("entry nought", entry({"kind": "room-added", "body": room, "number": 0}), "damage"),
    ("the last number there is", entry({"kind": "room-added", "body": room, "number": (1 << 63) - 1}), "damage"),
    ("it replaces itself", entry({"kind": "room-added", "body": room, "number": 50, "corrects": 50}), "damage"),
    ("two replace each other", entry({"kind": "room-added", "body": room, "number": 50, "corrects": 51}, {"kind": "room-added", "body": room, "number": 51, "corrects": 50}), "answered"),
    ("two replace one", twice_replaced, "damage"),
    ("it replaces nothing there is", entry({"kind": "room-added", "body": room, "corrects": 12}), "either"),
    ("it replaces a word", entry({"kind": "room-added", "body": room, "corrects": "x"}), "damage"),
    ("a withdrawal of nothing", entry({"kind": "withdrawn", "body": {"reason": "x"}}), "either"),
    ("a room twice", entry({"kind": "room-added", "body": {**room, "room": "main"}}), "damage"),
    ("an animal in no enclosure", entry({"kind": "animal-arrived", "body": {"animal": "eve", "name": "", "taxon": "", "origin": "", "enclosure": "nowhere", "quarantine": False}}), "damage"),
    ("nobody was moved", entry({"kind": "animal-moved", "body": {"animal": "nobody", "to": "tub-1"}}), "damage"),
    ("a weight below nought", entry({"kind": "weighed", "body": {"animal": "ada", "mass_g": -5}}), "damage"),
    ("a weight without end", entry({"kind": "weighed", "body": '{"animal":"ada","mass_g":1e308}'}), "damage"),
    ("a weight in words", entry({"kind": "weighed", "body": {"animal": "ada", "mass_g": "heavy"}}), "damage"),
    ("a room colder than cold", entry({"kind": "room-added", "body": {**room, "day_c": -3000}}), "damage"),
    ("a floor of nothing", entry({"kind": "enclosure-added", "body": {**tub, "floor_cm2": 0}}), "damage"),
    ("a strength without end", entry({"kind": "treated", "body": '{"enclosure":"tub-1","animals":["ada"],"method":"spray-animal","strength_mg_per_l":1e300}'}), "damage"),
    ("an animal treated twice at once", entry({"kind": "treated", "body": {"enclosure": "tub-1", "animals": ["ada", "ada"], "method": "spray-animal", "strength_mg_per_l": 10}}), "damage"),
    ("a course in no order", entry({"kind": "plan-adopted", "body": {"rounds": ["2026-03-12", "2026-03-11"], "enclosures": [], "rooms": [], "change_substrate": True, "keep_damp": False, "strength_mg_per_l": 10}}), "damage"),
    ("a course of 3,000 rounds", entry({"kind": "plan-adopted", "body": {"rounds": [f"{2026 + i // 336}-{1 + i // 28 % 12:02}-{1 + i % 28:02}" for i in range(3000)], "enclosures": ["tub-1"], "rooms": [], "change_substrate": True, "keep_damp": False, "strength_mg_per_l": 10}}), "answered"),
    ("a short name that is long", entry({"kind": "room-added", "body": {**room, "room": "r" * 100000}}), "damage"),
    ("a short name of escapes", entry({"kind": "room-added", "body": {**room, "room": "a\x1b]0;b\x07\n\r"}}), "damage"),
    ("a name of escapes", entry({"kind": "room-added", "body": {**room, "name": "a\x1b[2J\r\nALL CLEAR\u009b31m\u202etxt.\u2066\u2028b\u200f"}}), "answered"),
    ("an animal whose name forges lines", entry({"kind": "animal-arrived", "body": {"animal": "eve", "name": "x\nDay 1: spray all", "taxon": "corn snake\r\n", "origin": "\u001b[31m", "enclosure": "tub-1", "quarantine": False}}), "answered"),
    ("a note of escapes", entry({"kind": "condition-noted", "body": {"animal": "ada", "condition": "sick", "present": True, "agent": "", "note": "\u001b[31m\n\rnothing\u009b0m\u202e"}}), "answered"),
    ("a request that was never answered", sql("INSERT INTO request VALUES ('x', '', '[[[]]]')"), "answered"),
    ("a rollback file that is none", beside("-journal", b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + b"\xff" * 4000), "either"),
    ("a log that is none", beside("-wal", b"\x37\x7f\x06\x82" + b"\xff" * 4000), "either"),
    ("told to keep a log", bytes_of(lambda data: data.__setitem__(slice(18, 20), b"\x02\x02")), "either"),
    ("pages of no size", bytes_of(lambda data: data.__setitem__(slice(16, 18), b"\x00\x00")), "refused"),
    ("a folder", replaced_by("folder"), "refused"),
    ("a pipe nobody writes to", replaced_by("pipe"), "refused"),
    ("a socket", replaced_by("socket"), "refused"),
    ("zeros without end", replaced_by("/dev/zero"), "refused"),
    ("a link to nothing", replaced_by("nothing"), "refused"),
    ("four gigabytes of nothing after it", lambda file: os.truncate(file, 4 << 30), "either"),
] + [(f"bytes changed, draw {seed}", flips(seed), "either") for seed in range(30)]


def sound_collection(file):
    for words in (["new"], ["record", "room", "main", "--temperature", "28 C", "--floor-cm2", "90000", "--on", "2026-03-01"],
                  ["record", "enclosure", "tub-1", "--room", "main", "--temperature", "28 C", "--floor-cm2", "4000", "--on", "2026-03-01"],
                  ["record", "arrival", "ada", "--enclosure", "tub-1", "--kind", "corn snake", "--on", "2026-03-01"],
                  ["record", "weight", "ada", "800 g", "--on", "2026-03-02"]):
        code, out, err = run(file, *words)
        if code != 0:
            sys.exit(f"{' '.join(words)}: {code} {out} {err}")


def served(name, file):
    """The server answers in words too, and goes on."""
    server = subprocess.Popen([str(program), "--file", str(file), "--today", today, "serve", "--port", "0"],
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, preexec_fn=bound)
    line = server.stdout.readline()
    try:
        if "http://" not in line:
            failures.append(f"{name}: the server did not start: {server.stderr.read()[:200]}")
            return
        address = line.split("http://")[1].strip().rstrip("/")
        for path in ("status", "situation", "collection", "journal", "rulings?strength=10mg/L", "worklist", "status"):
            try:
                with urllib.request.urlopen(f"http://{address}/api/{path}", timeout=patience) as answer:
                    body = json.load(answer)
            except urllib.error.HTTPError as fault:
                body = json.load(fault)
                if fault.code == 500:
                    failures.append(f"{name}: {path}: {fault.code} {body['error']['message'][:200]}")
            if path == "status" and not body["result"]["damage"]:
                failures.append(f"{name}: the server says nothing of the damage")
        if server.poll() is not None:
            failures.append(f"{name}: the server ended with {server.returncode}")
    finally:
        server.terminate()
        server.wait(20)


with tempfile.TemporaryDirectory() as scratch:
    folder = pathlib.Path(scratch)
    sound = folder / "sound.mitefall"
    sound_collection(sound)
    for number, (name, make, wanted) in enumerate(cases):
        file = folder / f"{number}.mitefall"
        shutil.copy(sound, file)
        make(file)
        check(name, file, wanted)
        if name in ("a room twice", "a weight in words", "nobody was moved"):
            served(name, file)
        for left in folder.glob(f"{number}.mitefall*"):
            left.rmdir() if left.is_dir() and not left.is_symlink() else left.unlink()

print(f"{len(cases)} files, {len(questions)} questions each; failed: {len(failures)}")
for end in sorted(set(ends.values())):
    names = [name for name, one in ends.items() if one == end]
    print(f"  {end}: {len(names)}")
    for name in names:
        print(f"    {name}")
for text in failures[:30]:
    print("FAILED", text)
sys.exit(1 if failures else 0)
