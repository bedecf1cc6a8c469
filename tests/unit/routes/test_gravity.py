# SPDX-License-Identifier: Apache-2.0
"""Hoses that have to fall, rise or trap nothing: held against `proofs`, which share no code."""

from dataclasses import replace
from math import radians, sin

import numpy as np
import pytest

from linewright.base.vectors import ahead, dot, unit
from linewright.car.model import Car, Construction, Line, Medium
from linewright.proofs.course import course, dip, least, pockets
from linewright.routes.gravity import rule_of
from linewright.routes.search import Outcome, Side, Task, lay_line
from linewright.routes.shapes import end_shapes
from linewright.routes.tasks import Kind, Rule
from linewright.space.bodies import Solid
from linewright.space.model import Frame, Limits
from linewright.space.obstacles import Scene

SHAPES = end_shapes("rubber", "-8")
LIMITS = Limits(0.0196, 0.141, 0.0392, 0.010)
UP = (0.0, 0.0, 1.0)
DOWN = (0.0, 0.0, -1.0)
FALLS = Rule(Kind.FALLS, 1.0, sin(radians(15.0)))
RISES = Rule(Kind.RISES, 1.0, 0.0045)
NO_HUMP = Rule(Kind.NO_TRAP, 1.0, 0.0045)
NO_SAG = Rule(Kind.NO_TRAP, -1.0, 0.0045)


def laid(a: Frame, b: Frame, rule: Rule | None, *bodies: Solid) -> Outcome:
    low, high = zip(*((min(p), max(p)) for p in zip(a.origin, b.origin, strict=True)), strict=True)
    box = ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    sides = Side(a, SHAPES), Side(b, SHAPES)
    return lay_line(Task("D01", *sides, LIMITS, Scene.build(bodies), box, gravity=rule))


def frame(random: np.random.Generator, at: tuple[float, float, float], way: float) -> Frame:
    x, y, z = (float(v) for v in random.normal(size=3))
    out = unit((x, y, way * (0.7 + abs(z))))
    side = (0.0, 0.0, 1.0)
    return Frame(at, out, unit(ahead(side, out, -dot(side, out))))


def placed(seed: int) -> tuple[Frame, Frame]:
    """A port that looks downward, and one that looks up 0.5 m under and 0.3 to 0.6 m beside it."""
    random = np.random.default_rng(seed)
    far, turn = float(random.uniform(0.3, 0.6)), float(random.uniform(-3.0, 3.0))
    at = (far * float(np.cos(turn)), far * float(np.sin(turn)), -0.5)
    return frame(random, (0.0, 0.0, 0.0), -1.0), frame(random, at, 1.0)


@pytest.mark.parametrize("seed", range(12))
def test_a_drain_falls_all_the_way_or_pays_as_one_that_does_not(seed: int) -> None:
    a, b = placed(seed)
    plain, outcome = laid(a, b, None), laid(a, b, FALLS)
    assert outcome.route is not None
    assert plain.route is not None
    slope = least(course(outcome.route), DOWN).rise
    before = least(course(plain.route), DOWN).rise

    assert (outcome.cost < 1000.0) == (slope >= radians(15.0) - radians(0.1))
    assert outcome.cost < 1000.0 or before < radians(15.0)


def test_most_such_drains_fall_though_few_would_by_themselves() -> None:
    both = [(laid(*placed(seed), None), laid(*placed(seed), FALLS)) for seed in range(12)]
    kept = [
        sum(o.route is not None and least(course(o.route), DOWN).rise > radians(14.9) for o in each)
        for each in zip(*both, strict=True)
    ]

    assert kept[1] > kept[0]
    assert kept[1] >= 4


@pytest.mark.parametrize("seed", range(8))
def test_what_the_search_calls_trapped_is_what_the_proof_calls_trapped(seed: int) -> None:
    a, b = placed(seed)
    for rule, up in ((NO_HUMP, UP), (NO_SAG, DOWN)):
        outcome = laid(a, b, rule)
        assert outcome.route is not None

        # Half a millimetre is kept in hand, and as much again lies between the two.
        deep = [p.depth for p in pockets(course(outcome.route), up, 0.0055)]
        assert not (deep and outcome.cost < 1000.0), (rule, deep)
        shallow = [p.depth for p in pockets(course(outcome.route), up, 0.0035)]
        assert not (outcome.cost >= 1000.0 and not shallow), (rule, outcome.cost)


def test_a_bleed_rises_round_a_block_that_hangs_in_its_way() -> None:
    a = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), UP)
    b = Frame((1.0, 0.0, 0.5), (-1.0, 0.0, 0.0), UP)
    block = Solid("block", *_box((0.5, 0.0, 0.35), (0.1, 0.5, 0.5)))
    outcome = laid(a, b, RISES, block)
    assert outcome.route is not None

    assert outcome.cost < 1000.0
    assert dip(course(outcome.route), UP).depth <= 0.005


def _box(at, size):  # type: ignore[no-untyped-def]
    from linewright.base.frames import rotation
    from linewright.car.model import Shape

    return Shape.BOX, at, rotation(0.0, 0.0, 0.0), size


def test_pairs_of_ends_that_go_against_gravity_say_so_in_the_band() -> None:
    a = Frame((0.0, 0.0, 0.0), DOWN, (1.0, 0.0, 0.0))
    b = Frame((0.3, 0.0, -0.6), unit((-0.7, 0.0, 0.7)), unit((0.7, 0.0, 0.7)))
    outcome = laid(a, b, FALLS)
    assert outcome.route is not None

    assert outcome.cost < 1000.0
    assert "no course of it falls enough all the way" in {r.why_not for r in outcome.band}
    assert all(r.cost is None or r.cost < 1000.0 for r in outcome.band)


def line(service: str, medium: Medium = Medium.OIL) -> Line:
    made = Line("X01", "a.p", "b.p", None, medium, "-8", "rubber braided", Construction.HOSE)
    return replace(made, service=service)


def test_services_bring_their_rules() -> None:
    car = Car("x")

    for service, rule in (
        ("drain", FALLS),
        ("bleed", RISES),
        ("vent", NO_SAG),
        ("suction", NO_HUMP),
    ):
        found = rule_of(car, line(service))
        assert found is not None
        assert (found.kind, found.sign) == (rule.kind, rule.sign)
        assert found.limit == pytest.approx(rule.limit)
    assert rule_of(car, line("suction", Medium.AIR)) is None
    assert rule_of(car, line("pressure")) is None
