# SPDX-License-Identifier: Apache-2.0
"""How sure an order is, as JSON values: chances as shares, money as text."""

from collections.abc import Iterable

from linewright.base.money import Money
from linewright.car.model import Car
from linewright.plan.record_order import head, price
from linewright.plan.shapes import (
    COUNT,
    MAYBE_NUMBER,
    MONEY,
    NUMBER,
    SHARE,
    TEXT,
    YES_NO,
    Json,
    headed,
    keyed,
    many,
    maybe,
)
from linewright.studies.confidence import Chance, Confidence, Settling
from linewright.studies.model import Kind
from linewright.studies.spares import Curve, Spares

#: Version of the meaning of the keys; a new key keeps it, a changed one raises it.
FORMAT = 1


def record_confidence(
    car: Car,
    found: Confidence,
    curve: Curve,
    wanted: Spares | None,
    currency: str,
    *,
    version: str,
) -> Json:
    """Write down how sure an order is.

    Parameters
    ----------
    car : Car
        The car that it is for.
    found : Confidence
        How sure it is.
    curve : Curve
        What it costs to be surer.
    wanted : Spares or None
        Spares for the level that was asked for.
    currency : str
        Three letters, or nothing where prices are indices.
    version : str
        Version of linewright that made it.

    Returns
    -------
    dict
        Keys as in docs/reference/confidence-json.md; null where there is none.
    """
    return {
        **head(car, "confidence", FORMAT, version),
        "currency": currency or None,
        "chance": _chance(found.chance),
        "harsh": _chance(found.harsh),
        "mild": _chance(found.mild),
        "known": _chance(found.known),
        "settled": _chance(found.settled),
        "unknown": list(found.unknown),
        "elsewhere": list(found.elsewhere),
        "by_kind": [{"kind": kind.value, "share": share} for kind, share in found.by_kind],
        "settle": _settlings(found.settle),
        "path": _settlings(found.path),
        "curve": [_spares(point, currency) for point in curve.points],
        "most": _chance(curve.most),
        "spares": wanted and _spares(wanted, currency),
        "builds": found.builds,
        "seed": found.seed,
    }


def _chance(chance: Chance) -> Json:
    return {"share": chance.share, "error": round(chance.error, 9)}


def _settlings(settlings: Iterable[Settling]) -> list[Json]:
    return [
        {
            "kind": settling.kind.value,
            "about": list(settling.about),
            "do": settling.how,
            "share": round(settling.share, 9),
            "after": _chance(settling.after),
        }
        for settling in settlings
    ]


def _spares(point: Spares, currency: str) -> Json:
    def money(amount: float) -> Json | None:
        return price(Money(currency, round(amount))) if currency else None

    def index(amount: float) -> float | None:
        return None if currency else round(amount, 9)

    return {
        "level": round(point.level, 9),
        "parts": [{"code": code, "units": count} for code, count in point.units],
        "price": money(point.price),
        "net": money(point.net),
        "price_index": index(point.price),
        "net_index": index(point.net),
        "chance": _chance(point.chance),
        "gap": round(point.gap, 9),
        "reached": point.is_reached,
    }


def schema_confidence() -> Json:
    """Return the schema of what `record_confidence` writes.

    Returns
    -------
    dict
        JSON Schema, draft 2020-12; keys that it does not name do not occur.
    """
    chance = keyed(share=SHARE, error=NUMBER)
    kind: Json = {"enum": [kind.value for kind in Kind]}
    settling = keyed(kind=kind, about=many(TEXT), do=TEXT, share=SHARE, after=chance)
    spares = keyed(
        level=SHARE,
        parts=many(keyed(code=TEXT, units=COUNT)),
        price=maybe(MONEY),
        net=maybe(MONEY),
        price_index=MAYBE_NUMBER,
        net_index=MAYBE_NUMBER,
        chance=chance,
        gap=NUMBER,
        reached=YES_NO,
    )
    return headed(
        "confidence",
        FORMAT,
        "How sure an order is, by linewright",
        currency={"type": ["string", "null"]},
        **dict.fromkeys(("chance", "harsh", "mild", "known", "settled", "most"), chance),
        unknown=many(TEXT),
        elsewhere=many(TEXT),
        by_kind=many(keyed(kind=kind, share=SHARE)),
        settle=many(settling),
        path=many(settling),
        curve=many(spares),
        spares=maybe(spares),
        builds=COUNT,
        seed=COUNT,
    )
