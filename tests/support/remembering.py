"""JSON Schema validation of many values that are almost the same."""
import json

from jsonschema import validators


def remember_valid(draft):
    """The validator of a draft that does not look again at a value it found valid against the same part of the schema,
    by that part's name; so one such validator is for one schema only.
    """
    valid = set()
    look = draft.VALIDATORS["$ref"]

    def ref(validator, name, value, schema):
        seen = (name, json.dumps(value))
        if seen in valid:
            return
        errors = list(look(validator, name, value, schema))
        if not errors:
            valid.add(seen)
        yield from errors

    return validators.extend(draft, {"$ref": ref})
