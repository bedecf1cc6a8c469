# SPDX-License-Identifier: Apache-2.0
"""Figures of how sure one order is: the demo car's curve, and the stated chance against builds."""

import time

from linewright.car.read import read
from linewright.plan.make import make
from linewright.studies.case import case
from linewright.studies.confidence import confidence
from linewright.studies.spares import curve, spares, with_spares
from tests.expected import ROOT
from tests.simulated import enough, invented


def main() -> None:
    """Print the time of the demo car's curve, and how well stated chances are kept."""
    plan = make(read(ROOT / "examples" / "juniper" / "car.toml"))
    start = time.perf_counter()
    gathered = case(plan)
    confidence(gathered)
    points = curve(gathered.measured)
    took = time.perf_counter() - start
    print(
        f"confidence of the demo car with its curve of {len(points.points)} points: "
        f"{took:.1f} s; asked: under 30 s"
    )
    made_up = invented(11, scale=0.6)
    for level in (0.6, 0.8, 0.9, 0.95):
        chosen = spares(made_up, level)
        kept = enough(with_spares(made_up, dict(chosen.units)), 20_000, seed=97)
        print(
            f"  wanted {level:.0%}: stated {chosen.chance.share:.1%}, "
            f"of 20,000 builds simulated apart {kept:.1%}"
        )


if __name__ == "__main__":
    main()
