"""Random and mutated requests at both doors of `mitefall serve`, without an end of the program.

    socket_fuzz.py MITEFALL SECONDS [SEED]

Every request begins as a sound one, is changed at random (bytes, pieces, numbers, headers, chunks, JSON), is sent whole, in
pieces or in part, and is hung up on early now and then. Half of them come from a paired telephone or the machine itself,
so that they get past the gate. The program must stay, answer a sound question between, say nothing of a broken promise,
and end when it is asked to. Prints the seed and what was sent; ends with 1 where it did not hold.
"""

import contextlib
import json
import random
import sys
import tempfile
import time
import urllib.parse

from neighbour import Program, pair

BODIES = [
    {"facts": [{"kind": "weighed", "body": {"animal": "ada", "mass_g": 1600}}], "request": "fuzz-request-number-1"},
    {"facts": [{"day": "2026-03-01", "kind": "sighting", "body": {"enclosure": "a-01", "count": "1", "where": "in-water"}}],
     "dry_run": True},
    {"entry": 3, "kind": "weighed", "body": {"animal": "ada", "mass_g": 900}, "request": "fuzz-request-number-2"},
    {"entries": [1, 2, 3], "reason": "mistake", "request": "fuzz-request-number-3"},
    {"seen": 7, "request": "fuzz-request-number-4"},
    {"key": "2026-03-01/animal/ada", "day": "2026-03-01", "seen": 9, "request": "fuzz-request-number-5"},
    {"job": "1", "plan": "recommended", "request": "fuzz-request-number-6"},
    {"how": "today", "seen": 9, "request": "fuzz-request-number-7"},
    {"batch": "b1", "batch_volume": "1 L", "target": "10 mg/L", "stock_is": "plain", "cup": ["30 mL/1 mL"],
     "request": "fuzz-request-number-8"},
    {"kind": "clear", "options": {"rounds": 2, "every_days": 7, "by": "look-over"}},
    {"kind": "consequence", "options": {"facts": [{"kind": "weighed", "body": {"animal": "ada", "mass_g": 1600}}]}},
    {"code": "wrong", "name": "phone"},
]
POSTS = ["record", "correct", "withdraw", "undo", "tick", "skip", "take-back", "adopt", "catch-up", "batch", "discard", "jobs",
         "pair"]
GETS = ["/", "/api/status", "/api/situation", "/api/collection", "/api/journal", "/api/history?animal=ada", "/api/course",
        "/api/exposure", "/api/rulings?strength=10mg/L", "/api/verdicts?animal=ada", "/api/worklist", "/api/shopping?stock_is=plain",
        "/api/mix?batch=1+L&target=10+mg%2FL&stock_is=plain&cup=30+mL%2F1+mL", "/api/mix?batch=1+L&made_with=8+US+tsp",
        "/api/batches", "/api/label?batch=b1&paper=a4", "/api/evidence", "/api/taxa?like=ball", "/api/jobs/1", "/api/devices",
        "/api/events", "/api/backup"]
DICTIONARY = [b"\r\n", b"\r\n\r\n", b"\n", b"\0", b"%00", b"%", b"%zz", b"..", b"//", b"Transfer-Encoding: chunked\r\n",
              b"Transfer-Encoding: gzip\r\n", b"Content-Length: 0\r\n", b"Content-Length: 99999999999999999999\r\n",
              b"Content-Length: -1\r\n", b"Expect: 100-continue\r\n", b"Upgrade: websocket\r\n", b"Host: evil.example\r\n",
              b"0\r\n\r\n", b"ffffffffffffffff\r\n", b"1;x=y\r\n", b"[" * 20, b"{" * 20, b"null", b"1e999", b"-0", b"1e-320",
              b"9223372036854775808", b"\"\\ud800\"", b"\xff\xfe", b"\xf0\x9f\xa6\x8e", b"\"\":", b",,", b"true",
              b"2026-02-30", b"9999-12-31", b"0 mL/0 mL", b"250 mL/0.00001 mL", b"nan mL", b"1e308 L", b"&cup=1 L/0.1 mL"]


def request(program, choose, cookie, broken):
    """One of ours; `broken` is its part that is changed: "head", "body" (told at its true length) or "all"."""
    host = choose.choice(["127.0.0.1", "127.0.0.2"])
    headers = [f"Host: {host}:{program.port}"]
    if host == "127.0.0.2" and choose.random() < 0.6:
        headers.append("Cookie: " + cookie.decode())
    if choose.random() < 0.3:
        headers.append("Accept-Encoding: gzip")
    if choose.random() < 0.5:
        method, path, body = choose.choice(["GET", "GET", "GET", "HEAD", "DELETE", "OPTIONS"]), choose.choice(GETS), b""
    else:
        method, path = "POST", "/api/" + choose.choice(POSTS)
        body = json.dumps(choose.choice(BODIES)).encode().replace(b"fuzz-request", b"fuzz-%08x" % choose.getrandbits(32))
        if broken == "body":
            body = change(choose, body)
        headers.append("Content-Type: application/json")
    if body and choose.random() < 0.3:
        headers.append("Transfer-Encoding: chunked")
        cut = choose.randrange(len(body))
        body = b"".join(b"%x\r\n%s\r\n" % (len(p), p) for p in (body[:cut], body[cut:]) if p) + b"0\r\n\r\n"
    elif body:
        headers.append(f"Content-Length: {len(body)}")
    text = "\r\n".join([f"{method} {path} HTTP/1.1", *headers]).encode()
    if method != "POST" and broken == "body":
        asked, _, query = path.partition("?")
        query = urllib.parse.quote_from_bytes(change(choose, query.encode()), safe="=&+%")
        text = text.replace(path.encode(), f"{asked}?{query}".encode(), 1)
    if broken == "head":
        text = change(choose, text)
    whole = text + b"\r\n\r\n" + body
    return host, change(choose, whole) if broken == "all" else whole


def change(choose, data):
    data = bytearray(data)
    for _ in range(choose.choice([0, 1, 1, 1, 2, 4, 16])):
        at = choose.randrange(len(data) + 1)
        what = choose.randrange(7)
        if what == 0 and data:
            data[at % len(data)] = choose.randrange(256)
        elif what == 1:
            data[at:at] = choose.choice(DICTIONARY)
        elif what == 2:
            del data[at:at + choose.randrange(1, 20)]
        elif what == 3:
            data[at:at] = data[at:at + choose.randrange(1, 40)]
        elif what == 4:
            data[at:at] = choose.choice(DICTIONARY) * choose.choice([2, 50, 2000])
        elif what == 5:
            end = at + choose.randrange(1, 12)
            data[at:end] = choose.choice(DICTIONARY)
        else:
            data[at:at] = bytes(choose.randrange(256) for _ in range(choose.randrange(1, 30)))
    return bytes(data)


def one(program, choose, cookie):
    """What was answered to one request, or to several in a row."""
    # What is sound outside gets further than what is no request any more.
    host, text = request(program, choose, cookie, choose.choices(["body", "head", "all"], [6, 2, 2])[0])
    if choose.random() < 0.1:
        text *= choose.choice([2, 5])
    said = b""
    with contextlib.suppress(OSError):
        with program.connect(host, timeout=2.0) as door:
            if choose.random() < 0.2:
                cut = choose.randrange(len(text) + 1)
                door.sendall(text[:cut])
                if choose.random() < 0.5:
                    return said
                door.sendall(text[cut:])
            else:
                door.sendall(text)
            if choose.random() < 0.2:
                return said
            door.settimeout(choose.choice([0.05, 0.5]))
            while len(said) < 1_000_000:
                part = door.recv(65536)
                if not part:
                    break
                said += part
    return said


def main():
    seconds = float(sys.argv[2])
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else random.SystemRandom().randrange(1 << 32)
    print("seed", seed, flush=True)
    choose = random.Random(seed)
    sent = 0
    statuses = {}
    with tempfile.TemporaryDirectory(prefix="mitefall-fuzz-") as folder:
        program = Program(sys.argv[1], folder)
        cookie = pair(program, "fuzz")
        until = time.monotonic() + seconds
        while time.monotonic() < until:
            said = one(program, choose, cookie)
            sent += 1
            status = said[9:12].decode("latin-1") if said.startswith(b"HTTP/1.1 ") else "none"
            statuses[status] = statuses.get(status, 0) + 1
            if b"contract broken" in said:
                raise SystemExit(f"request {sent}: a broken promise was told to a socket: {said[-500:]}")
            if not program.is_there():
                raise SystemExit(f"request {sent}: the program ended with {program.process.returncode}")
            if sent % 100 == 0 and program.get("/api/journal", timeout=60)[0] != 200:
                raise SystemExit(f"request {sent}: a sound question is no longer answered")
        took = program.end()
        if took is None or program.process.returncode != 0:
            raise SystemExit(f"it did not end as it should: {program.process.returncode}")
    print(f"{sent} requests in {seconds:.0f} s, no end of the program; answers by status: "
          + ", ".join(f"{status}: {count}" for status, count in sorted(statuses.items())))


if __name__ == "__main__":
    main()
