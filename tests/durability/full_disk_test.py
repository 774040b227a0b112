"""Fills a small disk under the server: it must say so, keep the old file, and go on once there is room.

    full_disk_test.py PROGRAM SOURCE_DIR

Needs root, to mount a tmpfs; ends with 77 (skipped) without.
"""
import ctypes
import os
import shutil
import sys
import tempfile
from pathlib import Path

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
sys.path.insert(0, str(SOURCE / "tests/support"))
from server import Server  # noqa: E402

EXAMPLE = SOURCE / "examples/02_crawler/crawler.rig.json"
ROUTE = "/api/builds/crawler"
libc = ctypes.CDLL(None, use_errno=True)


def mount(folder):
    if libc.mount(b"tmpfs", os.fsencode(folder), b"tmpfs", 0, b"size=1m") != 0:
        print(f"SKIPPED: no tmpfs can be mounted here ({os.strerror(ctypes.get_errno())}); run as root")
        sys.exit(77)


def fill(path, leave):
    """Takes all room but `leave` bytes."""
    with open(path, "wb", buffering=0) as ballast:
        try:
            while True:
                ballast.write(b"x" * 4096)
        except OSError:
            pass
        ballast.truncate(max(0, ballast.tell() - leave))


def main():
    folder = tempfile.mkdtemp()
    mount(folder)
    server = None
    refused = 0
    try:
        file, ballast = Path(folder) / EXAMPLE.name, Path(folder) / "ballast"
        shutil.copy(EXAMPLE, file)
        server = Server(PROGRAM, folder)

        def change(name):
            tag = server.ask("GET", ROUTE)[2]["etag"]
            patch = [{"op": "replace", "path": "/name", "value": name}]
            return server.ask("PATCH", ROUTE, patch, {"If-Match": f'"{tag}"'})

        assert change("Before")[0] == 200
        # From no room at all to nearly enough: another step fails each time.
        for leave in range(0, 160 * 1024, 4096):
            before = file.read_bytes()
            fill(ballast, leave)
            status, _, body = change(f"With {leave} bytes left")
            if status == 507:
                refused += 1
                assert "space" in body["diagnostics"][0]["remedy"], body
                assert file.read_bytes() == before, "the old file was touched"
                told = server.ask("GET", ROUTE)[2]
                assert told["document"]["name"] in before.decode()
            else:
                assert status == 200, (status, body)
            ballast.unlink()
            status, _, body = change(f"After {leave}")
            assert status == 200, (status, body)
            assert body["document"]["name"] in file.read_text()
        assert refused > 0
        # No room for a new build, and nothing half made.
        fill(ballast, 0)
        status, _, body = server.ask("POST", "/api/shop/builds", {"name": "More", "copy_of": "crawler"})
        assert status == 507, (status, body)
        assert not (Path(folder) / "more.rig.json").exists()
        ballast.unlink()
        # Killed on a full disk, it comes up with the same state.
        fill(ballast, 0)
        before = file.read_bytes()
        change("Not kept")
        server.kill()
        ballast.unlink()
        server = Server(PROGRAM, folder, server.port)
        assert server.ask("GET", ROUTE)[2]["fault"] is None
        assert file.read_bytes() == before
        assert change("After all")[0] == 200
        print(f"{refused} edits refused for want of room, the file intact each time")
    finally:
        if server and server.process.poll() is None:
            server.stop()
        libc.umount(os.fsencode(folder))
        os.rmdir(folder)


main()
