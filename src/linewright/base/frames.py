# SPDX-License-Identifier: Apache-2.0
"""The car's frame: how a part that is turned lies in it.

x rearward, y to the right as the driver sits, z up. Yaw, pitch and roll are right-handed
about z, y and x; roll comes first. Yaw turns a part's nose to the left, pitch lifts its
nose, roll leans its top to the left.
"""

from math import cos, dist, sin

Vector = tuple[float, float, float]
Rotation = tuple[Vector, Vector, Vector]


def rotation(yaw: float, pitch: float, roll: float) -> Rotation:
    """Rows of the matrix that turns a part's own axes into the car's.

    Parameters
    ----------
    yaw : float
        Turn about z, nose to the left. [rad]
    pitch : float
        Turn about y, nose up. [rad]
    roll : float
        Turn about x, top to the left; done first. [rad]

    Returns
    -------
    tuple of Vector
        Three rows of Rz(yaw) Ry(pitch) Rx(roll).

    Examples
    --------
    A nose points forward, along -x; a quarter turn of yaw sends it to the left, -y.

    >>> from math import pi
    >>> turned(rotation(pi / 2, 0.0, 0.0), (-1.0, 0.0, 0.0))
    (0.0, -1.0, 0.0)
    """
    cy, sy = cos(yaw), sin(yaw)
    cp, sp = cos(pitch), sin(pitch)
    cr, sr = cos(roll), sin(roll)
    return (
        (cy * cp, cy * sp * sr - sy * cr, cy * sp * cr + sy * sr),
        (sy * cp, sy * sp * sr + cy * cr, sy * sp * cr - cy * sr),
        (-sp, cp * sr, cp * cr),
    )


def turned(matrix: Rotation, vector: Vector) -> Vector:
    """Turn a vector of a part's frame into the car's.

    Parameters
    ----------
    matrix : Rotation
        Rows, as `rotation` gives them.
    vector : Vector
        In the part's own axes.

    Returns
    -------
    Vector
        The same arrow in the car's axes.
    """
    x, y, z = (sum(m * v for m, v in zip(row, vector, strict=True)) for row in matrix)
    return (x, y, z)


def placed(origin: Vector, matrix: Rotation, offset: Vector) -> Vector:
    """Car position of a point that is known in a part's own frame.

    Parameters
    ----------
    origin : Vector
        Car position of the part's origin. [m]
    matrix : Rotation
        How the part is turned.
    offset : Vector
        The point in the part's own axes. [m]

    Returns
    -------
    Vector
        The point in the car's frame. [m]
    """
    x, y, z = (o + t for o, t in zip(origin, turned(matrix, offset), strict=True))
    return (x, y, z)


def apart(a: Vector, b: Vector) -> float:
    """Straight distance between two points.

    Parameters
    ----------
    a : Vector
        One point. [m]
    b : Vector
        The other. [m]

    Returns
    -------
    float
        Their distance. [m]

    Examples
    --------
    >>> apart((3.120, -0.410, 0.150), (0.250, 0.250, 0.300))
    2.949
    """
    return dist(a, b)
