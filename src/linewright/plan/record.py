# SPDX-License-Identifier: Apache-2.0
"""A plan as JSON values: versioned, sorted by id, the same bytes for the same document."""

import json
from collections.abc import Iterable, Mapping
from functools import lru_cache
from hashlib import sha256
from importlib.resources import files
from typing import Any

from linewright.base.evidence import Figure
from linewright.base.finding import Finding
from linewright.base.ids import natural_key
from linewright.car.model import Car, Component, Line, Port, System
from linewright.catalogue.part import Part
from linewright.joints.model import Chain, Joints, Mated
from linewright.plan import record_bends, record_routes
from linewright.plan.model import Plan
from linewright.routes.bent import schedules
from linewright.routes.model import Run
from linewright.takeoff.model import Takeoff

#: Version of the meaning of the keys; a new key keeps it, a changed one raises it.
FORMAT = 1

#: Significant figures that are written of any number.
FIGURES = 9

Json = dict[str, Any]


@lru_cache
def tables_digest() -> str:
    """Return the SHA-256 of all shipped tables, in the order of their names.

    Returns
    -------
    str
        64 hexadecimal digits; two plans with the same one rest on the same facts.
    """
    digest = sha256()
    folder = files("linewright.tables").joinpath("data")
    for entry in sorted(folder.iterdir(), key=lambda item: item.name):
        if entry.is_file():
            digest.update(entry.name.encode())
            digest.update(entry.read_bytes())
    return digest.hexdigest()


def record(plan: Plan, *, version: str) -> Json:
    """Write a plan down as JSON values.

    Parameters
    ----------
    plan : Plan
        What to record.
    version : str
        Version of linewright that made it.

    Returns
    -------
    dict
        Keys as in docs/reference/plan-json.md: SI with the unit in the key, nine
        figures, null for unknown, no time of day.
    """
    car = plan.car
    return {
        "linewright": version,
        "format": FORMAT,
        "kind": "plan",
        "document": {"name": car.name, "sha256": car.sha256},
        "tables": {"sha256": tables_digest()},
        "systems": [_system(s) for s in _by_id(car.systems)],
        "components": [_component(c) for c in _by_id(car.components)],
        "ports": [_port(p) for p in sorted(car.ports, key=lambda p: natural_key(p.id))],
        "lines": [_line(ln) for ln in _by_id(car.lines)],
        "runs": [_run(r) for r in sorted(plan.routes.runs, key=lambda r: natural_key(r.id))],
        "routes": record_routes.routes(plan.routes.courses, plan.routes.runs),
        "bends": record_bends.bends(schedules(car, plan.routes)),
        "joints": _joints(plan.joints),
        "parts": _parts(plan.takeoff),
        "either": _either(plan.takeoff),
        "hoses": _hoses(plan.takeoff),
        "cuts": _cuts(plan.takeoff),
        "holes": _holes(plan.takeoff),
        "findings": [_finding(f) for f in plan.checked.findings],
        "proof": [
            {
                "id": p.id,
                "system": p.system,
                "state": p.state,
                "by": p.by,
                "reason": p.reason,
                "function": p.is_function,
            }
            for p in sorted(plan.checked.proof, key=lambda p: (natural_key(p.id), p.state))
        ],
        "risks": [
            {
                "kind": r.kind,
                "about": list(r.about),
                "what": r.what,
                "remedy": r.remedy,
                "parts": r.parts,
            }
            for r in plan.checked.risks
        ],
        "steps": [
            {"code": s.code, "about": list(s.about), "text": s.text} for s in plan.checked.steps
        ],
        "assumed": [{"key": k, "value": v, "grade": g.value} for k, v, g in car.assumed],
    }


def dumps(value: Mapping[str, Any]) -> str:
    """Return a record as JSON text, with a line feed at its end.

    Parameters
    ----------
    value : Mapping
        What `record` gave.

    Returns
    -------
    str
        The same text for the same value on every run.
    """
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _number(value: float | None) -> float | None:
    if value is None:
        return None
    rounded = float(f"{value:.{FIGURES}g}")
    return rounded + 0.0  # no negative zero


def _figure(figure: Figure | None) -> Json | None:
    if figure is None:
        return None
    return {
        "value": _number(figure.value),
        "unit": figure.unit,
        "low": _number(figure.low),
        "high": _number(figure.high),
        "grade": figure.grade.value,
        "basis": figure.basis,
    }


def _by_id(values: Mapping[str, Any]) -> Iterable[Any]:
    return (values[key] for key in sorted(values, key=natural_key))


def _system(system: System) -> Json:
    return {
        "id": system.id,
        "medium": system.medium.value,
        "fluid": system.fluid,
        "hose": system.hose,
        "size": system.size,
        "letter": system.letter,
        "hottest": _figure(system.temperature),
        "highest_gauge": _figure(system.gauge_pressure),
    }


def _vector(vector: tuple[float, float, float] | None) -> list[float | None] | None:
    return None if vector is None else [_number(v) for v in vector]


def _component(component: Component) -> Json:
    place = component.place
    return {
        "id": component.id,
        "kind": component.kind,
        "name": component.name,
        "system": component.system,
        "on": component.on,
        "rides": component.rides,
        "material": component.material,
        "have": component.have,
        "size_m": _vector(component.size),
        "volume": _figure(component.volume),
        "place": place
        and {
            "anchor": place.anchor,
            "at_m": _vector(place.at),
            "yaw_rad": _number(place.yaw),
            "pitch_rad": _number(place.pitch),
            "roll_rad": _number(place.roll),
            "placed": place.placed.value,
        },
        "traits": dict(sorted(component.traits.items())),
    }


def _port(port: Port) -> Json:
    return {
        "id": port.id,
        "end": None if port.end.is_unknown else str(port.end),
        "typed": port.typed,
        "readings": [str(e) for e in port.readings],
        "gender_assumed": port.is_gender_assumed,
        "role": port.role and port.role.value,
        "medium": port.medium and port.medium.value,
        "known": port.known.value,
        "at_m": _vector(port.at),
        "at_car_m": _vector(port.at_car),
        "points": _vector(port.points),
        "points_car": _vector(port.points_car),
        "from_kind": port.from_kind,
    }


def _line(line: Line) -> Json:
    return {
        "id": line.id,
        "from": line.from_port,
        "to": line.to_port,
        "system": line.system,
        "size": line.size,
        "hose": line.hose,
        "construction": line.construction.value,
        "service": line.service,
        "tier": line.tier.value,
        "string": _figure(line.string),
        "crosses": line.crosses,
        "passes": list(line.passes),
    }


def _part(part: Part) -> Json:
    return {"code": part.code, "name": part.name, "ends": [str(e) for e in part.ends]}


def _chain(chain: Chain | None) -> Json | None:
    if chain is None:
        return None
    return {
        "parts": [_part(p) for p in chain.parts],
        "joints": chain.joint_count,
        "bore_m": _number(chain.bore),
        "stick_out_m": _number(chain.stick_out),
        "price_index": _number(chain.price_index),
        "reason": chain.reason,
        "codes": list(chain.codes),
    }


def _run(run: Run) -> Json:
    return {
        "id": run.id,
        "line": run.line,
        "system": run.system,
        "size": run.size,
        "hose": run.hose,
        "tier": run.tier.value,
        "by": run.by.value,
        "string": _figure(run.string),
        "course": _figure(run.course),
        "straight": _figure(run.straight),
        "buy": _figure(run.buy),
        "assembly": _figure(run.assembly),
        "cut": _figure(run.cut),
        "cut_note": run.cut_note,
        "slack": _number(run.slack),
        "clips": run.clips,
        "ends": [
            {
                "side": t.side,
                "port": t.port,
                "angle_deg": t.angle,
                "candidates_deg": list(t.angles),
                "routed": t.is_routed,
                "sureness": _number(t.sureness),
                "chain": _chain(t.chain),
                "next": [_chain(c) for c in t.alternatives],
            }
            for t in run.ends
        ],
    }


def _mated(joint_id: str, line: str | None, ports: tuple[str, ...], mated: Mated) -> Json:
    return {
        "id": joint_id,
        "line": line,
        "ports": list(ports),
        "near": str(mated.near),
        "far": str(mated.far),
        "seals": [
            {"what": s.what, "size": s.size, "count": s.count, "grade": s.grade.value}
            for s in mated.mating.seals
        ],
        "counted": mated.mating.is_counted,
    }


def _joints(joints: Joints) -> list[Json]:
    rows: list[Json] = []
    for end in joints.terminations:
        for number, mated in enumerate(end.chain.joints if end.chain else (), 1):
            rows.append(_mated(f"{end.hose}.{end.side}.{number}", end.line, (end.port,), mated))
    for fit in joints.fits:
        for number, mated in enumerate(fit.chain.joints if fit.chain else (), 1):
            rows.append(_mated(f"{fit.ports[0]}.{number}", fit.line, fit.ports, mated))
    return sorted(rows, key=lambda row: natural_key(row["id"]))


def _parts(takeoff: Takeoff) -> list[Json]:
    return [
        {
            "code": row.code,
            "name": row.name,
            "group": row.group,
            "need": row.need,
            "order": row.order,
            "unit": row.unit,
            "by_system": dict(row.by_system),
            "because": list(row.because),
            "price_index": _number(row.price_index),
            "availability": row.availability,
            "grade": row.grade.value,
            "certain": row.is_certain,
            "note": row.note,
        }
        for row in sorted(takeoff.rows, key=lambda r: natural_key(r.code))
    ]


def _either(takeoff: Takeoff) -> list[Json]:
    return [
        {
            "port": either.port,
            "readings": list(either.readings),
            "parts": [{"code": r.code, "name": r.name, "order": r.order} for r in either.rows],
            "price_index": _number(either.price_index),
        }
        for either in sorted(takeoff.either, key=lambda e: natural_key(e.port))
    ]


def _hoses(takeoff: Takeoff) -> list[Json]:
    return [
        {
            "code": row.code,
            "name": row.name,
            "hose": row.hose,
            "size": row.size,
            "pieces": [{"run": run, "buy_m": _number(length)} for run, length in row.pieces],
            "string_m": _number(row.string),
            "need_m": _number(row.need),
            "order_m": _number(row.order),
            "feet": row.feet,
            "metres": row.metres,
            "grade": row.grade.value,
        }
        for row in sorted(takeoff.hoses, key=lambda r: natural_key(r.code))
    ]


def _cuts(takeoff: Takeoff) -> list[Json]:
    return [
        {
            "run": row.run,
            "line": row.line,
            "hose": row.hose,
            "size": row.size,
            "assembly": _figure(row.assembly),
            "cut": _figure(row.cut),
            "note": row.note,
            "end_a": row.end_a,
            "end_b": row.end_b,
        }
        for row in sorted(takeoff.cuts, key=lambda r: natural_key(r.run))
    ]


def _holes(takeoff: Takeoff) -> list[Json]:
    return [
        {
            "id": row.id,
            "what": row.what,
            "where": row.where,
            "diameter": _figure(row.diameter),
            "gate": row.gate,
            "because": list(row.because),
            "note": row.note,
        }
        for row in sorted(takeoff.holes, key=lambda r: natural_key(r.id))
    ]


def _finding(finding: Finding) -> Json:
    overruled = finding.overruled
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
        "overruled": overruled
        and {"reason": overruled.reason, "by": overruled.by, "when": overruled.when},
    }


def document_name(car: Car) -> str:
    """Return a short name for files made from a car: lower case, hyphens.

    Parameters
    ----------
    car : Car
        The car; an empty name gives ``car``.

    Returns
    -------
    str
        Letters, digits and hyphens only.
    """
    word = "".join(c if c.isalnum() else "-" for c in car.name.lower())
    return "-".join(w for w in word.split("-") if w) or "car"
