# SPDX-License-Identifier: Apache-2.0
"""Shapes that the schemas of records are put together from."""

from typing import Any

Json = dict[str, Any]

TEXT: Json = {"type": "string"}
NUMBER: Json = {"type": "number"}
MAYBE_NUMBER: Json = {"type": ["number", "null"]}
COUNT: Json = {"type": "integer", "minimum": 0}
MAYBE_COUNT: Json = {"type": ["integer", "null"], "minimum": 0}
YES_NO: Json = {"type": "boolean"}
SHARE: Json = {"type": "number", "minimum": 0, "maximum": 1}


def many(item: Json) -> Json:
    """Return the shape of a list.

    Parameters
    ----------
    item : dict
        The shape of each of its items.

    Returns
    -------
    dict
        JSON Schema.
    """
    return {"type": "array", "items": item}


def keyed(**keys: Json) -> Json:
    """Return the shape of an object that has just these keys.

    Parameters
    ----------
    **keys : dict
        Shape by key.

    Returns
    -------
    dict
        JSON Schema.
    """
    return {
        "type": "object",
        "properties": keys,
        "required": sorted(keys),
        "additionalProperties": False,
    }


def maybe(item: Json) -> Json:
    """Return a shape that may be null.

    Parameters
    ----------
    item : dict
        The shape where it is not.

    Returns
    -------
    dict
        JSON Schema.
    """
    return {"anyOf": [item, {"type": "null"}]}


MONEY = keyed(
    amount={"type": "string", "pattern": r"^-?[0-9]+(\.[0-9]+)?$"},
    currency={"type": "string", "pattern": "^[A-Z]{3}$"},
)


def headed(kind: str, form: int, title: str, **keys: Json) -> Json:
    """Return the schema of a whole record.

    Parameters
    ----------
    kind : str
        What it records.
    form : int
        Version of the meaning of its keys.
    title : str
        What it is called.
    **keys : dict
        Shape by key, beside those that every record has.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12.
    """
    sha: Json = {"type": "string", "pattern": "^([0-9a-f]{64})?$"}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        **keyed(
            linewright=TEXT,
            format={"const": form},
            kind={"const": kind},
            document=keyed(name=TEXT, sha256=sha),
            tables=keyed(sha256=sha),
            **keys,
        ),
    }
