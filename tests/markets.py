# SPDX-License-Identifier: Apache-2.0
"""Invented needs and price lists of any size, the same for the same seed."""

import random
from decimal import Decimal

from linewright.base.evidence import Grade
from linewright.base.money import Money
from linewright.order.model import Market, Offer, SoldAs, Supplier
from linewright.takeoff.model import HoseRow, Row, Takeoff


def part(
    code: str, order: int, *, need: int | None = None, system: str = "oil", **more: object
) -> Row:
    """A row of the parts list."""
    count = order if need is None else need
    return Row(
        code,
        code,
        "adaptors",
        count,
        order,
        "piece",
        ((system, count),),
        (f"{code}.A",),
        counts=(count,),
        **more,  # type: ignore[arg-type]
    )


def hose(code: str, lengths: list[float], *, over: float = 0.0, system: str = "oil") -> HoseRow:
    """A row of hose with pieces of these lengths [m]."""
    pieces = tuple((f"{code[-1].upper()}{i + 1:02}", length) for i, length in enumerate(lengths))
    need = sum(lengths)
    return HoseRow(
        code, code, code, "-6", pieces, need, need, need + over, 0, 0, Grade.PRACTICE,
        because=tuple(run for run, _ in pieces), systems=(system,) * len(pieces),
    )  # fmt: skip


def takeoff(rows: list[Row], hoses: list[HoseRow]) -> Takeoff:
    """A takeoff of these alone."""
    return Takeoff(tuple(rows), tuple(hoses), ())


def eur(text: str) -> Money:
    """An amount in euros."""
    return Money.of(text, "EUR")


def large(seed: int, parts: int = 150, suppliers: int = 8) -> tuple[Takeoff, Market]:
    """150 parts, 8 suppliers, 3 offers each, packs, thresholds, 20 pieces of hose in 4 sizes.

    The first supplier sells all of it, so that buying of one alone can be compared.
    """
    rng = random.Random(seed)
    names = [f"Shop {chr(65 + j)}" for j in range(suppliers)]
    terms = tuple(
        Supplier(
            name,
            "EUR",
            shipping=((Money("EUR", 0), Money("EUR", rng.randint(800, 2500))),),
            free_above=Money("EUR", rng.randrange(15000, 60000, 500)),
            smallest_order=Money("EUR", 5000) if rng.random() < 0.3 else None,
        )
        for name in names
    )
    level = {name: rng.uniform(0.85, 1.2) for name in names}
    level[names[0]] = 1.12  # sells everything, and not cheaply
    rows, offers = [], []
    for p in range(parts):
        code = f"part-{p:03}"
        small = rng.random() < 0.3
        count = rng.randint(2, 15) if small else rng.randint(1, 6)
        rows.append(part(code, count))
        base = rng.uniform(10, 90) if small else rng.uniform(150, 1500)
        for name in (names[0], *rng.sample(names[1:], 2)):
            pack = rng.choice((1, 2, 5, 10)) if small else rng.choice((1, 1, 1, 2))
            price = round(
                base * pack * (0.9 if pack > 1 else 1.0) * level[name] * rng.uniform(0.85, 1.15)
            )
            stock = rng.randint(count, 40) if rng.random() < 0.8 else None
            stock = None if name == names[0] else stock
            offers.append(
                Offer(
                    name,
                    f"{name[-1]}{p:03}",
                    code,
                    Money("EUR", max(price, 5)),
                    pack=pack,
                    stock=stock,
                    lead_days=rng.choice((2, 3, 5, 7, 14)),
                    part=code,
                )
            )
    hoses = []
    for h, size in enumerate(("hose a", "hose b", "hose c", "hose d")):
        lengths = [round(rng.uniform(0.25, 2.8), 3) for _ in range(5)]
        hoses.append(hose(size, lengths, over=max(1.0, 0.1 * sum(lengths))))
        metre = rng.uniform(900, 3000)
        for name, kind in zip(
            (*rng.sample(names[1:], 2), names[0]),
            (SoldAs.COIL, SoldAs.COIL, SoldAs.CUT),
            strict=True,
        ):
            length = (
                rng.choice((3.0, 5.0, 6.096, 10.0))
                if kind is SoldAs.COIL
                else rng.choice((0.3048, 1.0))
            )
            price = round(
                metre * length * level[name] * (0.8 if length > 4 else 1.0) * rng.uniform(0.9, 1.1)
            )
            offers.append(
                Offer(
                    name,
                    f"{name[-1]}H{h}",
                    size,
                    Money("EUR", price),
                    kind,
                    length=length,
                    lead_days=5,
                    part=size,
                )
            )
    return takeoff(rows, hoses), Market("EUR", terms, tuple(offers))


def small(seed: int) -> tuple[Takeoff, Market]:
    """A few parts and one hose: small enough to try every order there is."""
    rng = random.Random(seed)
    names = ["A", "B"] if rng.random() < 0.6 else ["A", "B", "C"]
    terms = []
    for name in names:
        steps = [(Money("EUR", 0), Money("EUR", rng.randint(0, 900)))]
        if rng.random() < 0.3:
            steps.append((Money("EUR", rng.randint(800, 2500)), Money("EUR", rng.randint(0, 1400))))
        terms.append(
            Supplier(
                name,
                "EUR",
                shipping=tuple(steps),
                free_above=Money("EUR", rng.randint(1500, 4000)) if rng.random() < 0.5 else None,
                smallest_order=Money("EUR", rng.randint(300, 1500)) if rng.random() < 0.3 else None,
                tax=Decimal("0.2") if rng.random() < 0.2 else Decimal(0),
            )
        )
    rows, offers = [], []
    for p in range(rng.randint(1, 2)):
        code = f"part-{p}"
        rows.append(part(code, rng.randint(1, 4)))
        for name in rng.sample(names, rng.randint(1, 2)):
            pack = rng.choice((1, 1, 2, 3))
            stock = rng.randint(1, 4) if rng.random() < 0.5 else None
            offers.append(
                Offer(
                    name,
                    f"{name}{p}",
                    code,
                    Money("EUR", rng.randint(300, 900) * pack),
                    pack=pack,
                    stock=stock,
                    lead_days=rng.choice((2, 9)),
                    part=code,
                )
            )
    hoses = []
    if rng.random() < 0.7:
        lengths = [round(rng.uniform(0.2, 1.9), 2) for _ in range(rng.randint(1, 4))]
        hoses.append(hose("hose h", lengths, over=rng.choice((0.0, 0.5))))
        for name in rng.sample(names, rng.randint(1, 2)):
            kind = rng.choice((SoldAs.COIL, SoldAs.COIL, SoldAs.CUT))
            length = rng.choice((1.0, 2.0, 3.0)) if kind is SoldAs.COIL else 1.0
            offers.append(
                Offer(
                    name,
                    f"{name}H",
                    "hose h",
                    Money("EUR", round(1500 * length * rng.uniform(0.7, 1.2))),
                    kind,
                    length=length,
                    stock=rng.randint(1, 5) if rng.random() < 0.6 else None,
                    lead_days=rng.choice((2, 9)),
                    part="hose h",
                )
            )
    return takeoff(rows, hoses), Market("EUR", tuple(terms), tuple(offers))
