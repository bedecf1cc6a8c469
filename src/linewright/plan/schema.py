# SPDX-License-Identifier: Apache-2.0
"""The JSON Schema of a plan's record, for whoever reads it with another program."""

from typing import Any

from linewright.base.evidence import Grade, Known, Placed
from linewright.base.finding import Severity
from linewright.car.model import Construction, Medium, Role, Tier
from linewright.plan import record_bends, record_routes
from linewright.plan.record import FORMAT
from linewright.routes.model import By

Json = dict[str, Any]

_TEXT: Json = {"type": "string"}
_MAYBE_TEXT: Json = {"type": ["string", "null"]}
_NUMBER: Json = {"type": "number"}
_MAYBE_NUMBER: Json = {"type": ["number", "null"]}
_COUNT: Json = {"type": "integer", "minimum": 0}
_YES_NO: Json = {"type": "boolean"}
_SHA: Json = {"type": "string", "pattern": "^([0-9a-f]{64})?$"}
_GRADE: Json = {"enum": [g.value for g in Grade]}


def _list(item: Json) -> Json:
    return {"type": "array", "items": item}


def _object(**keys: Json) -> Json:
    return {
        "type": "object",
        "properties": keys,
        "required": sorted(keys),
        "additionalProperties": False,
    }


def _maybe(item: Json) -> Json:
    return {"anyOf": [item, {"type": "null"}]}


def _one_of(values: Any, *, maybe: bool = False) -> Json:
    names: list[str | None] = [v.value for v in values]
    return {"enum": [*names, None] if maybe else names}


_VECTOR = _maybe({"type": "array", "items": _NUMBER, "minItems": 3, "maxItems": 3})
_FIGURE = _maybe(
    _object(
        value=_NUMBER,
        unit=_TEXT,
        low=_MAYBE_NUMBER,
        high=_MAYBE_NUMBER,
        grade=_GRADE,
        basis=_TEXT,
    )
)
_PART = _object(code=_TEXT, name=_TEXT, ends=_list(_TEXT))
_CHAIN = _maybe(
    _object(
        parts=_list(_PART),
        joints=_COUNT,
        bore_m=_MAYBE_NUMBER,
        stick_out_m=_NUMBER,
        price_index=_NUMBER,
        reason=_TEXT,
        codes=_list(_TEXT),
    )
)


def schema() -> Json:
    """Return the schema of what `plan.record.record` writes.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; keys that it does not name do not occur.
    """
    lists = {
        "systems": _object(
            id=_TEXT,
            medium=_one_of(Medium),
            fluid=_TEXT,
            hose=_TEXT,
            size=_TEXT,
            letter=_TEXT,
            hottest=_FIGURE,
            highest_gauge=_FIGURE,
        ),
        "components": _object(
            id=_TEXT,
            kind=_TEXT,
            name=_TEXT,
            system=_MAYBE_TEXT,
            on=_MAYBE_TEXT,
            rides=_TEXT,
            material=_TEXT,
            have=_TEXT,
            size_m=_VECTOR,
            volume=_FIGURE,
            place=_maybe(
                _object(
                    anchor=_TEXT,
                    at_m=_VECTOR,
                    yaw_rad=_NUMBER,
                    pitch_rad=_NUMBER,
                    roll_rad=_NUMBER,
                    placed=_one_of(Placed),
                )
            ),
            traits={"type": "object"},
        ),
        "ports": _object(
            id=_TEXT,
            end=_MAYBE_TEXT,
            typed=_TEXT,
            readings=_list(_TEXT),
            gender_assumed=_YES_NO,
            role=_one_of(Role, maybe=True),
            medium=_one_of(Medium, maybe=True),
            known=_one_of(Known),
            at_m=_VECTOR,
            at_car_m=_VECTOR,
            points=_VECTOR,
            points_car=_VECTOR,
            from_kind=_YES_NO,
        ),
        "lines": _object(
            **{"from": _TEXT},
            id=_TEXT,
            to=_TEXT,
            system=_MAYBE_TEXT,
            size=_TEXT,
            hose=_TEXT,
            construction=_one_of(Construction),
            service=_TEXT,
            tier=_one_of(Tier),
            string=_FIGURE,
            crosses=_YES_NO,
            passes=_list(_TEXT),
        ),
        "runs": _object(
            id=_TEXT,
            line=_TEXT,
            system=_MAYBE_TEXT,
            size=_TEXT,
            hose=_TEXT,
            tier=_one_of(Tier),
            by=_one_of(By),
            string=_FIGURE,
            course=_FIGURE,
            straight=_FIGURE,
            buy=_FIGURE,
            assembly=_FIGURE,
            cut=_FIGURE,
            cut_note=_TEXT,
            slack=_NUMBER,
            clips=_COUNT,
            ends=_list(
                _object(
                    side={"enum": ["A", "B"]},
                    port=_TEXT,
                    angle_deg={"type": ["integer", "null"]},
                    candidates_deg=_list({"type": "integer"}),
                    routed=_YES_NO,
                    sureness=_MAYBE_NUMBER,
                    chain=_CHAIN,
                    next=_list(_CHAIN),
                )
            ),
        ),
        "routes": record_routes.schema(),
        "bends": record_bends.schema(),
        "joints": _object(
            id=_TEXT,
            line=_MAYBE_TEXT,
            ports=_list(_TEXT),
            near=_TEXT,
            far=_TEXT,
            seals=_list(_object(what=_TEXT, size=_TEXT, count=_COUNT, grade=_GRADE)),
            counted=_YES_NO,
        ),
        "parts": _object(
            code=_TEXT,
            name=_TEXT,
            group=_TEXT,
            need=_COUNT,
            order=_COUNT,
            unit=_TEXT,
            by_system={"type": "object", "additionalProperties": _COUNT},
            because=_list(_TEXT),
            price_index=_MAYBE_NUMBER,
            availability=_TEXT,
            grade=_GRADE,
            certain=_YES_NO,
            note=_TEXT,
        ),
        "either": _object(
            port=_TEXT,
            readings=_list(_TEXT),
            parts=_list(_object(code=_TEXT, name=_TEXT, order=_COUNT)),
            price_index=_NUMBER,
        ),
        "hoses": _object(
            code=_TEXT,
            name=_TEXT,
            hose=_TEXT,
            size=_TEXT,
            pieces=_list(_object(run=_TEXT, buy_m=_NUMBER)),
            string_m=_NUMBER,
            need_m=_NUMBER,
            order_m=_NUMBER,
            feet=_COUNT,
            metres=_COUNT,
            grade=_GRADE,
        ),
        "cuts": _object(
            run=_TEXT,
            line=_TEXT,
            hose=_TEXT,
            size=_TEXT,
            assembly=_FIGURE,
            cut=_FIGURE,
            note=_TEXT,
            end_a=_TEXT,
            end_b=_TEXT,
        ),
        "holes": _object(
            id=_TEXT,
            what=_TEXT,
            where=_TEXT,
            diameter=_FIGURE,
            gate=_TEXT,
            because=_list(_TEXT),
            note=_TEXT,
        ),
        "findings": _object(
            code=_TEXT,
            severity=_one_of(Severity),
            system=_MAYBE_TEXT,
            about=_list(_TEXT),
            reason=_TEXT,
            remedy=_TEXT,
            value=_MAYBE_TEXT,
            limit=_MAYBE_TEXT,
            measure=_MAYBE_NUMBER,
            source=_TEXT,
            grade=_GRADE,
            overruled=_maybe(_object(reason=_TEXT, by=_TEXT, when=_TEXT)),
        ),
        "proof": _object(
            id=_TEXT,
            system=_MAYBE_TEXT,
            state=_TEXT,
            by=_TEXT,
            reason=_TEXT,
            function=_YES_NO,
        ),
        "risks": _object(kind=_TEXT, about=_list(_TEXT), what=_TEXT, remedy=_TEXT, parts=_COUNT),
        "steps": _object(code=_TEXT, about=_list(_TEXT), text=_TEXT),
        "assumed": _object(key=_TEXT, value=_TEXT, grade=_GRADE),
    }
    whole = _object(
        linewright=_TEXT,
        format={"const": FORMAT},
        kind={"const": "plan"},
        document=_object(name=_TEXT, sha256=_SHA),
        tables=_object(sha256=_SHA),
        **{name: _list(item) for name, item in lists.items()},
    )
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A plan of linewright",
        **whole,
    }
