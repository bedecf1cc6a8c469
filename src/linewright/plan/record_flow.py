# SPDX-License-Identifier: Apache-2.0
"""Results of flow as JSON values: versioned, SI with the unit in the key, the same bytes twice."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from linewright.base.evidence import Figure, Grade
from linewright.base.finding import Finding, Severity
from linewright.base.ids import natural_key
from linewright.car.model import Car
from linewright.flow.model import (
    Assumed,
    Band,
    Flows,
    Limiting,
    LineState,
    Loss,
    Margin,
    PortState,
    PumpCurve,
    Reading,
    Series,
    SizeRow,
    SystemState,
    Verdict,
    Walk,
)
from linewright.plan.record import FORMAT, tables_digest

Json = dict[str, Any]

#: Significant figures that are written of any number.
_FIGURES = 9


def _number(value: float | None) -> float | None:
    if value is None:
        return None
    return float(f"{value:.{_FIGURES}g}") + 0.0  # no negative zero


def _numbers(values: Iterable[float]) -> list[float | None]:
    return [_number(v) for v in values]


def _band(band: Band | None, unit: str, grade: Grade) -> Json | None:
    if band is None:
        return None
    return {
        "value": _number(band.value),
        "unit": unit,
        "low": _number(band.low),
        "high": _number(band.high),
        "grade": grade.value,
        "basis": "computed",
    }


def _figure(figure: Figure) -> Json:
    return {
        "value": _number(figure.value),
        "unit": figure.unit,
        "low": _number(figure.low),
        "high": _number(figure.high),
        "grade": figure.grade.value,
        "basis": figure.basis,
    }


def record_flow(car: Car, flows: Flows, *, version: str) -> Json:
    """Write the results of flow down as JSON values.

    Parameters
    ----------
    car : Car
        The car that they are of.
    flows : Flows
        The results.
    version : str
        Version of linewright that made them.

    Returns
    -------
    dict
        Keys as in docs/reference/flow-json.md: SI with the unit in the key, pressures absolute,
        nine figures, null for unknown, no time of day.
    """
    order = {name: number for number, name in enumerate(car.systems)}
    states = sorted(
        flows.states, key=lambda s: (order.get(s.system, len(order)), s.system, s.condition)
    )
    return {
        "linewright": version,
        "format": FORMAT,
        "kind": "flow",
        "document": {"name": car.name, "sha256": car.sha256},
        "tables": {"sha256": tables_digest()},
        "grade": flows.grade.value,
        "states": [_state(s, flows.grade) for s in states],
        "sizes": [_size(row, flows.grade) for row in flows.sizes],
        "readings": [_reading(r, flows.grade) for r in flows.readings],
        "assumed": [_assumed(a) for a in flows.assumed],
        "sways": [
            {
                "sensor": s.sensor,
                "condition": s.condition,
                "where": s.where,
                "what": s.what,
                "by": _number(s.by),
            }
            for s in flows.sways
        ],
        "findings": [_finding(f) for f in flows.findings],
    }


def _sorted(values: Mapping[str, Any]) -> list[Any]:
    return [values[key] for key in sorted(values, key=natural_key)]


def _state(state: SystemState, grade: Grade) -> Json:
    return {
        "system": state.system,
        "condition": state.condition,
        "ports": [_port(p, grade) for p in _sorted(state.ports)],
        "lines": [_line(ln, grade) for ln in _sorted(state.lines)],
        "heat": [
            {"component": key, "to_fluid": _band(state.heat[key], "W", grade)}
            for key in sorted(state.heat, key=natural_key)
        ],
        "margins": [_margin(m, grade) for m in state.margins],
        "limiting": state.limiting and _limiting(state.limiting),
        "pumps": [_pump(c, grade) for c in state.pumps],
        "walks": [_walk(w, grade) for w in state.walks],
        "series": [_series(s) for s in state.series],
        "stands": state.stands and _band(state.stands, "K", grade),
        "also": state.also and _state(state.also, grade),
    }


def _port(port: PortState, grade: Grade) -> Json:
    return {
        "id": port.port,
        "flow": _band(port.flow, "kg/s", grade),
        "pressure": _band(port.pressure, "Pa", grade),
        "temperature": _band(port.temperature, "K", grade),
    }


def _loss(loss: Loss, grade: Grade) -> Json:
    return {
        "what": loss.what,
        "where": list(loss.where),
        "drop": _band(loss.drop, "Pa", grade),
        "share": _number(loss.share),
    }


def _line(line: LineState, grade: Grade) -> Json:
    return {
        "id": line.line,
        "flow": _band(line.flow, "kg/s", grade),
        "drop": _band(line.drop, "Pa", grade),
        "velocity_m_per_s": _number(line.velocity),
        "reynolds": _number(line.reynolds),
        "density_kg_per_m3": _number(line.density),
        "between": bool(line.is_between),
        "losses": [_loss(one, grade) for one in line.losses],
    }


def _margin(margin: Margin, grade: Grade) -> Json:
    return {
        "what": margin.what,
        "where": margin.where,
        "value": _band(margin.value, margin.unit, grade),
        "limit": _figure(margin.limit),
        "least": margin.is_least,
        "verdict": margin.verdict.value,
        "measure": margin.measure,
    }


def _limiting(limiting: Limiting) -> Json:
    return {
        "where": limiting.where,
        "share": _number(limiting.share),
        "margin": limiting.margin,
        "size": limiting.size,
        "next_size": limiting.next_size,
        "value": _number(limiting.value),
        "next_value": _number(limiting.next_value),
        "unit": limiting.unit,
    }


def _pump(curve: PumpCurve, grade: Grade) -> Json:
    return {
        "id": curve.pump,
        "flows_m3_per_s": _numbers(curve.flows),
        "rises_pa": _numbers(curve.rises),
        "takes_pa": _numbers(curve.takes),
        "least_pa": _numbers(curve.least),
        "most_pa": _numbers(curve.most),
        "flow": _band(curve.flow, "m3/s", grade),
        "rise": _band(curve.rise, "Pa", grade),
    }


def _walk(walk: Walk, grade: Grade) -> Json:
    return {
        "circuit": walk.circuit,
        "steps": [
            {
                "what": s.what,
                "where": list(s.where),
                "pressure": _band(s.pressure, "Pa", grade),
            }
            for s in walk.steps
        ],
    }


def _series(series: Series) -> Json:
    return {
        "what": series.what,
        "where": series.where,
        "unit": series.unit,
        "times_s": _numbers(series.times),
        "values": _numbers(series.values),
        "low": _numbers(series.low),
        "high": _numbers(series.high),
    }


def _size(row: SizeRow, grade: Grade) -> Json:
    return {
        "line": row.line,
        "size": row.size,
        "hose": row.hose,
        "condition": row.condition,
        "bore_m": _number(row.bore),
        "drop": _band(row.drop, "Pa", grade),
        "velocity_m_per_s": _number(row.velocity),
        "volume_m3": _number(row.volume),
        "mass_kg": _number(row.mass),
        "price_index": _number(row.price_index),
        "chosen": row.is_chosen,
        "why": row.why,
    }


def _reading(reading: Reading, grade: Grade) -> Json:
    return {
        "sensor": reading.sensor,
        "port": reading.port,
        "condition": reading.condition,
        "quantity": reading.quantity,
        "value": _band(reading.value, reading.unit, grade),
    }


def _assumed(one: Assumed) -> Json:
    return {
        "where": one.where,
        "what": one.what,
        "figure": _figure(one.figure),
        "give": one.give,
    }


def _finding(finding: Finding) -> Json:
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "system": finding.system,
        "about": list(finding.about),
        "reason": finding.reason,
        "remedy": finding.remedy,
        "value": finding.value,
        "limit": finding.limit,
        "measure": _number(finding.measure),
        "source": finding.source,
        "grade": finding.grade.value,
    }


# ------------------------------------------------------------------------------------- schema
_TEXT: Json = {"type": "string"}
_MAYBE_TEXT: Json = {"type": ["string", "null"]}
_NUMBER: Json = {"type": "number"}
_MAYBE_NUMBER: Json = {"type": ["number", "null"]}
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


_VALUE = _object(
    value=_NUMBER,
    unit=_TEXT,
    low=_MAYBE_NUMBER,
    high=_MAYBE_NUMBER,
    grade=_GRADE,
    basis=_TEXT,
)


def _state_keys() -> Mapping[str, Json]:
    numbers = _list(_NUMBER)
    loss = _object(what=_TEXT, where=_list(_TEXT), drop=_VALUE, share=_NUMBER)
    step = _object(what=_TEXT, where=_list(_TEXT), pressure=_VALUE)
    return {
        "system": _TEXT,
        "condition": _TEXT,
        "ports": _list(_object(id=_TEXT, flow=_VALUE, pressure=_VALUE, temperature=_VALUE)),
        "lines": _list(
            _object(
                id=_TEXT,
                flow=_VALUE,
                drop=_VALUE,
                velocity_m_per_s=_NUMBER,
                reynolds=_NUMBER,
                density_kg_per_m3=_MAYBE_NUMBER,
                between=_YES_NO,
                losses=_list(loss),
            )
        ),
        "heat": _list(_object(component=_TEXT, to_fluid=_VALUE)),
        "margins": _list(
            _object(
                what=_TEXT,
                where=_TEXT,
                value=_VALUE,
                limit=_VALUE,
                least=_YES_NO,
                verdict={"enum": [v.value for v in Verdict]},
                measure=_TEXT,
            )
        ),
        "limiting": _maybe(
            _object(
                where=_TEXT,
                share=_NUMBER,
                margin=_TEXT,
                size=_TEXT,
                next_size=_TEXT,
                value=_MAYBE_NUMBER,
                next_value=_MAYBE_NUMBER,
                unit=_TEXT,
            )
        ),
        "pumps": _list(
            _object(
                id=_TEXT,
                flows_m3_per_s=numbers,
                rises_pa=numbers,
                takes_pa=numbers,
                least_pa=numbers,
                most_pa=numbers,
                flow=_VALUE,
                rise=_VALUE,
            )
        ),
        "walks": _list(_object(circuit=_TEXT, steps=_list(step))),
        "series": _list(
            _object(
                what=_TEXT,
                where=_TEXT,
                unit=_TEXT,
                times_s=numbers,
                values=numbers,
                low=numbers,
                high=numbers,
            )
        ),
    }


def schema_flow() -> Json:
    """Return the schema of what `record_flow` writes.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; keys that it does not name do not occur.
    """
    keys: Sequence[Mapping[str, Json]] = (
        _state_keys(),
        {"stands": _maybe(_VALUE), "also": _maybe({"$ref": "#/$defs/state"})},
    )
    state = _object(**{name: item for part in keys for name, item in part.items()})
    whole = _object(
        linewright=_TEXT,
        format={"const": FORMAT},
        kind={"const": "flow"},
        document=_object(name=_TEXT, sha256=_SHA),
        tables=_object(sha256=_SHA),
        grade=_GRADE,
        states=_list({"$ref": "#/$defs/state"}),
        sizes=_list(
            _object(
                line=_TEXT,
                size=_TEXT,
                hose=_TEXT,
                condition=_TEXT,
                bore_m=_NUMBER,
                drop=_maybe(_VALUE),
                velocity_m_per_s=_NUMBER,
                volume_m3=_NUMBER,
                mass_kg=_MAYBE_NUMBER,
                price_index=_MAYBE_NUMBER,
                chosen=_YES_NO,
                why=_TEXT,
            )
        ),
        readings=_list(
            _object(sensor=_TEXT, port=_TEXT, condition=_TEXT, quantity=_TEXT, value=_VALUE)
        ),
        assumed=_list(_object(where=_TEXT, what=_TEXT, figure=_VALUE, give=_TEXT)),
        sways=_list(_object(sensor=_TEXT, condition=_TEXT, where=_TEXT, what=_TEXT, by=_NUMBER)),
        findings=_list(
            _object(
                code=_TEXT,
                severity={"enum": [s.value for s in Severity]},
                system=_MAYBE_TEXT,
                about=_list(_TEXT),
                reason=_TEXT,
                remedy=_TEXT,
                value=_MAYBE_TEXT,
                limit=_MAYBE_TEXT,
                measure=_MAYBE_NUMBER,
                source=_TEXT,
                grade=_GRADE,
            )
        ),
    )
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Flow, pressure and heat of a car, by linewright",
        "$defs": {"state": state},
        **whole,
    }
