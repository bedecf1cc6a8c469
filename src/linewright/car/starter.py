# SPDX-License-Identifier: Apache-2.0
"""The document that ``linewright new`` writes: small, commented, and it plans as it stands."""

_TEXT = """\
# A car document. Lines that start with # are notes: change them, add your own, they are kept.
# Plan it as often as you like; what is not known yet is carried as a risk and listed.
linewright = 1

[car]
name = "My car"
# show = "inch"             # how results are shown; you may type mm, in, ft, "1-1/4 in" anywhere
# datum = "front axle centre, on the ground; x rearward, y to the right, z up"

# One system for each fluid. Its hose and size hold for every line that does not say otherwise.
[systems.oil]
fluid = "10W-40"
hose  = "rubber braided"
size  = "-10"

# Everything that has ports. The kind brings the usual ports along, as a guess until you look.
# The shortest name that you can say across the shop is the best id.
[components]
ENG = { kind = "engine", name = "engine" }
TOP = { kind = "filter take-off plate", on = "ENG.filter", thermostat = true }
CAN = { kind = "filter canister", on = "TOP.stud", bypass = "in the canister" }
CO  = { kind = "oil cooler" }
PS  = { kind = "pressure sensor", on = "ENG.oil-pressure", end = "1/8 NPT male" }
TS  = { kind = "temperature sensor", on = "ENG.oil-temperature", end = "1/8 NPT male" }

# What you know of the ports: the end as the trade writes it, and how you know it:
# read (marking, drawing), tried (a known fitting seats), calliper, looks, guess.
# "?" is an honest end: it is listed with what hangs on it.
[ports]
"ENG.filter" = { end = "3/4-16 spin-on male", known = "guess" }
"ENG.oil-pressure" = { end = "1/8 NPT female", known = "guess" }
"ENG.oil-temperature" = { end = "1/8 NPT female", known = "guess" }
"TOP.OUT" = { end = "1/2 NPT female", known = "guess" }
"TOP.IN" = { end = "1/2 NPT female", known = "guess" }
"TOP.stud" = { end = "3/4-16 spin-on male", known = "guess" }
"CO.in" = { end = "-10 ORB female", known = "guess" }
"CO.out" = { end = "-10 ORB female", known = "guess" }

# A line for every hose: its letter and a number. The string runs port face to port face.
# ends: the angle at each end, held up by hand; leave them out while you do not know.
[lines]
O01 = { from = "TOP.OUT", to = "CO.in", string = "900 mm", ends = ["90", "straight"] }
O02 = { from = "CO.out", to = "TOP.IN", string = "950 mm", ends = ["straight", "90"] }

# Ports and questions that are answered without a line:
# "plug", "cap", "open, because ...", "none, because ...".
[closed]
"ENG.breather"  = "none, because the engine keeps its own closed breather"
"CO.drain-down" = "none, because the cooler is taken off to be emptied"

# A wall that a line passes makes two hoses and a bulkhead: passes = ["firewall"] on the line.
# [panels.firewall]
# thickness = "1.2 mm"

# A finding that you decide to live with; it is kept, and asked again only if it gets worse.
# [[overruled]]
# code   = "taper-in-aluminium"
# about  = ["TOP.OUT"]
# reason = "the plate came with these ports; sealed with paste, checked at every service"
# by     = "me"
# when   = 2026-11-25
"""


def starter() -> str:
    """Return a commented car document to begin with.

    Returns
    -------
    str
        TOML.
    """
    return _TEXT
