"""What a hostile neighbour can do to `mitefall serve --share`.

    neighbour.py MITEFALL [SECONDS]

Starts the program on a copy of the demo with a second door on 127.0.0.2, which counts as the home network. Attacks that
door without being paired, one way after another, SECONDS each (2), and asks the local door all the while. Prints what was
tried and what was lost. Ends with 1 if a question at the local door was not answered, if the program took much memory,
or if it ended.
"""

import contextlib
import ctypes
import json
import os
import re
import resource
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

ANSWER_WITHIN = 1.0  # seconds: what a keeper at the machine itself may be kept waiting, whatever the network does
MOST_GROWTH_MIB = 192  # of the most memory ever held; four bodies of 4 MiB cost less, a GiB of chunks far more


class Program:
    """`mitefall serve` and its two doors."""

    def __init__(self, program, folder, *, descriptors=None):
        file = os.path.join(folder, "house.mitefall")
        if not os.path.exists(file):
            subprocess.run([program, "-f", file, "demo"], check=True, stdout=subprocess.DEVNULL)

        def limit():
            ctypes.CDLL(None).prctl(1, signal.SIGKILL)  # PR_SET_PDEATHSIG: it does not outlive this harness
            if descriptors:
                resource.setrlimit(resource.RLIMIT_NOFILE, (descriptors, descriptors))

        environment = dict(os.environ)
        environment.setdefault("ASAN_OPTIONS", "quarantine_size_mb=8")
        self.process = subprocess.Popen(
            [program, "-f", file, "serve", "--port", "0", "--share", "--share-address", "127.0.0.2"],
            stdout=subprocess.PIPE, text=True, preexec_fn=limit, env=environment)
        said = ""
        while "Keep this window open" not in said:
            line = self.process.stdout.readline()
            if not line:
                raise SystemExit(f"the program did not begin: {said}")
            said += line
        self.port = int(re.search(r"http://127\.0\.0\.1:(\d+)", said).group(1))
        self.code = re.search(r"#pair=([\w-]+)", said).group(1)

    def connect(self, host="127.0.0.2", timeout=5.0, source=None):
        return socket.create_connection((host, self.port), timeout=timeout, source_address=source and (source, 0))

    def ask(self, host, text, timeout=ANSWER_WITHIN):
        """Status and body of one request; raises where there is no answer within the time."""
        ends = time.monotonic() + timeout
        with self.connect(host, timeout) as door:
            door.sendall(text)
            said = b""
            while True:
                door.settimeout(max(0.001, ends - time.monotonic()))
                part = door.recv(65536)
                if not part:
                    break
                said += part
        if not said.startswith(b"HTTP/1.1 "):
            raise OSError("no answer")
        head, _, body = said.partition(b"\r\n\r\n")
        return int(head[9:12]), head, body

    def get(self, path, host="127.0.0.1", extra=b"", timeout=ANSWER_WITHIN):
        return self.ask(host, b"GET %s HTTP/1.1\r\nHost: %s:%d\r\nConnection: close\r\n%s\r\n"
                        % (path.encode(), host.encode(), self.port, extra), timeout)

    def most_memory_mib(self):
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as status:
            return int(re.search(r"VmHWM:\s+(\d+)", status.read()).group(1)) / 1024

    def is_there(self):
        return self.process.poll() is None

    def end(self):
        """Seconds until an asked-for end; None: it had to be killed."""
        began = time.monotonic()
        self.process.send_signal(signal.SIGTERM)
        try:
            self.process.wait(timeout=20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            return None
        return time.monotonic() - began


class Keeper(threading.Thread):
    """Asks the local door, one question after another, as long as it lives."""

    def __init__(self, program):
        super().__init__(daemon=True)
        self.program = program
        self.answered = 0
        self.unanswered = []
        self.longest = 0.0
        self.ending = threading.Event()

    def run(self):
        while not self.ending.is_set():
            began = time.monotonic()
            try:
                status, _, body = self.program.get("/api/status")
                if status != 200 or "result" not in json.loads(body):
                    self.unanswered.append(f"status {status}")
            except (OSError, ValueError) as fault:
                self.unanswered.append(repr(fault))
            else:
                self.answered += 1
            self.longest = max(self.longest, time.monotonic() - began)
            self.ending.wait(0.02)

    def stop(self):
        self.ending.set()
        self.join()


def head(program, method, path, *more, kind=b"application/json"):
    lines = [b"%s %s HTTP/1.1" % (method, path), b"Host: 127.0.0.2:%d" % program.port, b"Content-Type: " + kind, *more]
    return b"\r\n".join(lines) + b"\r\n\r\n"


def send_all(program, pieces, until):
    """Sends as much of the pieces as is taken; what is answered is thrown away."""
    with contextlib.suppress(OSError):
        with program.connect(timeout=1.0) as door:
            for piece in pieces:
                if time.monotonic() > until:
                    return
                door.sendall(piece)
            door.settimeout(0.3)
            while door.recv(65536):
                pass


def whole_body(body):
    def attack(program, until):
        first = head(program, b"POST", b"/api/pair", b"Content-Length: %d" % len(body))
        while time.monotonic() < until:
            send_all(program, [first, body], until)
    return attack


MANY_KEYS = ("{" + ",".join(f'"{i}":1' for i in range(60_000)) + "}").encode()


def endless_extension(program, until):
    def pieces():
        yield head(program, b"POST", b"/api/pair", b"Transfer-Encoding: chunked") + b"1;"
        while True:
            yield b"x" * 65536
    while time.monotonic() < until:
        send_all(program, pieces(), until)


def endless_trailers(program, until):
    def pieces():
        yield head(program, b"POST", b"/api/pair", b"Transfer-Encoding: chunked") + b"0\r\n"
        while True:
            yield b"X: " + b"x" * 65536 + b"\r\n"
    while time.monotonic() < until:
        send_all(program, pieces(), until)


def half_bodies(program, until):
    held = []
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            door = program.connect(timeout=0.5)
            held.append(door)
            door.sendall(head(program, b"POST", b"/api/pair", b"Content-Length: 4194303") + b"{" * 1_000_000)
        held = held[-300:]
        time.sleep(0.002)
    for door in held:
        door.close()


def silence(program, until):
    held = []
    while time.monotonic() < until:
        for i in range(10):
            with contextlib.suppress(OSError):
                held.append(program.connect(timeout=0.5, source=f"127.0.0.{3 + i}"))
        held = held[-400:]
        time.sleep(0.02)
    for door in held:
        door.close()


def dripping(program, until):
    held = []
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            held.append(program.connect(timeout=0.5))
        for door in held[-100:]:
            with contextlib.suppress(OSError):
                door.sendall(b"G")
        held = held[-100:]
        time.sleep(0.02)
    for door in held:
        door.close()


def unread_answers(program, until):
    """The largest file of the page, asked for over and over and never read."""
    held = []
    ask = b"GET / HTTP/1.1\r\nHost: 127.0.0.2:%d\r\n\r\n" % program.port
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            door = program.connect(timeout=0.2)
            held.append(door)
            door.sendall(ask * 200)
        held = held[-200:]
    for door in held:
        door.close()


def flood(program, until):
    asks = [head(program, b"GET", path) for path in (b"/", b"/api/status", b"/api/journal", b"/api/mix?x=1", b"/none")]
    while time.monotonic() < until:
        with contextlib.suppress(OSError):
            with program.connect(timeout=0.5) as door:
                door.sendall(b"".join(asks) * 20)
                door.settimeout(0.2)
                door.recv(65536)


def wrong_codes(program, until):
    body = b'{"code":"wrong"}'
    ask = head(program, b"POST", b"/api/pair", b"Content-Length: %d" % len(body), b"Connection: close") + body
    while time.monotonic() < until:
        send_all(program, [ask], until)


def smuggling(program, until):
    inner = b"GET /api/status HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n\r\n" % program.port
    while time.monotonic() < until:
        for coding in (b"gzip", b"chunked, chunked", b"identity", b"\x0bchunked"):
            send_all(program, [head(program, b"POST", b"/api/pair", b"Transfer-Encoding: " + coding), inner * 50], until)


ATTACKS = [
    ("bodies with 60,000 keys", whole_body(MANY_KEYS), 3),
    ("bodies of a hundred thousand open lists", whole_body(b"[" * 100_000), 2),
    ("a pairing code of 4 MB", whole_body(b'{"code":"' + b"c" * 4_000_000 + b'"}'), 2),
    ("chunk extensions without end", endless_extension, 3),
    ("trailers without end", endless_trailers, 3),
    ("half-sent bodies of 4 MiB", half_bodies, 2),
    ("connections that say nothing", silence, 2),
    ("heads that drip", dripping, 2),
    ("answers nobody reads", unread_answers, 3),
    ("many small questions", flood, 3),
    ("wrong codes", wrong_codes, 2),
    ("lengths told in two ways", smuggling, 2),
]


def under(program, attack, threads, seconds, meanwhile=None):
    """Runs the attack and asks the local door until it is over."""
    keeper = Keeper(program)
    until = time.monotonic() + seconds
    attackers = [threading.Thread(target=attack, args=(program, until), daemon=True) for _ in range(threads)]
    keeper.start()
    for one in attackers:
        one.start()
    said = meanwhile(until) if meanwhile else None
    for one in attackers:
        one.join(timeout=seconds + 10)
    keeper.stop()
    return keeper, said


def pair(program, name):
    """The cookie of a paired telephone. Its address is not the one that tries wrong codes."""
    body = json.dumps({"code": program.code, "name": name}).encode()
    status, answer, _ = program.ask(
        "127.0.0.2", head(program, b"POST", b"/api/pair", b"Content-Length: %d" % len(body), b"Connection: close") + body, 5)
    if status != 200:
        raise SystemExit(f"a telephone with the right code was answered {status}")
    return re.search(rb"Set-Cookie: (mitefall=\w+)", answer).group(1)


def main():
    program_path = sys.argv[1]
    seconds = float(sys.argv[2]) if len(sys.argv) > 2 else 2.0
    faults = []
    with tempfile.TemporaryDirectory(prefix="mitefall-neighbour-") as folder:
        program = Program(program_path, folder)
        for path in ("/api/status", "/api/situation", "/api/collection"):
            program.get(path, timeout=60)
        cookie = pair(program, "kitchen")
        at_rest = program.most_memory_mib()
        print(f"{'tried':42} {'asked':>6} {'lost':>5} {'longest':>9} {'memory':>9}")
        for name, attack, threads in ATTACKS:
            keeper, _ = under(program, attack, threads, seconds)
            growth = program.most_memory_mib() - at_rest
            print(f"{name:42} {keeper.answered + len(keeper.unanswered):6} {len(keeper.unanswered):5} "
                  f"{keeper.longest * 1000:6.0f} ms {growth:+6.0f} MiB", flush=True)
            if keeper.unanswered:
                faults.append(f"{name}: not answered within {ANSWER_WITHIN:g} s: {keeper.unanswered[:3]}")
            if keeper.answered == 0:
                faults.append(f"{name}: nothing was asked at the local door")
            if not program.is_there():
                raise SystemExit(f"{name}: the program ended with {program.process.returncode}")
        if growth > MOST_GROWTH_MIB:
            faults.append(f"the program took {growth:.0f} MiB more than at rest (limit {MOST_GROWTH_MIB})")
        status, _, _ = program.get("/api/status", "127.0.0.2", b"Cookie: " + cookie + b"\r\n", timeout=30)
        if status != 200:
            faults.append(f"the paired telephone was answered {status} afterwards")
        took = program.end()
        if took is None:
            faults.append("it did not end when it was asked to")

        # With few descriptors the network gets its half of them and no more.
        program = Program(program_path, folder, descriptors=48)
        keeper, _ = under(program, silence, 2, seconds)
        print(f"{'the same, with 48 descriptors':42} {keeper.answered + len(keeper.unanswered):6} "
              f"{len(keeper.unanswered):5} {keeper.longest * 1000:6.0f} ms", flush=True)
        if keeper.unanswered or not keeper.answered:
            faults.append(f"with few descriptors: {keeper.unanswered[:3]}")
        if program.end() is None:
            faults.append("with few descriptors it did not end when it was asked to")
    for fault in faults:
        print("LOST:", fault)
    print(f"{len(ATTACKS) + 1} attacks, {len(faults)} things lost")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
