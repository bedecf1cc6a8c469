# SPDX-License-Identifier: Apache-2.0
"""How an end is printed: short on a port, long on a sheet, and what it looks like."""

from linewright.ends.end import End, Family, Gender
from linewright.ends.sizes import find

_SHORT = {
    Family.FLARE_37: "{} flare",
    Family.FLARE_45: "{} 45° flare",
    Family.INVERTED_FLARE: "{} inverted flare",
    Family.BUBBLE_FLARE: "{} bubble flare",
    Family.ORB_UNF: "{} ORB",
    Family.ORFS: "{} ORFS",
    Family.NPT: "{} NPT",
    Family.NPTF: "{} NPTF",
    Family.BSPP: "{}",
    Family.BSPT: "{}",
    Family.ISO6149: "{} ISO 6149",
    Family.METRIC_FLAT_FACE: "{} flat face",
    Family.BANJO: "{} banjo",
    Family.BEAD: "{} mm bead",
    Family.BARB: "{} mm barb",
    Family.TUBE: "{} tube",
    Family.FLANGE: "{} flange",
    Family.VBAND: "{} mm V-band",
    Family.SPINON: "{} spin-on",
    Family.QC: "{} quick connector",
}

_LONG = {
    Family.FLARE_37: "{} 37° flare",
    Family.FLARE_45: "{} 45° flare",
    Family.INVERTED_FLARE: "{} inverted flare",
    Family.BUBBLE_FLARE: "{} bubble flare",
    Family.ORB_UNF: "{} O-ring boss",
    Family.ORFS: "{} O-ring face seal",
    Family.NPT: "{} NPT taper pipe thread",
    Family.NPTF: "{} NPTF dry-seal taper pipe thread",
    Family.BSPP: "{} parallel pipe thread",
    Family.BSPT: "{} taper pipe thread",
    Family.ISO6149: "{} ISO 6149 O-ring",
    Family.METRIC_FLAT_FACE: "{} flat-face",
    Family.BANJO: "banjo on {}",
    Family.BEAD: "{} mm beaded tube",
    Family.BARB: "{} mm hose barb",
    Family.TUBE: "plain tube {}",
    Family.FLANGE: "bolted flange {}",
    Family.VBAND: "{} mm V-band flange",
    Family.SPINON: "{} spin-on filter mount",
    Family.QC: "{} in quick connector",
}

_SEALS = {
    Family.FLARE_37: "metal on the 37° cone, no sealant",
    Family.FLARE_45: "metal on the 45° cone, no sealant",
    Family.INVERTED_FLARE: "double-flared tube on a raised seat inside, no sealant",
    Family.BUBBLE_FLARE: "tube bubble in a cup, no sealant",
    Family.ORB_UNF: "O-ring in the chamfer of the port mouth, no sealant",
    Family.ORFS: "O-ring in the male's flat face, no sealant",
    Family.NPT: "on the thread, with paste",
    Family.NPTF: "on the thread, with paste",
    Family.BSPP: "washer on the flat face, never on the thread",
    Family.BSPT: "on the thread, with paste",
    Family.ISO6149: "O-ring in the gland of the port mouth, no sealant",
    Family.METRIC_FLAT_FACE: "one washer on the flat face, no sealant",
    Family.BANJO: "two washers, one each side of the eye",
    Family.BEAD: "hose of the same bore with a clamp behind the bead",
    Family.BARB: "hose of the same bore on the barb",
    Family.FLANGE: "gasket or O-ring between the faces",
    Family.VBAND: "between the faces, held by the band",
    Family.WELD: "welded",
    Family.SPINON: "gasket on the flat land",
    Family.QC: "O-rings inside the connector",
}

_LOOKS = {
    (Family.FLARE_37, Gender.MALE): "cone outside at its end, 37° from its axis",
    (Family.FLARE_37, Gender.FEMALE): "loose nut with a cone inside, 37°",
    (Family.FLARE_45, Gender.MALE): "cone outside at its end, 45° from its axis",
    (Family.FLARE_45, Gender.FEMALE): "loose nut with a cone inside, 45°",
    (Family.INVERTED_FLARE, Gender.MALE): "tube nut behind a double-flared tube, cone inside it",
    (Family.INVERTED_FLARE, Gender.FEMALE): "raised cone deep inside the hole",
    (Family.BUBBLE_FLARE, Gender.MALE): "tube nut behind a tube with a round bubble",
    (Family.BUBBLE_FLARE, Gender.FEMALE): "cup at the bottom of the hole",
    (Family.ORB_UNF, Gender.MALE): "O-ring under a hex",
    (Family.ORB_UNF, Gender.FEMALE): "threaded hole with a chamfer at its mouth",
    (Family.ORFS, Gender.MALE): "groove with an O-ring in a flat face",
    (Family.ORFS, Gender.FEMALE): "loose nut over a flat face",
    (Family.NPT, Gender.MALE): "taper thread, 60°, nothing else",
    (Family.NPT, Gender.FEMALE): "threaded hole with no machined face, 60°",
    (Family.NPTF, Gender.MALE): "taper thread, 60°, nothing else",
    (Family.NPTF, Gender.FEMALE): "threaded hole with no machined face, 60°",
    (Family.BSPP, Gender.MALE): "parallel thread, 55°, under a flat shoulder",
    (Family.BSPP, Gender.FEMALE): "flat machined face round the hole, wider than the washer",
    (Family.BSPT, Gender.MALE): "taper thread, 55°, nothing else",
    (Family.BSPT, Gender.FEMALE): "threaded hole with no machined face, 55°",
    (Family.ISO6149, Gender.MALE): "O-ring under the shoulder of a metric stud",
    (Family.ISO6149, Gender.FEMALE): "ridge or mark round the hole and a chamfer at its mouth",
    (Family.METRIC_FLAT_FACE, Gender.MALE): "metric stud with a flat shoulder for a washer",
    (Family.METRIC_FLAT_FACE, Gender.FEMALE): "plain flat face, thread to the surface",
    (Family.BANJO, Gender.MALE): "bolt with a hole through it, eye between two washers",
    (Family.BANJO, Gender.FEMALE): "hole that takes a hollow bolt, flat face round it",
    (Family.SPINON, Gender.MALE): "filter stud in a flat land for the gasket",
    (Family.SPINON, Gender.FEMALE): "threaded middle of a filter or plate with its gasket",
    (Family.QC, Gender.MALE): "smooth spigot with a raised ring",
    (Family.QC, Gender.FEMALE): "socket with a latch",
    (Family.BEAD, Gender.MALE): "round tube with a raised ring near its end",
    (Family.BARB, Gender.MALE): "spigot with saw-toothed rings",
    (Family.HOSE, Gender.FEMALE): "a hose",
    (Family.HOSE, Gender.MALE): "what a hose is pushed on or into",
    (Family.TUBE, Gender.NONE): "plain tube, smooth to its end",
}

_NO_GENDER_SHOWN = (Family.BEAD, Family.BARB, Family.TUBE, Family.FLANGE, Family.VBAND)


def _gender(end: End) -> str:
    is_plain = end.family in _NO_GENDER_SHOWN and end.gender is not Gender.FEMALE
    if is_plain or (end.family is Family.BANJO and end.gender is Gender.MALE):
        return ""
    return {Gender.MALE: "male", Gender.FEMALE: "female"}.get(end.gender, "")


def show(end: End) -> str:
    """Print an end the one way that linewright prints it on a port.

    Parameters
    ----------
    end : End
        The end.

    Returns
    -------
    str
        Words that `linewright.ends.notation.read` reads back as the same end.

    Examples
    --------
    >>> show(End(Family.ORB_UNF, "-8", Gender.FEMALE))
    '-8 ORB female'
    >>> show(End(Family.FLARE_37, "-10", Gender.FEMALE, swivel=True))
    '-10 flare nut'
    >>> show(End(Family.ISO6149, "M18", Gender.FEMALE))
    'M18x1.5 ISO 6149 female'
    """
    gender = _gender(end)
    if end.family is Family.UNKNOWN:
        return "?"
    if end.family is Family.OTHER:
        words = ["other:", end.size, f"with {end.kind}" if end.kind else "", gender]
    elif end.family is Family.HOSE:
        is_bore = not end.size.startswith("-")
        is_grip = end.gender is Gender.MALE
        hose = "hose nipple" if is_grip else "hose"
        words = [f"{end.size} mm" if is_bore else end.size, end.kind, hose]
        gender = ""
    elif end.family is Family.WELD:
        words = ["weld", end.kind, "" if end.gender is Gender.FEMALE else gender]
    else:
        size = thread_of(end) or end.size if end.family is Family.ISO6149 else end.size
        words = [_SHORT[end.family].format(size), gender]
        if end.swivel:
            # A tube nut is male; every other nut that turns is female.
            words[1] = "male nut" if end.gender is Gender.MALE else "nut"
    return " ".join(word for word in words if word)


def thread_of(end: End) -> str:
    """Thread of an end, without its class.

    Parameters
    ----------
    end : End
        The end.

    Returns
    -------
    str
        For example ``3/4-16``; empty where the end has none or the tables do not hold it.

    Examples
    --------
    >>> thread_of(End(Family.ORB_UNF, "-8", Gender.FEMALE))
    '3/4-16'
    """
    if end.family is Family.OTHER:
        return end.size
    made = find(end.family, end.size)
    return made.thread if made else ""


def how_it_seals(end: End) -> str:
    """Where and with what an end seals.

    Parameters
    ----------
    end : End
        The end.

    Returns
    -------
    str
        A phrase for a sheet; empty where it is not known.
    """
    if end.family is Family.OTHER:
        return f"as typed: {end.kind}" if end.kind else ""
    return _SEALS.get(end.family, "")


def look(end: End) -> str:
    """What an end looks like to somebody who holds the part.

    Parameters
    ----------
    end : End
        The end.

    Returns
    -------
    str
        A phrase such as ``threaded hole with a chamfer at its mouth``.
    """
    if end.family is Family.OTHER:
        return f"something else: {end.kind}" if end.kind else "none of these"
    return _LOOKS.get((end.family, end.gender), show(end))


def show_long(end: End) -> str:
    """Print an end for a sheet: what it is, its thread, and how it seals.

    Parameters
    ----------
    end : End
        The end.

    Returns
    -------
    str
        One line of plain words.

    Examples
    --------
    >>> show_long(End(Family.ORB_UNF, "-8", Gender.FEMALE))
    '-8 O-ring boss port (3/4-16), female; seals: O-ring in the chamfer of the port mouth,
    no sealant'
    """
    if end.family is Family.UNKNOWN:
        return "not known: nobody has measured this end"
    if end.family is Family.OTHER:
        name = f"other: {end.size}" if end.size else "other"
    elif end.family in (Family.HOSE, Family.WELD):
        name = show(end)
    else:
        name = _LONG[end.family].format(end.size)
    is_port = end.family in (Family.ORB_UNF, Family.ISO6149, Family.METRIC_FLAT_FACE)
    if is_port:
        name += " port" if end.gender is Gender.FEMALE else " stud"
    thread = thread_of(end)
    if thread and thread not in end.size and end.family is not Family.OTHER:
        name += f" ({thread})"
    gender = _gender(end)
    if end.swivel:
        name += ", swivel nut"
    if gender and end.family not in (Family.HOSE, Family.WELD):
        name += f", {gender}"
    seals = how_it_seals(end)
    return f"{name}; seals: {seals}" if seals else name
