# SPDX-License-Identifier: Apache-2.0
"""What is had when a chance is reckoned: bought, owned, standing in, found elsewhere."""

from functools import cache

import pytest

from linewright.base.money import Money
from linewright.car.read import read
from linewright.order.choose import choose
from linewright.order.model import Market, Offcut, Offer, Shelf, ShelfItem, SoldAs, Supplier
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.studies.case import case
from tests.expected import ROOT

_HOSE = "hose -10 rubber braided"


@cache
def _plan() -> Plan:
    return make(read(ROOT / "examples" / "club-roadster" / "car.toml"), in_space=False)


def _market(without: str = "") -> Market:
    """One supplier of everything, hose in coils of 3 m; one part may be missing."""
    offers = [
        Offer("hall", row.code, row.name, Money("EUR", 500), part=row.code, stock=99, lead_days=3)
        for row in _plan().takeoff.rows
        if row.order and row.code != without
    ]
    offers.append(
        Offer(
            "hall",
            "H",
            "hose",
            Money("EUR", 4000),
            SoldAs.COIL,
            length=3.0,
            part=_HOSE,
            stock=9,
            lead_days=3,
        )
    )
    return Market("EUR", (Supplier("hall", "EUR"),), tuple(offers))


def test_what_is_bought_covers_what_the_plan_takes() -> None:
    market = _market()
    found = case(_plan(), choose(_plan().takeoff, market), market)

    assert all(found.have.get(code, 0) >= need for code, need in found.need.items())
    assert found.elsewhere == ()


def test_what_nobody_offers_is_reckoned_as_found_elsewhere_and_named() -> None:
    missing = "hose-end-10-rubber-45-fixed"
    market = _market(without=missing)
    found = case(_plan(), choose(_plan().takeoff, market), market)

    assert found.elsewhere == ("hose end -10 rubber, 45°, fixed",)
    assert found.have[missing] == found.need[missing]
    assert missing not in {unit.code for unit in found.units}


def test_hose_to_spare_is_had_whether_bought_or_owned() -> None:
    market = _market()
    shelf = Shelf(offcuts=(Offcut("H1", _HOSE, 0.5),))
    order = choose(_plan().takeoff, market, shelf)
    found = case(_plan(), order, market, shelf=shelf)
    (stock,) = found.stocks
    bought = sum(line.gives for box in order.boxes for line in box.lines if line.part == _HOSE)

    assert sum(stock.lengths) == pytest.approx(bought + 0.5)
    assert 0.5 in [pytest.approx(length) for length in stock.lengths]


def test_what_stands_in_from_the_shelf_counts_for_what_asked_for_it() -> None:
    asked = "hose-end-10-rubber-90-fixed"
    shelf = Shelf(items=(ShelfItem("B2", "hose-end-10-rubber-90-full-swivel", 1),))
    market = _market()
    order = choose(_plan().takeoff, market, shelf)
    found = case(_plan(), order, market, shelf=shelf)

    assert any(use.stands_for == asked for use in order.from_shelf)
    assert found.have[asked] >= found.need[asked]


def test_without_offers_the_plans_own_list_is_taken_as_bought_and_prices_are_indices() -> None:
    found = case(_plan())

    assert found.have == {row.code: row.order for row in _plan().takeoff.rows}
    prices = {unit.code: unit.price for unit in found.units}
    rows = {row.code: row.price_index for row in _plan().takeoff.rows}
    assert prices["hose-end-10-rubber-90-fixed"] == rows["hose-end-10-rubber-90-fixed"]
    assert prices[_HOSE] == 1.0
