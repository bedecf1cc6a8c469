# SPDX-License-Identifier: Apache-2.0
"""Warming and cooling of lumped masses, exactly in time: warm-up, soak, reservoirs."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from linewright.base.errors import FlowError


@dataclass(frozen=True, slots=True)
class Mass:
    """A lump: ``capacity`` [J/K], ``temperature`` at the start [K], ``heat`` put in [W]."""

    id: str
    capacity: float
    temperature: float
    heat: float = 0.0


@dataclass(frozen=True, slots=True)
class Tie:
    """A heat conductance [W/K] between two masses, or a mass and a fixed temperature ``b``."""

    a: str
    b: str
    conductance: float


@dataclass(frozen=True, slots=True)
class Course:
    """Temperatures over time: ``temperatures`` [K] a row a time [s], a column a mass.

    ``given`` is the heat that went out to each fixed temperature up to each time [J].
    """

    times: NDArray[np.float64]
    ids: tuple[str, ...]
    temperatures: NDArray[np.float64]
    given: Mapping[str, NDArray[np.float64]]

    def of(self, mass: str) -> NDArray[np.float64]:
        """Return the temperatures of one mass [K]."""
        return np.asarray(self.temperatures[:, self.ids.index(mass)], dtype=np.float64)


def course(
    masses: Sequence[Mass],
    ties: Sequence[Tie],
    fixed: Mapping[str, float],
    times: Sequence[float],
) -> Course:
    """Follow lumps of heat through a time in which heat and conductances stay as they are.

    Parameters
    ----------
    masses : Sequence of Mass
        One at least.
    ties : Sequence of Tie
        Between masses, or of a mass with something fixed.
    fixed : Mapping of str to float
        Temperatures that do not change, as that of the air. [K]
    times : Sequence of float
        At which to look, from the start on. [s]

    Returns
    -------
    Course
        Exact: by the modes of the network, without steps in time.

    Raises
    ------
    FlowError
        If a capacity is none, or a tie leads nowhere.

    Examples
    --------
    A lump in air loses 63 % of its difference in one time constant:

    >>> cooling = course([Mass("block", 1000.0, 400.0)], [Tie("block", "air", 10.0)],
    ...                  {"air": 300.0}, [100.0])
    >>> round(float(cooling.of("block")[0]), 2)
    336.79
    """
    at = {mass.id: number for number, mass in enumerate(masses)}
    for mass in masses:
        if mass.capacity <= 0.0:
            raise FlowError(
                f"{mass.id}: a heat capacity of {mass.capacity:g} J/K holds no heat; it must be "
                "more than 0. Give its mass and its specific heat capacity."
            )
    capacity = np.array([mass.capacity for mass in masses], dtype=np.float64)
    source = np.array([mass.heat for mass in masses], dtype=np.float64)
    start = np.array([mass.temperature for mass in masses], dtype=np.float64)
    ties_in = np.zeros((len(masses), len(masses)))
    for tie in ties:
        a, b = at.get(tie.a), at.get(tie.b)
        strange = next((e for e in (tie.a, tie.b) if e not in at and e not in fixed), None)
        if strange is not None or (a is None and b is None) or tie.conductance < 0.0:
            raise FlowError(
                f"{tie.a} to {tie.b}: a heat conductance must join a mass to a mass or to a fixed "
                f"temperature, and be 0 or more; it is {tie.conductance:g} W/K"
                f"{f', and there is no {strange}' if strange else ''}. Name both ends."
            )
        for i, j, other in ((a, b, tie.b), (b, a, tie.a)):
            if i is None:
                continue
            ties_in[i, i] += tie.conductance
            if j is None:
                source[i] += tie.conductance * fixed[other]
            else:
                ties_in[i, j] -= tie.conductance
    root = np.sqrt(capacity)
    rates, modes = np.linalg.eigh(ties_in / root[:, None] / root[None, :])
    rates = np.clip(rates, 0.0, None)
    begun, driven = modes.T @ (root * start), modes.T @ (source / root)
    moments = np.asarray(times, dtype=np.float64)
    exponent = np.outer(moments, rates)
    # (1 - exp(-r t)) / r, and its integral over time, both sound where r is 0.
    small = exponent < 1e-4
    safe = np.where(small, 1.0, exponent)
    grown = np.where(small, 1.0 - exponent / 2.0 + exponent**2 / 6.0, -np.expm1(-safe) / safe)
    twice = np.where(
        small, 0.5 - exponent / 6.0 + exponent**2 / 24.0, (safe + np.expm1(-safe)) / safe**2
    )
    span = moments[:, None]
    state = np.exp(-exponent) * begun + grown * span * driven
    passed = grown * span * begun + twice * span**2 * driven
    temperatures, sums = state @ modes.T / root, passed @ modes.T / root
    given = {
        name: sum(
            (
                tie.conductance * (sums[:, at[mass]] - level * moments)
                for tie in ties
                for mass, other in ((tie.a, tie.b), (tie.b, tie.a))
                if other == name and mass in at
            ),
            np.zeros_like(moments),
        )
        for name, level in fixed.items()
    }
    return Course(moments, tuple(at), temperatures, given)
