"""Holds the published JSON Schema against the reader, through an independent validator.

usage: schema_agreement.py SOURCE_DIR CORPUS

A file that the reader takes must be valid by the schema. A file that the reader refuses for its structure
must be refused by the schema as well. A file refused only for what a schema can't say (units, ranges, ids
that lead nowhere, values that can't be true together) must be valid by it, unless the schema's loose
patterns happen to catch it. What isn't JSON, or has a key twice, is left out: no schema sees that.
"""

import json
import pathlib
import re
import sys

from jsonschema import Draft202012Validator

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "support"))
from remembering import remember_valid  # noqa: E402

STRUCTURE = {
    "build.unknown_key",
    "build.missing_key",
    "build.wrong_type",
    "build.unknown_word",
    "build.bad_text",
    "build.bad_id",
    "build.listed_twice",
    "build.version",
    "units.empty",
}
# Neither JSON nor one value per key: python's reader and any validator see something else.
NOT_SEEN = {"build.not_json", "build.duplicate_key", "build.too_deep", "build.too_large", "build.too_many"}
BEYOND_A_SCHEMA = {
    "build.dangling_id",
    "build.not_optional",
    "build.mass_and_fluid",
    "build.impossible",
    "build.datum",
    "build.wrong_shape",
    "build.outside_rail",
    "build.overlap",
    "build.no_plate",
    "build.same_id",
    "build.not_in",
    "build.in_already",
    "units.wrong_dimension",
    "units.unknown_unit",
}


ID = re.compile(r"[a-z][a-z0-9_-]{0,39}\Z")


def value_at(document, pointer):
    for step in pointer.split("/")[1:]:
        step = step.replace("~1", "/").replace("~0", "~")
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def in_changes(pointer):
    """What a variant changes is any value anywhere: only the reader, which lays it over, sees whether it fits."""
    steps = pointer.split("/")
    return len(steps) > 4 and steps[1] == "variants" and steps[3] == "changes"


def must_refuse(document, faults):
    """Whether any of the reader's faults is one the schema must see too."""
    for code, pointer in faults:
        if in_changes(pointer):
            continue
        if code in STRUCTURE:
            return True
        if code in ("units.no_unit", "build.out_of_range"):
            value = value_at(document, pointer)
            # A bare number: without its unit, or outside of 0 to 1, or not among those allowed.
            if isinstance(value, (int, float)):
                return True
    return False


def is_beyond_a_schema(document, code, pointer):
    """Whether a fault is one that no schema can see."""
    if in_changes(pointer):
        return code != "build.bad_change"
    if code == "build.dangling_id" and "/fills/" not in pointer:
        # A text that can't be an id at all is seen.
        return ID.match(value_at(document, pointer)) is not None
    return code in BEYOND_A_SCHEMA


def check(validator, name, text, faults, problems):
    codes = {code for code, _ in faults}
    if codes & NOT_SEEN:
        return "not seen"
    document = json.loads(text.removeprefix("\ufeff"))
    error = next(validator.iter_errors(document), None)
    if not faults and error:
        problems.append(f"{name}: taken by the reader, refused by the schema: {error.message[:200]}")
    if must_refuse(document, faults) and not error:
        problems.append(f"{name}: refused by the reader, taken by the schema: {faults}")
    if faults and error and all(is_beyond_a_schema(document, *fault) for fault in faults):
        problems.append(f"{name}: refused for more than the reader says: {error.message[:200]}")
    return "refused" if error else "taken"


def main(source, corpus):
    schema = json.loads((source / "docs/schema/build-1.schema.json").read_text())
    Draft202012Validator.check_schema(schema)
    validator = remember_valid(Draft202012Validator)(schema)
    problems = []
    counts = {}

    def tally(*arguments):
        verdict = check(validator, *arguments, problems)
        counts[verdict] = counts.get(verdict, 0) + 1

    for path in sorted(source.glob("src/build/fixtures/*.rig.json")):
        tally(path.name, path.read_text(), [])
    for path in sorted(source.glob("examples/**/*.rig.json")):
        expected = path.with_name(path.name.replace(".rig.json", ".expected"))
        lines = expected.read_text().splitlines() if expected.exists() else []
        tally(path.name, path.read_text(), [tuple(line.split(" ", 1)) for line in lines])
    with corpus.open(encoding="utf-8") as lines:
        for line in lines:
            file = json.loads(line)
            tally(file["name"], file["text"], [tuple(fault) for fault in file["faults"]])

    print("verdicts of the schema:", counts)
    if min(counts.get("taken", 0), counts.get("refused", 0)) < 200:
        problems.append("too few files to say anything")
    for problem in problems:
        print(problem)
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])))
