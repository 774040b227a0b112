"""Sends the server what nobody should: nothing of it may get in, crash it or make it grow.

    hostile_test.py PROGRAM SOURCE_DIR REQUESTS [SEED]

The server runs with --lan, so that it is paired; most requests are what a stranger on the shop's
network or a page of another site would send, the rest come from a paired screen gone mad.
"""
import collections
import hashlib
import json
import os
import random
import re
import shutil
import socket
import sys
import tempfile
import threading
import time
from pathlib import Path

PROGRAM, SOURCE, REQUESTS = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3])
SEED = int(sys.argv[4]) if len(sys.argv) > 4 else random.SystemRandom().randrange(1 << 31)
sys.path.insert(0, str(SOURCE / "tests/support"))
from server import Server  # noqa: E402

EXAMPLE = SOURCE / "examples/03_shop_truck/shop_truck.rig.json"
DOCUMENT = json.loads((SOURCE / "docs/openapi.json").read_text())
ROUTES = [(m.upper(), p) for p, ops in DOCUMENT["paths"].items() for m in ops if m != "parameters"]
OPEN = {("POST", "/api/pair"), ("GET", "/api/door")}
BUILD = "/api/builds/shop_truck"
CLIENTS = 8
# What the sanitizers' own bookkeeping may grow by; the program itself is held to a few MiB.
GROWTH_KIB = 24 * 1024
# The server gives memory back twice a second.
REST_S = 2


class Stranger:
    """One client; every attack gives the statuses that are right, or None where any hanging up is."""

    def __init__(self, server, cookie, seed):
        self.server, self.cookie, self.dice = server, cookie, random.Random(seed)
        self.host = f"127.0.0.1:{server.port}"

    def raw(self, data, patience_s=15, pieces=None, pause_s=0.0):
        """Sends bytes as they are; the status that comes back, or 0 for none."""
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=patience_s) as sock:
            try:
                for piece in pieces or [data]:
                    sock.sendall(piece)
                    if pause_s:
                        time.sleep(pause_s)
                if pieces is None:
                    sock.shutdown(socket.SHUT_WR)
            except OSError:
                pass  # It may have hung up already: what it said counts.
            answer = b""
            try:
                while chunk := sock.recv(65536):
                    answer += chunk
            except OSError:
                pass
        # Every status in what came back: a refused body must not be taken for a request.
        found = [int(s) for s in re.findall(rb"HTTP/1\.1 (\d{3})", answer)]
        assert len(found) <= 1, f"one request was answered {found}"
        return found[0] if found else 0

    def request(self, method, target, body=b"", headers=(), host=None, paired=False, kind=None):
        lines = [f"{method} {target} HTTP/1.1", f"Host: {self.host if host is None else host}"]
        lines += [f"{name}: {value}" for name, value in headers]
        if paired:
            lines.append(f"Cookie: {self.cookie}")
        if method not in ("GET", "HEAD"):
            kind = kind or ("application/json-patch+json" if method == "PATCH" else "application/json")
            lines += [f"Content-Type: {kind}", f"Content-Length: {len(body)}"]
        head = "\r\n".join(lines).encode("latin-1", "replace")
        return self.raw(head + b"\r\nConnection: close\r\n\r\n" + body)

    def route(self):
        method, path = self.dice.choice(ROUTES)
        return method, path.replace("{id}", "shop_truck")

    def noise(self, most):
        return self.dice.randbytes(self.dice.randrange(most))

    # Strangers.

    def unpaired(self):
        method, path = self.route()
        if (method, path) in OPEN:
            path = "/api/shop"
            method = "GET"
        wrong = self.dice.choice(
            ["", f"rig_{self.server.port}={'0' * 32}", f"rig_{self.server.port}=", "rig=1", "x" * 500]
        )
        headers = [("Cookie", wrong)] if wrong else []
        return self.request(method, path, b"{}", headers), {401}

    def wrong_host(self):
        name = self.dice.choice(
            ["", "evil.example", f"evil.example:{self.server.port}", "127.0.0.1", "127.0.0.1:1", "[::1]",
             f"127.0.0.1.evil.example:{self.server.port}", f"192.0.2.1:{self.server.port}", "localhost:0"]
        )
        return self.request(*self.route(), b"{}", host=name, paired=True), {403}

    def foreign_origin(self):
        origin = self.dice.choice(
            ["null", "http://evil.example", f"https://{self.host}", f"http://{self.host}.evil.example", "file://"]
        )
        return self.request(*self.route(), b"{}", [("Origin", origin)], paired=True), {403}

    def cross_site(self):
        return self.request(*self.route(), b"{}", [("Sec-Fetch-Site", "cross-site")], paired=True), {403}

    def guessed_code(self):
        body = json.dumps({"code": f"{self.dice.randrange(10**6):06}"}).encode()
        return self.request("POST", "/api/pair", body), {403, 429}

    def smuggled(self):
        inner = f"GET /api/shop HTTP/1.1\r\nHost: {self.host}\r\nCookie: {self.cookie}\r\n\r\n".encode()
        head = f"POST {BUILD}/undo HTTP/1.1\r\nHost: {self.host}\r\nOrigin: http://evil.example\r\n"
        head += f"Content-Type: text/plain\r\nContent-Length: {len(inner)}\r\n\r\n"
        return self.raw(head.encode() + inner), {403}

    # Addresses.

    def path_trick(self):
        trick = self.dice.choice(
            ["/../etc/passwd", "/api/builds/../../etc/passwd", "/api/builds/%2e%2e%2fetc", "/api/builds/..",
             "/api/builds/shop_truck/../other", "/api/builds/shop_truck.rig.json", "/api/builds//file",
             "/api/builds/shop_truck%00", "/api/builds/archive/shop_truck", "//etc/passwd", "/.rigwright-paired",
             "/shop_truck.rig.journal", f"http://evil.example{BUILD}", "/api/builds/" + "a" * 5000,
             "/api/builds/\xe5", f"{BUILD}/", f"{BUILD}/files", "/api", "*", "/page.js/../../x"]
        )
        return self.request("GET", trick, paired=True), {400, 404, 431}

    def wrong_method(self):
        method = self.dice.choice(["PUT", "DELETE", "HEAD", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "BREW"])
        return self.request(method, self.route()[1], b"{}", paired=True), {400, 405, 404}

    # A paired screen gone mad.

    def bad_json(self):
        body = self.dice.choice(
            [b"", b"{", b"[]", b"null", b'"x"', b"{\"code\": }", b"\xff\xfe", b"{\"name\": 1}", b"1e999",
             b"[" * 3000, b"{\"a\":" * 700, b'{"name": "x", "answers": ' + b"[" * 50 + b"]" * 50 + b"}",
             self.noise(4000)]
        )
        path = self.dice.choice(["/api/shop/builds", "/api/shop/archive", f"{BUILD}/versions", f"{BUILD}/restore"])
        return self.request("POST", path, body, paired=True), {400}

    def bad_patch(self):
        op = self.dice.choice(
            [{}, [1], [{"op": "paint"}], [{"op": "add", "path": "/name"}], [{"op": "remove", "path": "/no"}],
             [{"op": "add", "path": "no", "value": 1}], [{"op": "add", "path": "/a" * 2000, "value": 1}],
             [{"op": "test", "path": "/name", "value": "not it"}], [{"op": "move", "from": "/axles", "path": "/axles/x"}],
             [{"op": "add", "path": "/axles/front/track", "value": "\u0000"}], [{"op": "replace", "path": "", "value": []}],
             [{"op": "add", "path": "/masses/" + "x" * 900, "value": {"mass": "1 lb"}}],
             [{"op": "copy", "from": "/masses", "path": f"/masses/a{i}"} for i in range(30)],
             [{"op": "test", "path": "/version", "value": 1}] * 1001,
             [{"op": "copy", "from": "", "path": "/notice"}], [{"op": "add", "path": "/version", "value": 99}]]
        )
        body = json.dumps(op).encode() if self.dice.random() < 0.8 else self.noise(2000)
        headers = [("If-Match", f'"{self.tag()}"')]
        return self.request("PATCH", BUILD, body, headers, paired=True), {422}

    def bad_match(self):
        match = self.dice.choice(["*", '""', "x", 'W/"0123456789abcdef"', '"0123456789abcdef"', '"' * 300])
        patch = b'[{"op": "replace", "path": "/name", "value": "In"}]'
        return self.request("PATCH", BUILD, patch, [("If-Match", match)], paired=True), {400, 412}

    def bad_query(self):
        target = self.dice.choice(
            [f"{BUILD}/history?before=-1", f"{BUILD}/history?limit=999999999999999999999", f"{BUILD}?variant=%00",
             f"{BUILD}/compare?a=../x&b=%ff", "/api/understand?dimension=length&text=" + "9" * 3000,
             "/api/understand?dimension=%00&text=%ff%fe", "/api/understand?" + "&" * 2000]
        )
        return self.request("GET", target, paired=True), {400, 404, 422}

    def bad_pose(self):
        body = self.dice.choice(
            [b'{"heave": {"front": 1e308}}', b'{"heave": {"nowhere": 1}}', b'{"state": "none", "settled": true}',
             b'{"roll": []}', b"{", b'{"heave": {"front": "1"}}', b"[" * 4000]
        )
        return self.request("POST", f"{BUILD}/pose", body, paired=True), {400}

    # Too much, or too little.

    def huge_head(self):
        many = self.dice.random() < 0.5
        lines = [f"X-{i}: y" for i in range(4000)] if many else ["X: " + "y" * 60000]
        return self.raw(f"GET /api/shop HTTP/1.1\r\nHost: {self.host}\r\n".encode() + "\r\n".join(lines).encode()), {431}

    def huge_body(self):
        said = self.dice.choice([9 << 20, 1 << 40, (1 << 63) - 1, 5000])
        head = f"POST /api/shop/archive HTTP/1.1\r\nHost: {self.host}\r\nCookie: {self.cookie}\r\n"
        head += f"Content-Type: application/json\r\nContent-Length: {said}\r\n\r\n"
        return self.raw(head.encode() + b"x" * min(said, 300000)), {413}

    def chunked(self):
        head = f"POST /api/shop/builds HTTP/1.1\r\nHost: {self.host}\r\nCookie: {self.cookie}\r\n"
        head += "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
        return self.raw(head.encode() + b"ffff\r\n" + b"x" * 65535 + b"\r\n"), {411}

    def packed(self):
        return self.request("POST", "/api/pair", b"\x1f\x8b\x08", [("Content-Encoding", "gzip")]), {415}

    def garbage(self):
        start = self.dice.choice([b"", b"GET ", b"GET / HTTP/9.9\r\n\r\n", b"\x16\x03\x01\x02\x00", b"PRI * HTTP/2.0\r\n\r\n"])
        return self.raw(start + self.noise(3000)), {0, 400, 403, 431}

    def half(self):
        whole = f"PATCH {BUILD} HTTP/1.1\r\nHost: {self.host}\r\nContent-Length: 500\r\n\r\n[".encode()
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=5) as sock:
            sock.sendall(whole[: self.dice.randrange(len(whole))])
        return 0, {0}

    def slow(self):
        text = f"GET /api/shop HTTP/1.1\r\nHost: {self.host}\r\nX: ".encode()
        pieces = [text] + [b"y"] * self.dice.randrange(2, 8)
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=5) as sock:
            for piece in pieces:
                sock.sendall(piece)
                time.sleep(0.02)
        return 0, {0}

    def dropped_stream(self):
        head = f"GET {BUILD}/events HTTP/1.1\r\nHost: {self.host}\r\nCookie: {self.cookie}\r\n\r\n"
        with socket.create_connection(("127.0.0.1", self.server.port), timeout=10) as sock:
            sock.sendall(head.encode())
            sock.recv(self.dice.choice([1, 4000]))
        return 0, {0}

    def tag(self):
        return self.server.ask("GET", BUILD, headers={"Cookie": self.cookie})[2]["etag"]

    ATTACKS = (
        [unpaired] * 4 + [wrong_host] * 2 + [foreign_origin] * 2 + [cross_site, guessed_code, smuggled]
        + [path_trick] * 3 + [wrong_method] + [bad_json] * 3 + [bad_patch] * 3
        + [bad_match, bad_query, bad_pose, huge_head, huge_body, chunked, packed]
        + [garbage] * 2 + [half, slow, dropped_stream]
    )  # fmt: skip


def digest(folder):
    """Of the build file and the names beside it; the journal's own bytes may move."""
    names = sorted(p.name for p in Path(folder).iterdir() if not p.name.endswith(("-wal", "-shm")))
    return names, hashlib.sha256((Path(folder) / EXAMPLE.name).read_bytes()).hexdigest()


def main():
    print(f"seed {SEED}")
    # The sanitizer keeps what was freed for a while; kept small, so that growth is the program's own.
    os.environ["ASAN_OPTIONS"] = os.environ.get("ASAN_OPTIONS", "") + ":quarantine_size_mb=8:abort_on_error=1"
    with tempfile.TemporaryDirectory() as folder, tempfile.TemporaryFile("w+") as log:
        shutil.copy(EXAMPLE, folder)
        server = Server(PROGRAM, folder, lan=True, log=log)
        said = ""
        while "type the code" not in said:
            log.seek(0)
            said = log.read()
        code = re.findall(r"type the code (\d{6})", said)[-1]
        status, headers, _ = server.ask("POST", "/api/pair", {"code": code})
        assert status == 204, status
        cookie = headers["Set-Cookie"].split(";")[0]
        shop = server.ask("GET", "/api/shop", headers={"Cookie": cookie})[2]
        history = server.ask("GET", f"{BUILD}/history", headers={"Cookie": cookie})[2]
        before = digest(folder)
        counts, faults = collections.Counter(), []
        lock = threading.Lock()
        slowest = [0.0]
        strangers = [Stranger(server, cookie, SEED + number) for number in range(CLIENTS)]

        def attack(stranger, turns):
            while not faults:
                with lock:
                    turn = next(turns, None)
                if turn is None:
                    return
                kind = stranger.dice.choice(Stranger.ATTACKS)
                try:
                    status, right = kind(stranger)
                    if status not in right:
                        faults.append(f"{kind.__name__}: {status}, should be {sorted(right)}")
                    if turn % 50 == 0:
                        begin = time.monotonic()
                        good = server.ask("GET", BUILD, headers={"Cookie": cookie})[0]
                        slowest[0] = max(slowest[0], time.monotonic() - begin)
                        assert good == 200, good
                except Exception as error:
                    faults.append(f"{kind.__name__}: {error!r}")
                counts[kind.__name__, status] += 1

        def attack_with(requests):
            """All attack at once; then what is left in memory when the server has come to rest."""
            turns = iter(range(requests))
            threads = [threading.Thread(target=attack, args=(one, turns)) for one in strangers]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join()
            time.sleep(REST_S)
            return server.resident_kib() if server.process.poll() is None else 0

        begin = time.monotonic()
        # The sanitizer's allocator takes this many until it has room of every size.
        warm = max(REQUESTS // 10, min(1000, REQUESTS // 2))
        warm_kib = attack_with(warm)
        end_kib = attack_with(REQUESTS - warm)
        took = time.monotonic() - begin - 2 * REST_S
        alive = server.process.poll() is None
        if faults or not alive:
            log.seek(0)
            print(log.read()[-4000:])
        assert alive, f"it crashed: {faults}"
        assert not faults, faults
        assert server.ask("GET", "/api/shop", headers={"Cookie": cookie})[2] == shop
        assert server.ask("GET", f"{BUILD}/history", headers={"Cookie": cookie})[2] == history
        assert digest(folder) == before, "something got in"
        descriptors = server.descriptors()
        assert server.stop() == 0, "it did not end well"
        log.seek(0)
        assert "Sanitizer" not in log.read()
    for (kind, status), count in sorted(counts.items()):
        print(f"  {kind:16} {status or 'no answer':>9} {count:6}")
    print(
        f"{sum(counts.values())} hostile requests in {took:.0f} s, none got in; at rest {warm_kib // 1024} MiB resident "
        f"after {warm}, {end_kib // 1024} MiB at the end; {descriptors} descriptors; slowest good answer "
        f"meanwhile {slowest[0] * 1000:.0f} ms"
    )
    assert end_kib - warm_kib < GROWTH_KIB, "it grows"
    assert descriptors < 40, "connections are left open"


main()
