# SPDX-License-Identifier: Apache-2.0
"""Bend schedules as JSON values: what a plan's record holds under ``bends``."""

from collections.abc import Iterable
from typing import Any

from linewright.plan.record_routes import number
from linewright.routes.bent import Schedule

Json = dict[str, Any]


def bends(found: Iterable[Schedule]) -> list[Json]:
    """Write bend schedules down as JSON values.

    Parameters
    ----------
    found : iterable of Schedule
        Of hard tubes and charge pipes.

    Returns
    -------
    list of dict
        In their order; keys as in docs/reference/plan-json.md, SI with the unit in the key.
        ``blank_m`` is null for a pipe, which is welded from bends and straight pieces;
        ``stocked_deg`` is null for a bend that a bender bends.
    """
    return [
        {
            "id": made.id,
            "line": made.line,
            "pipe": made.is_pipe,
            "outside_m": number(made.outside),
            "radius_m": number(made.radius.value),
            "radius_grade": made.radius.grade.value,
            "bends": [
                {
                    "straight_m": number(bend.straight),
                    "rotation_rad": number(bend.rotation),
                    "angle_rad": number(bend.angle),
                    "stocked_deg": bend.stocked,
                }
                for bend in made.bends
            ],
            "last_m": number(made.last),
            "developed_m": number(made.developed),
            "blank_m": None if made.is_pipe else number(made.blank),
            "inserts_m": [number(piece) for piece in made.inserts],
            "welds": made.welds,
        }
        for made in found
    ]


def schema() -> Json:
    """Return the JSON Schema of one item of ``bends``.

    Returns
    -------
    dict
        Keys that it does not name do not occur.
    """
    text: Json = {"type": "string"}
    length: Json = {"type": "number", "minimum": 0}

    def record(**keys: Json) -> Json:
        return {
            "type": "object",
            "properties": keys,
            "required": sorted(keys),
            "additionalProperties": False,
        }

    bend = record(
        straight_m=length,
        rotation_rad={"type": "number"},
        angle_rad=length,
        stocked_deg={"type": ["integer", "null"], "minimum": 0, "maximum": 180},
    )
    return record(
        id=text,
        line=text,
        pipe={"type": "boolean"},
        outside_m=length,
        radius_m=length,
        radius_grade=text,
        bends={"type": "array", "items": bend},
        last_m=length,
        developed_m=length,
        blank_m={"type": ["number", "null"], "minimum": 0},
        inserts_m={"type": "array", "items": length},
        welds={"type": "integer", "minimum": 0},
    )
