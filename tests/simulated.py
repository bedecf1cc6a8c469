# SPDX-License-Identifier: Apache-2.0
"""Builds simulated one by one, in plain Python, without the estimator's code or draws."""

import random

from linewright.studies.model import Case, Cause


def _way(cause: Cause, drawn: float) -> int:
    left = drawn - (1.0 - sum(o.share for o in cause.outcomes))
    if left < 0:
        return 0
    for number, outcome in enumerate(cause.outcomes, 1):
        if left < outcome.share:
            return number
        left -= outcome.share
    return len(cause.outcomes)


def is_enough(case: Case, rng: random.Random, errors: float = 1.0) -> bool:
    """Build one car; tell whether all that it took was there."""
    need = dict(case.need)
    tied: dict[str, float] = {}
    for cause in case.causes:
        drawn = tied.setdefault(cause.tie, rng.random()) if cause.tie else rng.random()
        if errors != 1.0:  # go wrong more often by drawing nearer to going wrong
            drawn = 1.0 - (1.0 - drawn) / errors
        way = _way(cause, drawn)
        if way:
            outcome = cause.outcomes[way - 1]
            if not outcome.is_coverable:
                return False
            for code, more in outcome.change:
                need[code] = need.get(code, 0) + more
    for loss in case.losses:
        lost = sum(rng.random() < loss.share * errors for _ in range(loss.count))
        need[loss.code] = need.get(loss.code, 0) + lost
    if any(count > case.have.get(code, 0) for code, count in need.items()):
        return False
    tape = rng.gauss(0, 1)
    for stock in case.stocks:
        pieces = []
        for piece in stock.pieces:
            error = errors * (piece.sigma * rng.gauss(0, 1) + piece.common * tape)
            pieces.append(piece.length * max(1 + error - piece.slack, 1 - piece.slack))
        free = list(stock.lengths)
        for length in sorted(pieces, reverse=True):
            fitting = [f for f in free if f >= length]
            if not fitting:
                return False
            free.remove(min(fitting))
            free.append(min(fitting) - length - stock.kerf)
    return True


def enough(case: Case, builds: int, seed: int, errors: float = 1.0) -> float:
    """Share of builds for which nothing further had to be ordered. [-]"""
    rng = random.Random(seed)
    return sum(is_enough(case, rng, errors) for _ in range(builds)) / builds


def invented(seed: int, scale: float = 1.0) -> Case:
    """Make up a case: ports, angles, losses and hose as a car of 30 hoses may have them."""
    from linewright.studies.model import Kind, Loss, Outcome, Stock, Stretch, Unit

    rng = random.Random(seed)
    need: dict[str, int] = {f"part-{i}": rng.randint(1, 6) for i in range(40)}
    have = {code: n + (rng.random() < 0.3) for code, n in need.items()}
    codes = sorted(need)
    causes = []
    for i in range(45):
        kind = rng.choice([Kind.PORT, Kind.ANGLE, Kind.ROOM])
        share = scale * rng.uniform(0.002, 0.05)
        gone, new = rng.choice(codes), rng.choice([*codes, f"other-{rng.randint(0, 12)}"])
        outcomes = [Outcome(share * 0.7, ((gone, -1), (new, 1)), "otherwise")]
        if rng.random() < 0.4:
            more = f"other-{rng.randint(0, 12)}"
            outcomes.append(Outcome(share * 0.3, ((more, rng.randint(1, 2)),), "otherwise still"))
        causes.append(Cause(kind, f"port {i}", tuple(outcomes), settle=f"measure port {i}"))
    causes.append(Cause(Kind.HOSE, "line", (Outcome(0.01 * scale, (), "all wrong", False),)))
    losses = [Loss(code, need[code], 0.004 * scale) for code in codes[:10]]
    pieces = tuple(Stretch(f"L{i}", rng.uniform(0.3, 1.4), 0.03, 0.01, 0.04) for i in range(8))
    total = sum(p.length for p in pieces) * 1.02
    stock = Stock("hose -10", (total * 0.6, total * 0.44), pieces)
    units = [Unit(c, c, rng.randint(200, 4000)) for c in codes]
    units += [Unit(f"other-{i}", f"other {i}", rng.randint(200, 4000)) for i in range(13)]
    units.append(Unit("hose -10", "hose -10", 1500, length=1.0))
    return Case(need, have, tuple(causes), tuple(losses), (stock,), tuple(units), seed=seed)
