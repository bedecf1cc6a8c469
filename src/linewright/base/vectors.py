# SPDX-License-Identifier: Apache-2.0
"""Arrows in space, three floats each: enough for geometry that is not worth an array."""

from math import atan2, cos, sin, sqrt

Vector = tuple[float, float, float]


def dot(a: Vector, b: Vector) -> float:
    """Product of two arrows.

    Parameters
    ----------
    a, b : Vector
        The arrows.

    Returns
    -------
    float
        a·b. [unit of both]
    """
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Arrow square to two others, right-handed.

    Parameters
    ----------
    a, b : Vector
        The arrows.

    Returns
    -------
    Vector
        a × b.
    """
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def ahead(start: Vector, along: Vector, far: float) -> Vector:
    """Point that lies some way from another.

    Parameters
    ----------
    start : Vector
        Where from. [m]
    along : Vector
        Which way, unit.
    far : float
        How far. [m]

    Returns
    -------
    Vector
        start + far·along. [m]
    """
    return (start[0] + far * along[0], start[1] + far * along[1], start[2] + far * along[2])


def unit(vector: Vector) -> Vector:
    """Arrow of length one along another.

    Parameters
    ----------
    vector : Vector
        Any arrow but none.

    Returns
    -------
    Vector
        The same direction, length 1.

    Raises
    ------
    ValueError
        If the arrow has no length, so no direction.

    Examples
    --------
    >>> unit((0.0, 3.0, 4.0))
    (0.0, 0.6, 0.8)
    """
    size = sqrt(dot(vector, vector))
    if not size > 0.0:
        raise ValueError(f"direction {vector}: has no length; give three numbers not all 0")
    return (vector[0] / size, vector[1] / size, vector[2] / size)


def square(along: Vector) -> Vector:
    """Some direction square to another, the same one every time.

    Parameters
    ----------
    along : Vector
        Unit.

    Returns
    -------
    Vector
        Unit, square to ``along``: level if that can be.

    Examples
    --------
    >>> square((1.0, 0.0, 0.0))
    (0.0, 1.0, 0.0)
    """
    if abs(along[2]) < 0.999:
        return unit((-along[1], along[0], 0.0))
    return unit(cross(along, (0.0, 1.0, 0.0)))


def turned_about(axis: Vector, angle: float, vector: Vector) -> Vector:
    """Turn an arrow about an axis, right-handed.

    Parameters
    ----------
    axis : Vector
        Unit.
    angle : float
        How far. [rad]
    vector : Vector
        What is turned.

    Returns
    -------
    Vector
        The arrow after the turn.

    Examples
    --------
    >>> from math import pi
    >>> turned_about((0.0, 0.0, 1.0), pi / 2, (1.0, 0.0, 0.0))
    (0.0, 1.0, 0.0)
    """
    c, s = cos(angle), sin(angle)
    k = dot(axis, vector) * (1.0 - c)
    v = cross(axis, vector)
    return (
        vector[0] * c + v[0] * s + axis[0] * k,
        vector[1] * c + v[1] * s + axis[1] * k,
        vector[2] * c + v[2] * s + axis[2] * k,
    )


def between(a: Vector, b: Vector) -> float:
    """Angle between two arrows.

    Parameters
    ----------
    a, b : Vector
        The arrows; any length.

    Returns
    -------
    float
        0 to pi, exact near both. [rad]
    """
    v = cross(a, b)
    return atan2(sqrt(dot(v, v)), dot(a, b))
