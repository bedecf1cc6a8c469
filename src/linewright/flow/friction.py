# SPDX-License-Identifier: Apache-2.0
"""Friction of lines in every regime: straight, in a bend, and convoluted.

Factors are Darcy's: the drop is f (L/D) times the velocity head. Each kernel that the solver
calls gives the factor and its change with the Reynolds number, and lets the drop, which goes
as f Re², rise with flow everywhere: a solver never meets a flat or falling law.

Between laminar and turbulent the factor is not known well by anybody; `between` bounds it.
"""

from math import exp, log, log10, sqrt

from linewright.base.kernels import njit

#: Reynolds numbers between which the flow in a straight line is neither one nor the other.
LAMINAR_BELOW = 2000.0
TURBULENT_ABOVE = 4000.0
# Below this Churchill's law is 64/Re to the last bit but four.
_SURELY_LAMINAR = 1000.0
# The cubic of the comparison law leans on Swamee-Jain at a Reynolds number of 4000.
_AT_4000 = 5.74 / 4000.0**0.9


@njit
def churchill(reynolds: float, roughness: float) -> tuple[float, float]:
    """Friction factor in all regimes, after Churchill (1977).

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    roughness : float
        Roughness over bore. [-]

    Returns
    -------
    tuple of float
        Factor, and its change with the Reynolds number. [-]

    Examples
    --------
    >>> round(churchill(1e5, 1e-4)[0], 6)
    0.018463
    """
    if reynolds < _SURELY_LAMINAR:
        factor = 64.0 / reynolds
        return factor, -factor / reynolds
    smooth = (7.0 / reynolds) ** 0.9
    wall = smooth + 0.27 * roughness
    drag = -log(wall)
    a = (2.457 * drag) ** 16
    b = (37530.0 / reynolds) ** 16
    laminar = (8.0 / reynolds) ** 12
    rough = 1.0 / ((a + b) * sqrt(a + b))
    total = laminar + rough
    factor = 8.0 * total ** (1.0 / 12.0)
    change_a = 16.0 * a / drag * 0.9 * smooth / (wall * reynolds)
    change_b = -16.0 * b / reynolds
    change = -12.0 * laminar / reynolds - 1.5 * rough / (a + b) * (change_a + change_b)
    return factor, factor * change / (12.0 * total)


@njit
def general(reynolds: float, roughness: float) -> tuple[float, float]:
    """Friction factor of general-purpose pipe network engines, to compare with them.

    64/Re below 2000, Swamee-Jain above 4000, Dunlop's cubic (1991) between.

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    roughness : float
        Roughness over bore. [-]

    Returns
    -------
    tuple of float
        Factor, and its change with the Reynolds number. [-]

    Examples
    --------
    >>> round(general(3000.0, 1e-4)[0], 4)
    0.0331
    """
    if reynolds <= LAMINAR_BELOW:
        factor = 64.0 / reynolds
        return factor, -factor / reynolds
    if reynolds >= TURBULENT_ABOVE:
        slow = 5.74 / reynolds**0.9
        wall = roughness / 3.7 + slow
        drag = log(wall)
        factor = 0.25 * (log(10.0) / drag) ** 2
        return factor, 2.0 * factor / drag * 0.9 * slow / (wall * reynolds)
    wall = roughness / 3.7 + _AT_4000
    drag = -2.0 / log(10.0) * log(wall)
    fa = 1.0 / (drag * drag)
    fb = fa * (2.0 - 2.0 * 0.9 * 2.0 / log(10.0) * _AT_4000 / (wall * drag))
    ratio = reynolds / 2000.0
    x1 = 7.0 * fa - fb
    x2 = 0.128 - 17.0 * fa + 2.5 * fb
    x3 = -0.128 + 13.0 * fa - 2.0 * fb
    x4 = 0.032 - 3.0 * fa + 0.5 * fb
    factor = x1 + ratio * (x2 + ratio * (x3 + ratio * x4))
    return factor, (x2 + ratio * (2.0 * x3 + 3.0 * ratio * x4)) / 2000.0


@njit
def colebrook(reynolds: float, roughness: float) -> float:
    """Turbulent friction factor after Colebrook and White, to report and compare.

    Parameters
    ----------
    reynolds : float
        Reynolds number; the law means nothing below about 2000. [-]
    roughness : float
        Roughness over bore. [-]

    Returns
    -------
    float
        Factor. [-]

    Examples
    --------
    >>> round(colebrook(1e5, 1e-4), 9)
    0.018513866
    """
    wall = roughness / 3.7
    slow = 2.51 / reynolds
    # Newton on 1/sqrt(f); the law is nearly straight in it, so that few steps do.
    root = 6.0
    for _ in range(50):
        inside = wall + slow * root
        off = root + 2.0 * log10(inside)
        step = off / (1.0 + 2.0 * slow / (inside * log(10.0)))
        root -= step
        if abs(step) < 1e-14 * root:
            break
    return 1.0 / (root * root)


@njit
def between(reynolds: float, roughness: float) -> tuple[float, float]:
    """Least and greatest friction factor that the flow may have.

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    roughness : float
        Roughness over bore. [-]

    Returns
    -------
    tuple of float
        Laminar and turbulent factor between the two regimes, elsewhere Churchill's twice. [-]

    Examples
    --------
    >>> low, high = between(3000.0, 1e-4)
    >>> round(low, 4), round(high, 4)
    (0.0213, 0.0436)
    """
    factor = churchill(reynolds, roughness)[0]
    if reynolds <= LAMINAR_BELOW or reynolds >= TURBULENT_ABOVE:
        return factor, factor
    turbulent = colebrook(reynolds, roughness)
    return 64.0 / reynolds, max(factor, turbulent)


@njit
def _eased(reynolds: float, low: float, high: float) -> tuple[float, float]:
    """A share that goes from 0 to 1 without a corner, and its slope."""
    if reynolds <= low:
        return 0.0, 0.0
    if reynolds >= high:
        return 1.0, 0.0
    at = (reynolds - low) / (high - low)
    return at * at * (3.0 - 2.0 * at), 6.0 * at * (1.0 - at) / (high - low)


@njit
def bend_factor(dean: float) -> float:
    """Laminar friction in a bend over that of a straight line, after Mishra and Gupta (1979).

    Parameters
    ----------
    dean : float
        Dean number, Re times the root of bore over twice the radius. [-]

    Returns
    -------
    float
        1 or more. [-]

    Examples
    --------
    >>> round(bend_factor(100.0), 2)
    1.53
    """
    return 1.0 + 0.033 * log10(dean) ** 4 if dean > 1.0 else 1.0


@njit
def curved(reynolds: float, roughness: float, ratio: float) -> tuple[float, float]:
    """Friction factor in a bend: laminar and turbulent after Mishra and Gupta (1979).

    The greater of both is taken. They cross about where turbulence sets in in a bend (Ito),
    well above the straight line's 2000.

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    roughness : float
        Roughness over bore. [-]
    ratio : float
        Bore over twice the radius of the centreline. [-]

    Returns
    -------
    tuple of float
        Factor, and its change with the Reynolds number. [-]

    Examples
    --------
    >>> straight, _ = churchill(5e4, 0.0)
    >>> round(curved(5e4, 0.0, 0.07)[0] / straight, 2)
    1.38
    """
    factor, change = churchill(reynolds, roughness)
    share, slope = _eased(reynolds, LAMINAR_BELOW, TURBULENT_ABOVE)
    swirl = 0.03 * sqrt(ratio)
    factor += swirl * share
    change += swirl * slope
    dean = reynolds * sqrt(ratio)
    if dean > 1.0:
        power = log10(dean)
        more = 1.0 + 0.033 * power**4
        laminar = 64.0 / reynolds
        if laminar * more > factor:
            factor = laminar * more
            change = laminar / reynolds * (0.132 * power**3 / log(10.0) - more)
    return factor, change


@njit
def convoluted(reynolds: float, roughness: float, pitch: float) -> tuple[float, float]:
    """Friction factor of a convoluted hose on its least bore, uncertain by a factor of 2.

    Each wave is a sudden widening (Hawthorne 1963) in turbulent flow; laminar flow sees the
    least bore alone.

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    roughness : float
        Roughness over bore. [-]
    pitch : float
        Length of a wave over the least bore. [-]

    Returns
    -------
    tuple of float
        Factor, and its change with the Reynolds number. [-]

    Examples
    --------
    >>> round(convoluted(2e4, 0.0, 3.0 / 12.7)[0], 3)
    0.135
    """
    factor, change = churchill(reynolds, roughness)
    if pitch <= 0.0:
        return factor, change
    wave = (1.0 - 1.0 / (1.0 + 0.438 * pitch) ** 2) ** 2 / pitch
    share, slope = _eased(reynolds, _SURELY_LAMINAR, LAMINAR_BELOW)
    over = wave - factor
    if over <= 0.0:
        return factor, change
    return factor + share * over, change * (1.0 - share) + slope * over


@njit
def curved_white(reynolds: float, ratio: float) -> float:
    """Laminar friction factor in a bend after White (1929), to compare.

    Parameters
    ----------
    reynolds : float
        Reynolds number, more than 0. [-]
    ratio : float
        Bore over twice the radius of the centreline. [-]

    Returns
    -------
    float
        Factor. [-]

    Examples
    --------
    >>> round(curved_white(250.0, 0.2), 8)
    0.40632818
    """
    dean = reynolds * sqrt(ratio)
    if dean <= 11.6:
        return 64.0 / reynolds
    less: float = 1.0 - (1.0 - (11.6 / dean) ** 0.45) ** (1.0 / 0.45)
    return 64.0 / reynolds / less


@njit
def curved_mori_nakayama(reynolds: float, ratio: float) -> float:
    """Turbulent friction factor in a bend after Mori and Nakayama (1967), to compare.

    Parameters
    ----------
    reynolds : float
        Reynolds number. [-]
    ratio : float
        Bore over twice the radius of the centreline. [-]

    Returns
    -------
    float
        Factor. [-]

    Examples
    --------
    >>> round(curved_mori_nakayama(1e4, 0.05), 7)
    0.0373118
    """
    turn: float = (reynolds * ratio * ratio) ** -0.2
    factor: float = 0.3 * sqrt(ratio) * turn * (1.0 + 0.112 * turn)
    return factor


@njit
def critical_ito(ratio: float) -> float:
    """Reynolds number at which flow in a bend grows turbulent, after Ito.

    Parameters
    ----------
    ratio : float
        Bore over twice the radius of the centreline. [-]

    Returns
    -------
    float
        Reynolds number. [-]

    Examples
    --------
    >>> round(critical_ito(0.07))
    8540
    """
    return 20000.0 * exp(0.32 * log(ratio))


@njit
def critical_seth_stahel(ratio: float) -> float:
    """Reynolds number at which flow in a coil grows turbulent, after Seth and Stahel (1969).

    Parameters
    ----------
    ratio : float
        Bore over twice the radius of the centreline. [-]

    Returns
    -------
    float
        Reynolds number. [-]

    Examples
    --------
    >>> round(critical_seth_stahel(1 / 7), 2)
    7645.06
    """
    critical: float = 1900.0 * (1.0 + 8.0 * sqrt(ratio))
    return critical
