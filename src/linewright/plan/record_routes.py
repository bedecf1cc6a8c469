# SPDX-License-Identifier: Apache-2.0
"""Courses of hoses as JSON values: what a plan's record holds under ``routes``."""

from collections.abc import Iterable, Sequence
from typing import Any

from linewright.base.ids import natural_key
from linewright.routes.model import Run
from linewright.routes.route import BandRow, Clearance, Route
from linewright.space.clock import mirror, said
from linewright.space.model import Setting
from linewright.space.path import bends

Json = dict[str, Any]

#: Significant figures that are written of any number.
_FIGURES = 9

#: Below this a length or a part of an arrow is what doubles lose, not a place. [m], [-]
_NOUGHT = 1e-12


def number(value: float | None) -> float | None:
    """A number as the record has it: nine significant figures, nought for what doubles lose.

    Parameters
    ----------
    value : float or None
        What to write.

    Returns
    -------
    float or None
        None for None.

    Examples
    --------
    >>> number(1 / 3), number(1e-17), number(None)
    (0.333333333, 0.0, None)
    """
    if value is None:
        return None
    rounded = float(f"{value:.{_FIGURES}g}")
    return 0.0 if abs(rounded) < _NOUGHT else rounded


def _vector(vector: Sequence[float]) -> list[float | None]:
    return [number(v) for v in vector]


def routes(found: Iterable[Route], runs: Iterable[Run] = ()) -> list[Json]:
    """Write courses down as JSON values.

    Parameters
    ----------
    found : iterable of Route
        Courses of hoses.
    runs : iterable of Run
        The lengths of the same hoses: what is cut, and with what slack.

    Returns
    -------
    list of dict
        By id; keys as in docs/reference/plan-json.md, SI with the unit in the key. A corner
        of the path is rounded by the radius of the same place in ``radii_m``.
    """
    lengths = {run.id: run for run in runs}
    return [
        _route(route, lengths.get(route.id))
        for route in sorted(found, key=lambda r: natural_key(r.id))
    ]


def _route(route: Route, run: Run | None) -> Json:
    cut = run.cut if run is not None else None
    return {
        "id": route.id,
        "line": run.line if run is not None else None,
        "corners_m": [_vector(c) for c in route.path.corners],
        "radii_m": [number(r) for r in route.path.radii],
        "length_m": number(route.length),
        "height_m": number(route.height),
        "slack": number(run.slack) if run is not None else None,
        "cut_m": number(cut.value) if cut is not None else None,
        **_clock(route.clock_deg),
        "ends": [_end("A", route.a), _end("B", route.b)],
        "bends": [
            {
                "straight_m": number(bend.straight),
                "rotation_rad": number(bend.rotation),
                "angle_rad": number(bend.angle),
            }
            for bend in bends(route.path)
        ],
        "clearance": _clearance(route.clearance),
        "band": [_row(row) for row in route.band],
        "sureness": number(route.sureness),
        "sureness_draws": route.draws,
        "sureness_seed": route.seed,
        "to_be_sure": route.to_be_sure,
        "clips_m": [_vector(c) for c in route.clips],
        "holes": [{"panel": panel, "at_m": _vector(at)} for panel, at in route.holes],
        "highs_m": [_vector(p) for p in route.highs],
        "lows_m": [_vector(p) for p in route.lows],
        "follows": list(route.follows),
    }


def _clock(clock_deg: float | None) -> Json:
    """The clock angle, how it is counted, and what one gets by counting the wrong way."""
    if clock_deg is None:
        return {"clock_deg": None, "clock_words": "", "wrong_clock_deg": None}
    other = mirror(clock_deg)
    is_same = abs(other - clock_deg) < _NOUGHT
    return {
        "clock_deg": number(clock_deg),
        "clock_words": said(clock_deg),
        "wrong_clock_deg": None if is_same else number(other),
    }


def _end(side: str, setting: Setting) -> Json:
    shape = setting.shape
    return {
        "side": side,
        "angle_deg": shape.angle,
        "turn_rad": number(setting.turn),
        "turns": shape.turns,
        "collar_m": _vector(setting.collar),
        "n": _vector(setting.n),
        "bends_to": _vector(setting.side),
        "reach_m": number(shape.reach),
        "drop_m": number(shape.drop),
        "stick_out_m": number(shape.stick_out),
    }


def _clearance(clearance: Clearance | None) -> Json | None:
    if clearance is None:
        return None
    return {
        "gap_m": number(clearance.gap),
        "from": clearance.from_what,
        "at_m": _vector(clearance.at),
    }


def _row(row: BandRow) -> Json:
    return {
        "angle_a_deg": row.angle_a,
        "angle_b_deg": row.angle_b,
        "works": row.works,
        "length_m": number(row.length),
        "height_m": number(row.height),
        "bends": row.bends,
        "price_index": number(row.price_index),
        "cost": number(row.cost),
        "sureness": number(row.sureness),
        "why_not": row.why_not,
    }


def schema() -> Json:
    """Return the JSON Schema of one item of ``routes``.

    Returns
    -------
    dict
        Keys that it does not name do not occur.
    """
    text: Json = {"type": "string"}
    figure: Json = {"type": "number"}
    maybe: Json = {"type": ["number", "null"]}
    vector: Json = {"type": "array", "items": figure, "minItems": 3, "maxItems": 3}
    clock: Json = {"type": ["number", "null"], "minimum": 0, "exclusiveMaximum": 360}
    angle: Json = {"type": "integer", "minimum": 0, "maximum": 180}

    def every(item: Json) -> Json:
        return {"type": "array", "items": item}

    def record(**keys: Json) -> Json:
        return {
            "type": "object",
            "properties": keys,
            "required": sorted(keys),
            "additionalProperties": False,
        }

    clearance = record(**{"from": text}, gap_m=figure, at_m=vector)
    return record(
        id=text,
        corners_m=every(vector),
        radii_m=every(figure),
        length_m=figure,
        height_m=figure,
        line={"type": ["string", "null"]},
        slack=maybe,
        cut_m=maybe,
        clock_deg=clock,
        clock_words=text,
        wrong_clock_deg=clock,
        ends=every(
            record(
                side={"enum": ["A", "B"]},
                angle_deg=angle,
                turn_rad=figure,
                turns=text,
                collar_m=vector,
                n=vector,
                bends_to=vector,
                reach_m=figure,
                drop_m=figure,
                stick_out_m=figure,
            )
        ),
        bends=every(record(straight_m=figure, rotation_rad=figure, angle_rad=figure)),
        clearance={"anyOf": [clearance, {"type": "null"}]},
        band=every(
            record(
                angle_a_deg=angle,
                angle_b_deg=angle,
                works={"type": "boolean"},
                length_m=maybe,
                height_m=maybe,
                bends={"type": ["integer", "null"], "minimum": 0},
                price_index=figure,
                cost=maybe,
                sureness=maybe,
                why_not=text,
            )
        ),
        sureness=maybe,
        sureness_draws={"type": "integer", "minimum": 0},
        sureness_seed={"type": "integer", "minimum": 0},
        to_be_sure=text,
        clips_m=every(vector),
        holes=every(record(panel=text, at_m=vector)),
        highs_m=every(vector),
        lows_m=every(vector),
        follows=every(text),
    )
