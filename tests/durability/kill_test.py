"""Kills the server again and again while two clients edit, and looks that nothing answered is lost.

    kill_test.py PROGRAM SOURCE_DIR ROUNDS [SEED]

Each client sets keys of its own to numbers that only grow, so after a restart the file must parse and
hold, of every key, the last value that was answered, or the one that was under way.
"""
import json
import random
import shutil
import sys
import tempfile
import threading
import time
from pathlib import Path

PROGRAM, SOURCE, ROUNDS = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3])
SEED = int(sys.argv[4]) if len(sys.argv) > 4 else random.SystemRandom().randrange(1 << 31)
sys.path.insert(0, str(SOURCE / "tests/support"))
from server import Server, free_port  # noqa: E402

EXAMPLE = SOURCE / "examples/03_shop_truck/shop_truck.rig.json"
ID = "shop_truck"
PATHS = {"left": ["/axles/front/track", "/axles/front/bump_travel"], "right": ["/axles/rear/track", "/name"]}


def value_at(document, pointer):
    for step in pointer.split("/")[1:]:
        document = document[step]
    return document


def text_of(path, number):
    return f"Round {number}" if path == "/name" else f"{1 + number / 1e6:.6f} m"


class Client(threading.Thread):
    """Edits as fast as it is answered, until the server dies."""

    def __init__(self, server, name, counter, answered, tried):
        super().__init__(daemon=True)
        self.server, self.name_, self.counter = server, name, counter
        self.answered, self.tried, self.edits, self.fault = answered, tried, 0, None

    def run(self):
        connection = self.server.connect()
        try:
            tag = self.server.ask("GET", f"/api/builds/{ID}", connection=connection)[2]["etag"]
            while True:
                path = PATHS[self.name_][self.edits % 2]
                value = text_of(path, next(self.counter))
                self.tried[path] = value
                status, _, body = self.server.ask(
                    "PATCH",
                    f"/api/builds/{ID}",
                    [{"op": "replace", "path": path, "value": value}],
                    {"If-Match": f'"{tag}"', "Rig-Screen": self.name_},
                    connection,
                )
                if status != 200:
                    self.fault = f"{status} {body}"
                    return
                assert value_at(body["document"], path) == value
                self.answered[path] = value
                tag = body["etag"]
                self.edits += 1
        except Exception as error:  # The server is gone, in the midst of anything.
            if self.server.process.poll() is None and not self.server.dying:
                self.fault = repr(error)
        finally:
            connection.close()


def main():
    dice = random.Random(SEED)
    print(f"seed {SEED}")
    numbers = iter(range(1, 1 << 30))
    answered, edits, entries_seen, begin = {}, 0, 0, time.monotonic()
    slowest_start = 0.0
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / EXAMPLE.name
        shutil.copy(EXAMPLE, file)
        tried = {path: value_at(json.loads(file.read_text()), path) for both in PATHS.values() for path in both}
        answered.update(tried)
        port = free_port()
        for number in range(ROUNDS + 1):
            started = time.monotonic()
            server = Server(PROGRAM, folder, port)
            server.dying = False
            told = server.ask("GET", f"/api/builds/{ID}")[2]
            slowest_start = max(slowest_start, time.monotonic() - started)
            assert told["fault"] is None, told["fault"]
            document = json.loads(file.read_text())
            assert told["document"] == document, "what is told is not what is on disk"
            for path in tried:
                now = value_at(document, path)
                assert now in (answered[path], tried[path]), (
                    f"round {number}: {path} is {now}; answered {answered[path]}, tried {tried[path]}"
                )
                answered[path] = tried[path] = now
            history = server.ask("GET", f"/api/builds/{ID}/history?limit=1")[2]
            assert history["head"] >= entries_seen, "the history is shorter than it was"
            assert not list(Path(folder).glob(".*.new")), "left over"
            entries_seen = history["head"]
            if number == ROUNDS:
                assert server.stop() == 0
                break
            clients = [Client(server, name, numbers, answered, tried) for name in PATHS]
            for client in clients:
                client.start()
            time.sleep(dice.uniform(0, 0.6))
            server.dying = True
            server.kill()
            for client in clients:
                client.join()
                assert client.fault is None, client.fault
                edits += client.edits
        # Undone to the beginning, the very first bytes are there again.
        server = Server(PROGRAM, folder, port)
        tag = server.ask("GET", f"/api/builds/{ID}")[2]["etag"]
        status, _, body = server.ask(
            "POST", f"/api/builds/{ID}/restore", {"entry": 1}, {"If-Match": f'"{tag}"'}
        )
        assert status == 200, body
        assert file.read_bytes() == EXAMPLE.read_bytes(), "the first state is not the same bytes"
        assert server.stop() == 0
    took = time.monotonic() - begin
    print(
        f"{ROUNDS} kills, {edits} answered edits, {entries_seen} entries, none lost; "
        f"slowest start with its first answer {slowest_start * 1000:.0f} ms; {took:.0f} s in all"
    )


main()
