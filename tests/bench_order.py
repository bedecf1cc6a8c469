# SPDX-License-Identifier: Apache-2.0
"""Figures of the order: 20 seeded cases of 150 parts, 8 suppliers and 20 pieces of hose."""

import statistics
import sys
import time

from linewright.catalogue.stock import Catalogue
from linewright.order.choose import choose
from linewright.order.model import Shelf
from linewright.order.verify import verify
from linewright.order.wishes import Wishes
from tests.markets import large
from tests.plain_rules import plain_rules


def main(cases: int = 20) -> None:
    """Print times, proofs, and what is saved against plain rules."""
    times, proved = [], 0
    saved: dict[str, list[float]] = {}
    never = 0
    for seed in range(cases):
        what, of = large(seed)
        wishes = Wishes(seconds=60)
        start = time.perf_counter()
        order = choose(what, of, Shelf(), wishes, Catalogue(()), is_compared=False)
        times.append(time.perf_counter() - start)
        assert verify(order, what, of, Shelf(), wishes) == ()
        assert order.proof is not None
        assert order.total is not None
        proved += order.proof.is_optimal
        for rule, cost in plain_rules(what, of).items():
            if cost is None:
                continue
            never += cost < order.total.minor
            saved.setdefault(rule, []).append(1 - order.total.minor / cost)
    print(
        f"order of 150 parts, 8 suppliers, 20 pieces: median {statistics.median(times):.1f} s, "
        f"longest {max(times):.1f} s; {proved} of {cases} proved; asked: under 10 s"
    )
    for rule in ("cheapest offer each", "one supplier", "greedy"):
        shares = saved.get(rule, [])
        if shares:
            print(
                f"  saved against {rule}: {100 * statistics.median(shares):.1f} % in the median, "
                f"{100 * min(shares):.1f} to {100 * max(shares):.1f} % ({len(shares)} cases)"
            )
        else:
            print(f"  {rule}: covers none of the cases")
    print(f"  dearer than a plain rule: {never} times")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
