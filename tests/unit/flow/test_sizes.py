# SPDX-License-Identifier: Apache-2.0
"""The size table of a line, and what limits a system."""

import pytest

from linewright.flow.limiting import closeness, next_size
from linewright.flow.margins import judged
from linewright.flow.model import Band, Verdict
from linewright.flow.run import run
from linewright.flow.waterway import waterway
from linewright.plan.flows import sizes_in
from linewright.plan.make import make
from tests.flowing import flows, laid, margin, system_b


def test_the_suction_of_the_demo_car_is_met_from_the_next_size_on() -> None:
    rows = {r.size: r for r in flows("juniper").sizes if r.line == "O01"}

    assert list(rows) == ["-10", "-12", "-16", "-20"]  # no ends of -24 are sold
    assert [size for size, row in rows.items() if row.is_chosen] == ["-16"]
    drops = [row.drop.value for row in rows.values() if row.drop is not None]
    assert drops == sorted(drops, reverse=True)
    assert rows["-12"].why == "the pump cannot draw that through it" or (
        "misses 0.85 bar absolute" in rows["-12"].why
    )
    assert rows["-20"].why.endswith("meets 0.85 bar absolute")


def test_the_size_in_use_is_reckoned_as_the_state_has_it() -> None:
    found = flows("club-roadster")
    state = found.state("oil", "full-power")

    assert state is not None
    for row in found.sizes:
        if row.is_chosen:
            line = state.lines[row.line]
            assert row.drop is not None
            assert row.drop.value == pytest.approx(line.drop.value, rel=1e-3)
            assert row.velocity == pytest.approx(line.velocity, rel=1e-3)


def test_what_limits_a_return_is_its_longest_line_and_the_next_size_gives_less() -> None:
    tube = ('"PTFE full-bore conductive"', '"PTFE tube-bore conductive"')
    found = system_b(tube)
    state = found.state("fuel", "hot-idle")

    assert state is not None
    limits = state.limiting
    assert limits is not None
    assert (limits.where, limits.margin) == ("F07", "return pressure")
    assert (limits.size, limits.next_size) == ("-6", "-8")
    assert limits.share > 0.5
    assert limits.value is not None
    assert limits.next_value is not None
    assert limits.next_value < limits.value


def test_a_line_in_another_size_gives_what_the_car_gives_when_it_has_that_size() -> None:
    tube = ('"PTFE full-bore conductive"', '"PTFE tube-bore conductive"')
    told = system_b(tube).state("fuel", "hot-idle")
    larger = ('F07 = { from = "RG.return",', 'F07 = { size = "-8", from = "RG.return",')
    typed = margin(system_b(tube, larger), "fuel", "hot-idle", "return pressure")

    assert told is not None
    assert told.limiting is not None
    # The adaptor at the regulator becomes another part, which the estimate does not know.
    assert told.limiting.next_value == pytest.approx(typed.value.value, rel=0.1)


def test_only_the_conditions_that_are_asked_for_are_reckoned() -> None:
    found = run(*laid("club-roadster"), ["hot-idle"])

    assert [s.condition for s in found.states] == ["hot-idle"]


def test_a_margin_is_as_close_as_its_share_of_the_limit() -> None:
    state = flows("juniper").state("oil", "full-power")

    assert state is not None
    inlet = next(m for m in state.margins if m.what == "pump inlet")
    assert closeness(inlet) == pytest.approx((inlet.value.value - 0.85e5) / 0.85e5)


def test_a_greatest_limit_is_met_only_below_it() -> None:
    limit = margin(flows("juniper"), "fuel", "hot-idle", "return pressure").limit

    assert judged(Band(15e3, 10e3, 19e3), limit, False) is Verdict.MET
    assert judged(Band(25e3, 21e3, 30e3), limit, False) is Verdict.NOT_MET
    assert judged(Band(20e3, 15e3, 30e3), limit, False) is Verdict.UNSURE


def test_the_largest_hose_has_no_next_size() -> None:
    assert next_size("-32") == ""


def test_a_size_has_an_index_price_of_its_hose_and_ends_that_grows_with_it() -> None:
    rows = [r for r in flows("club-roadster").sizes if r.line == "L2"]
    prices = {r.size: r.price_index for r in rows}

    # Two straight ends at 1.7, and 0.43 m of hose at 2.8 a metre (bands of the trade, from memory).
    assert prices["-10"] == pytest.approx(2 * 1.7 + 2.8 * _hose("L2"), rel=1e-6)
    known = [price for price in prices.values() if price is not None]
    assert len(known) == len(rows)
    assert known == sorted(known)


def _hose(line: str) -> float:
    car, _, routes = laid("club-roadster")
    (run_,) = (r for r in routes.runs if r.line == line)
    way = waterway(car, run_)
    assert way is not None
    return way.hose.length


def test_a_size_table_of_one_condition_is_of_that_condition() -> None:
    plan = make(laid("club-roadster")[0], in_space=False)
    for condition in ("full-power", "cold-start"):
        rows = sizes_in(plan, condition)

        assert rows
        assert {row.condition for row in rows} == {condition}
