"""Asks every route of a running server and holds each answer against docs/openapi.json.

    interface_test.py PROGRAM SOURCE_DIR [HOW_MANY_EXAMPLES]
"""
import copy
import json
import shutil
import sys
import tempfile
from pathlib import Path

import jsonschema

PROGRAM, SOURCE = sys.argv[1], Path(sys.argv[2])
WALKED = int(sys.argv[3]) if len(sys.argv) > 3 else None
sys.path.insert(0, str(SOURCE / "tests/support"))
from remembering import remember_valid  # noqa: E402
from server import Server  # noqa: E402

DOCUMENT = json.loads((SOURCE / "docs/openapi.json").read_text())
EXAMPLES = sorted((SOURCE / "examples").glob("0*/*.rig.json"))
Validator = remember_valid(jsonschema.Draft202012Validator)
METHODS = ("get", "post", "patch", "put", "delete")


def resolve(thing):
    while "$ref" in thing:
        target = DOCUMENT
        for step in thing["$ref"].removeprefix("#/").split("/"):
            target = target[step]
        thing = target
    return thing


def check(schema, value, where):
    rooted = copy.copy(schema)
    rooted["components"] = DOCUMENT["components"]
    errors = list(Validator(rooted).iter_errors(value))
    assert not errors, f"{where}: {errors[0].json_path}: {errors[0].message[:300]}"


class Asker:
    """Asks, checks the answer against what the document says of it, and notes what was seen."""

    def __init__(self, server):
        self.server = server
        self.seen = {}

    def __call__(self, method, path, status, body=None, query="", build=None, headers=None, wrong=False):
        operation = DOCUMENT["paths"][path][method.lower()]
        target = path.replace("{id}", build or "") + query
        where = f"{method} {target} -> {status}"
        request = operation.get("requestBody")
        if request and not wrong:
            ((_, media),) = request["content"].items()
            check(media["schema"], body, where + ", the question")
        got, given, answer = self.server.ask(method, target, body, headers)
        assert got == status, f"{where}: {got} {answer!r:.300}"
        told = resolve(operation["responses"].get(str(status)) or {})
        assert told, f"{where}: the document does not tell this status"
        for name, header in told.get("headers", {}).items():
            assert given.get(name) or not header.get("required"), f"{where}: no {name}"
        if "content" in told:
            ((kind, media),) = told["content"].items()
            assert (given["Content-Type"] or "").startswith(kind), f"{where}: {given['Content-Type']}"
            if kind == "application/json":
                check(media["schema"], answer, where)
        else:
            assert answer == b"", where
        self.seen.setdefault((method.lower(), path), set()).add(status)
        return answer


def walk(ask, build):
    """Everything that a page asks of one build."""
    one = "/api/builds/{id}"

    def tag():
        return ask("GET", one, 200, build=build)["etag"]

    def change(path, status, body, method="POST", query="", on=None, wrong=False):
        headers = {"If-Match": f'"{on or tag()}"', "Rig-Screen": "test", "Rig-Initials": "AB"}
        return ask(method, path, status, body, query, build, headers, wrong)

    def put(path, value):
        return [{"op": "add", "path": path, "value": value}]

    document = ask("GET", one, 200, build=build)["document"]
    for route in ("/file", "/next", "/report", "/scene", "/picture.svg", "/history", "/frame/sections"):
        ask("GET", one + route, 200, build=build)
    frame = ask("GET", one + "/report", 200, build=build)["report"]["frame"]
    for case in frame["cases"] if frame else []:
        ask("GET", one + "/frame/drawing", 200, query=f"?case={case['id']}", build=build)
    ask("GET", one + "/frame/drawing", 404, query="?case=none", build=build)
    if "axles" not in document:
        return
    ends = list(document["axles"])
    for state in [None, *document["load_states"]]:
        ask("POST", one + "/pose", 200, {"state": state, "settled": state is not None}, build=build)
    ask("POST", one + "/pose", 200, {"heave": {e: 1.0 for e in ends}, "roll": {}}, build=build)
    ask("POST", one + "/pose", 400, {"heave": 3}, build=build, wrong=True)

    base = tag()
    old = document["axles"][ends[0]]["track"]
    change(one, 200, put(f"/axles/{ends[0]}/track", "1.7 m"), "PATCH")
    change(one, 412, put(f"/axles/{ends[0]}/track", "1.8 m"), "PATCH", on=base)
    change(one, 200, put("/name", "Another name"), "PATCH", on=base)
    change(one, 422, put(f"/axles/{ends[0]}/track", "a good bit"), "PATCH")
    change(one, 400, [], "PATCH", on="*")
    ask("PATCH", one, 428, [], build=build)
    ask("PATCH", one, 415, [], build=build, headers={"Content-Type": "application/json"})
    change(one, 200, put(f"/axles/{ends[0]}/track", old), "PATCH")
    for work in ("weigh", "axles", "frame", "drivetrain"):
        ask("POST", one + "/trial", 200, put(f"/axles/{ends[0]}/track", "1.7 m"), f"?work={work}", build)
    ask("POST", one + "/trial", 422, put("/no/such", 1), "?work=axles", build)
    ask("POST", one + "/trial", 400, put(f"/axles/{ends[0]}/track", "1.7 m"), build=build, wrong=True)

    # Less and less is known: everything that can be null, empty or missing is.
    mass = next(iter(document["masses"]))
    for patch in (
        [{"op": "remove", "path": f"/masses/{mass}/mass"}],
        [{"op": "remove", "path": f"/axles/{ends[0]}/tyre"}],
        put(f"/axles/{ends[0]}/bump_travel", "1.2 m") + put(f"/axles/{ends[0]}/droop_travel", "1.2 m"),
    ):
        change(one, 200, patch, "PATCH")
        ask("GET", one + "/report", 200, build=build)
    for _ in range(3):
        change(one + "/undo", 200, {})
    change(one + "/redo", 200, {})
    change(one + "/undo", 200, {})
    change(one + "/undo", 412, {}, on=base)
    change(one + "/restore", 200, {"entry": 1})
    change(one + "/restore", 404, {"entry": 9999})
    change(one + "/redo", 409, {})

    tyre = next(iter(document["tyres"]))
    path = f"/tyres/{tyre}"
    ask("GET", one + "/dependants", 200, query=f"?path={path}", build=build)
    change(one + "/change", 200, {"kind": "copy", "path": path, "to": "spare"})
    change(one + "/change", 200, {"kind": "rename", "path": "/tyres/spare", "to": "spare_two"})
    change(one + "/change", 200, {"kind": "remove", "path": "/tyres/spare_two"})
    change(one + "/change", 409, {"kind": "remove", "path": path, "with_dependants": False})
    change(one + "/change", 422, {"kind": "copy", "path": path, "to": tyre})
    change(one + "/change", 400, {"kind": "paint", "path": path}, wrong=True)

    change(one, 200, put("/variants", {"wide": {"label": "Wider", "changes": {}}}), "PATCH")
    change(one, 200, put(f"/axles/{ends[0]}/track", "1.75 m"), "PATCH", "?variant=wide")
    for route in ("", "/report", "/scene", "/picture.svg"):
        ask("GET", one + route, 200, query="?variant=wide", build=build)
    ask("GET", one + "/compare", 200, query="?a=&b=wide", build=build)
    ask("GET", one + "/compare", 404, query="?a=&b=none", build=build)
    ask("GET", one, 404, query="?variant=none", build=build)

    ask("POST", one + "/versions", 200, {"name": "as found", "entry": 1}, build=build)
    ask("POST", one + "/versions", 409, {"name": "as found", "entry": 2}, build=build)
    ask("GET", one + "/history", 200, query="?before=3&limit=1", build=build)
    ask("GET", one + "/history", 400, query="?limit=many", build=build)


def events(ask, build):
    """An edit of one screen is told to another within a second."""
    connection = ask.server.connect(timeout_s=5)
    connection.request("GET", f"/api/builds/{build}/events")
    sock = connection.sock  # The answer, which has no end, takes it over.
    stream = connection.getresponse()
    assert stream.status == 200 and stream.getheader("Content-Type") == "text/event-stream"

    def next_event():
        while True:
            line = stream.readline().decode()
            assert line, "the stream ended"
            if line.startswith("data: "):
                data = json.loads(line[6:])
                check({"$ref": "#/components/schemas/HeadEvent"}, data, "an event")
                return data

    first = next_event()
    patch = [{"op": "add", "path": "/name", "value": "Told to the others"}]
    headers = {"If-Match": f'"{first["etag"]}"', "Rig-Screen": "here", "Rig-Initials": "AB"}
    answer = ask("PATCH", "/api/builds/{id}", 200, patch, build=build, headers=headers)
    sock.settimeout(1)
    told = next_event()
    assert told == {"etag": answer["etag"], "entry": answer["entry"], "screen": "here", "who": "AB"}, told
    stream.close()
    ask.seen[("get", "/api/builds/{id}/events")] = {200}


def main():
    with tempfile.TemporaryDirectory() as folder:
        for example in EXAMPLES:
            shutil.copy(example, folder)
        (Path(folder) / "broken.rig.json").write_text("{")
        server = Server(PROGRAM, folder)
        try:
            ask = Asker(server)
            ask("GET", "/api/shop", 200)
            for question in ask("GET", "/api/shop/questions", 200)["questions"]:
                assert question["label"]
            for example in EXAMPLES[:WALKED]:
                walk(ask, example.name.removesuffix(".rig.json"))
            first = EXAMPLES[0].name.removesuffix(".rig.json")
            events(ask, first)
            for path, operations in DOCUMENT["paths"].items():
                if "{id}" in path and "get" in operations and not path.endswith("dependants"):
                    ask("GET", path, 404, build="none")
            ask("GET", "/api/builds/{id}", 422, build="broken")
            ask("GET", "/api/builds/{id}/picture.svg", 422, build="broken")
            ask("GET", "/api/understand", 200, query="?dimension=length&text=41%205/8&metric=false")
            ask("GET", "/api/understand", 422, query="?dimension=length&text=long")
            ask("GET", "/api/understand", 400, query="?dimension=length&text=1&fraction=0")
            new = "/api/shop/builds"
            ask("POST", new, 201, {"name": "Copy", "copy_of": first})
            ask("POST", new, 201, {"name": "Import", "text": EXAMPLES[0].read_text()})
            ask("POST", new, 422, {"name": "Import", "text": "{"})
            ask("POST", new, 400, {"name": "Nothing"}, wrong=True)
            ask("POST", new, 422, {"name": "Started", "answers": {"no_such_question": "1"}})
            ask("POST", "/api/shop/archive", 200, {"id": "copy", "archived": True})
            ask("POST", "/api/shop/archive", 404, {"id": "none", "archived": True})
            ask("GET", "/api/schema", 200)
            assert ask("GET", "/api/openapi.json", 200) == DOCUMENT
            ask("GET", "/api/door", 200)
            ask("POST", "/api/pair", 204, {"code": "000000"})
        finally:
            code = server.stop()
        assert code == 0, code
        asked = {key for key, statuses in ask.seen.items() if statuses & {200, 201, 204}}
        told = {(m, p) for p, operations in DOCUMENT["paths"].items() for m in operations if m in METHODS}
        assert asked == told, f"not asked: {told - asked}"
        count = sum(len(statuses) for statuses in ask.seen.values())
        print(f"{len(asked)} routes, {count} kinds of answer are as docs/openapi.json says.")


main()
