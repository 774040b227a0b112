"""Runs the program for a test and speaks HTTP with it, one plain socket a client."""
import http.client
import json
import os
import re
import socket
import subprocess
import time


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Server:
    """`rigwright serve FOLDER`. Only this process is ever ended, by its own id."""

    def __init__(self, program, folder, port=None, lan=False, log=None):
        self.port = port or free_port()
        self.log = log
        command = [program, "serve", str(folder), "--no-browser", "--port", str(self.port)]
        self.process = subprocess.Popen(
            command + (["--lan"] if lan else []),
            stdout=log or subprocess.DEVNULL,
            stderr=log or subprocess.DEVNULL,
        )
        self.wait()

    def wait(self, patience_s=30):
        end = time.monotonic() + patience_s
        while time.monotonic() < end:
            if self.process.poll() is not None:
                raise RuntimeError(f"the program ended at once: {self.process.returncode}")
            try:
                self.ask("GET", "/api/door")
                return
            except OSError:
                time.sleep(0.01)
        raise RuntimeError("the program did not come up")

    def connect(self, timeout_s=120, host="127.0.0.1"):
        return http.client.HTTPConnection(host, self.port, timeout=timeout_s)

    def ask(self, method, target, body=None, headers=None, connection=None, host="127.0.0.1"):
        """Status, headers, and the body (as JSON if it is)."""
        used = connection or self.connect(host=host)
        try:
            given = dict(headers or {})
            if body is not None and "Content-Type" not in given:
                patch = method == "PATCH"
                given["Content-Type"] = "application/json-patch+json" if patch else "application/json"
            text = None if body is None else body if isinstance(body, (str, bytes)) else json.dumps(body)
            used.request(method, target, text, given)
            answer = used.getresponse()
            content = answer.read()
            is_json = (answer.getheader("Content-Type") or "").startswith("application/json")
            return answer.status, answer.headers, json.loads(content) if is_json and content else content
        finally:
            if connection is None:
                used.close()

    def kill(self):
        self.process.kill()
        self.process.wait()

    def stop(self):
        self.process.terminate()
        return self.process.wait(timeout=60)

    def resident_kib(self):
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as status:
            return int(re.search(r"VmRSS:\s+(\d+)", status.read()).group(1))

    def descriptors(self):
        return len(os.listdir(f"/proc/{self.process.pid}/fd"))
