# SPDX-License-Identifier: Apache-2.0
"""The codes of findings: words, never used again, each explained in docs/rules.md."""

from collections.abc import Mapping
from types import MappingProxyType

from linewright.base.finding import Severity

_STOP, _WARN, _ASK, _NOTE = Severity.STOP, Severity.WARN, Severity.ASK, Severity.NOTE

#: Code of each finding and its usual weight. One line each, in the order of the alphabet.
RULES: Mapping[str, Severity] = MappingProxyType(
    {
        "ambiguous-end": _ASK,  # the text on a port can be read in several ways
        "arrives-late": _WARN,  # a part comes after the day on which its system needs it
        "banjo-bore": _WARN,  # a banjo's bore chokes the line
        "bend-tight": _STOP,  # a typed length that no pair of hose ends can be bent to
        "bleed-dips": _STOP,  # a bleed that does not rise all the way to its tank
        "body-in-body": _ASK,  # a body was typed wholly in another
        "boils": _WARN,  # coolant near boiling where it is hottest
        "boils-in-time": _WARN,  # coolant near boiling at some time of a condition
        "bond-missing": _WARN,  # fuel cell or filler not bonded to the body
        "bypass-open": _NOTE,  # cold oil goes by reliefs and bypasses
        "cap-not-highest": _WARN,  # something in the loop stands above the filler
        "carbon-liner": _STOP,  # fuel in PTFE hose whose liner does not conduct
        "carburettor-floods": _STOP,  # more fuel pressure than a float chamber's needle holds
        "catch-can-small": _WARN,  # catch can smaller than a rule book asks for
        "charge-loss": _NOTE,  # pipes and cooler cost much of the boost
        "check-valve-missing": _WARN,  # fuel pump without a check valve after it
        "choke": _WARN,  # least bore takes too much of the line's area
        "clamp-on-fuel": _WARN,  # worm clamp on a fuel hose
        "clip-plane": _WARN,  # a hose bent in two planes with no straight for a clip between
        "clip-spacing": _WARN,  # no place for a clip within the spacing
        "clock-crimped": _STOP,  # crimped ends, both bent, whose clock angle nobody has tried
        "coolant-hump": _WARN,  # a hump of a coolant line where slow flow leaves air
        "coolant-top": _WARN,  # the top of a radiator stands over all that lets air out
        "cooler-direction": _ASK,  # cooler ports: which way do they point
        "cooler-ports-down": _WARN,  # cooler ports pointing down trap air
        "coupler-thrust": _NOTE,  # what pulls couplers of charge pipes apart
        "dash-differs": _STOP,  # hose end and hose are of different dash
        "dead-head": _STOP,  # positive pump with no relief or return
        "drain-flat": _STOP,  # a drain that falls too little in some condition
        "drain-in-spray": _ASK,  # a drain that may end where the crank throws oil
        "drain-lowest": _NOTE,  # the lowest point of the system, to be opened with care
        "drain-overfull": _WARN,  # a drain carries less than what comes as froth
        "drain-rises": _STOP,  # gravity drain rises or ends under the level
        "drain-small": _WARN,  # gravity drain narrower than practice has it
        "drips-on": _WARN,  # a joint above what must not be dripped on
        "driver-joint": _WARN,  # a joint in the driver's room
        "driver-line": _NOTE,  # a line through the driver's room
        "ends-coincide": _STOP,  # a line leads from a place to itself
        "elbow-costly": _NOTE,  # a bent end takes much of what a pump has to give
        "expansion-small": _WARN,  # too little air in the header tank for what coolant grows by
        "filter-before-injectors": _STOP,  # no filter before the injectors
        "filter-bypass": _ASK,  # where is the bypass of the oil filter
        "filter-too-fine": _WARN,  # suction filter finer than its limit
        "flow-reversed": _WARN,  # a component sits backwards in its line
        "flow-unknown": _ASK,  # flow of a system cannot be reckoned
        "flow-unsure": _WARN,  # a limit lies within what is not known: measure it
        "fluid-unfit": _STOP,  # hose or seal not fit for the fluid
        "fluid-unknown": _ASK,  # fluid whose name says nothing to the data
        "fuel-shut-off": _ASK,  # fuel shut-off and rule profile
        "fuel-vapour": _WARN,  # fuel near boiling at the inlet of a pump
        "gender-assumed": _ASK,  # gender of a port taken as the trade does
        "grip-exceeded": _STOP,  # panel thicker than the bulkhead's grip
        "hand-room": _WARN,  # no room for fingers round a nut
        "header-far": _WARN,  # header feed meets the loop far from the pump's inlet
        "heavy-on-small-thread": _WARN,  # weight hung on a 1/8 thread
        "hole-missing": _STOP,  # a pass through a panel without its hole in the list
        "hose-bore": _ASK,  # hose family sold in two bores
        "hose-collapses": _STOP,  # suction hose without vacuum rating and long
        "hose-family-mix": _STOP,  # hose ends of another family than the hose
        "hose-rating": _ASK,  # burst or temperature print of the hose not known
        "hose-short": _NOTE,  # too little hose between its collars to bend
        "hose-slack": _WARN,  # a mocked-up hose that hangs taut or loose
        "hose-stiff": _WARN,  # a hose too short to give way to what its ports are out by
        "hose-sucked": _STOP,  # soft hose under less than the air outside
        "hot-in-time": _WARN,  # a fluid passes its hottest at some time of a condition
        "ice-gone": _NOTE,  # ice of the charge coolant is gone before the end
        "in-zone": _STOP,  # a line in a room that is to be kept free
        "jet-doubtful": _ASK,  # two jets in a row, or one before plain bearings
        "last-nut": _STOP,  # no nut that can be turned without twisting the hose
        "length-differs": _ASK,  # the length typed is not that of the course in space
        "length-unknown": _ASK,  # no string and no positions: nothing to reckon hose from
        "level-unknown": _ASK,  # oil level height not known, drain not proved
        "look-alike": _NOTE,  # thread also fits something that does not seal
        "look-alike-thread": _STOP,  # two ends run together and do not seal
        "mesh-inverted": _NOTE,  # triangles of a mesh face inward
        "mesh-open": _WARN,  # a mesh has gaps, so no inside
        "mesh-unreadable": _ASK,  # a mesh that is not there or is no mesh
        "missing-function": _ASK,  # a function that the kind needs is not answered
        "near-hot": _WARN,  # a line too near a hot surface
        "near-moving": _WARN,  # a line too near what moves
        "no-chain": _STOP,  # the trade sells nothing that joins these two
        "no-check-valves-parallel": _WARN,  # parallel pumps without check valves
        "no-filter": _WARN,  # no fine filter on the pressure side
        "no-flex": _STOP,  # hard tube between bodies that move against each other
        "no-mate": _STOP,  # two ends put together do not mate
        "no-room": _STOP,  # chain stands out further than there is room
        "no-route": _STOP,  # no course was found for a hose whose ends are placed
        "no-stocked-bend": _STOP,  # tube or pipe of a size for which no bend is stocked
        "no-strainer": _STOP,  # no strainer before the pump
        "no-thermostat": _ASK,  # oil cooler without thermostat or bypass
        "no-travel": _WARN,  # a hose that cannot be drawn back to put its last nut on
        "not-sold": _ASK,  # nobody offers a part, or not enough of it
        "oil-pressure-low": _WARN,  # too little oil pressure in the gallery
        "open-angle": _ASK,  # hose-end angle left open
        "open-port": _STOP,  # a port neither mated nor plugged nor open on purpose
        "order-not-proved": _NOTE,  # a cheaper order may exist: the search was cut off
        "over-budget": _WARN,  # the cheapest order costs more than the budget
        "overrule-idle": _NOTE,  # an overrule that meets no finding
        "overrule-worse": _WARN,  # an overruled finding got worse than accepted
        "panel-unknown": _ASK,  # which panel a bulkhead sits in is not said
        "part-special": _NOTE,  # only a special order will do
        "pass-unsealed": _STOP,  # a line through a panel that it does not say it passes
        "pipe-unbeaded": _STOP,  # plain pipe ends under boost
        "plug-too-deep": _STOP,  # plug or stud longer than the hole
        "port-in-body": _ASK,  # a port was typed in a body, or points into its own
        "port-outside": _ASK,  # a port was typed under the ground or outside the skin
        "ports-too-near": _WARN,  # nuts of neighbouring ports foul each other
        "pot-empties": _WARN,  # a lift pump gives less than the engine takes
        "pressure-in-time": _WARN,  # oil pressure too low at some time of a condition
        "pump-not-flooded": _ASK,  # pump inlet above its tank, or heights not known
        "pump-starves": _WARN,  # an oil pump with too little pressure at its inlet
        "rail-low": _WARN,  # too little fuel pressure at the rail
        "rating-exceeded": _STOP,  # a hose is rated for less than its system reaches
        "rating-missing": _ASK,  # a rating is not in the data
        "reference-missing": _STOP,  # boosted regulator without its reference
        "reference-shared": _WARN,  # a regulator's reference teed off another consumer
        "restrictor-missing": _WARN,  # bleed or feed that needs a restrictor has none
        "return-pressure": _WARN,  # too much pressure behind a fuel regulator
        "runs-hot": _WARN,  # hotter than the system is made for
        "scavenge-small": _WARN,  # scavenge stages too small for the oil that comes
        "scavenge-starved": _WARN,  # a scavenge stage draws its inlet empty
        "screen-missing": _WARN,  # jet without a screen before it
        "seal-as-supplied": _WARN,  # rings that come with fittings are of the wrong material
        "seal-missing": _STOP,  # a joint without its seal
        "size-chosen": _NOTE,  # a size that was left to the tool
        "size-differs": _STOP,  # clamped hose on a bead of another size
        "size-open": _ASK,  # a size that was left to the tool and cannot be told
        "size-unsettled": _WARN,  # sizes left to the tool that flow does not settle
        "spanner-room": _WARN,  # no room to swing a spanner on a nut
        "spot-face-unknown": _ASK,  # a banjo's flat face or hole depth is not known
        "stick-out": _WARN,  # chain stands out far from its port
        "string-copied": _ASK,  # one string typed for all lines of a system
        "string-long": _ASK,  # string longer than lines of a car are
        "string-too-short": _STOP,  # string shorter than the straight distance
        "suction-lifts": _WARN,  # a pump that lifts when the car leans or accelerates
        "suction-rating": _ASK,  # suction hose without a vacuum figure in the data
        "suction-size": _WARN,  # suction line smaller than practice
        "suction-trap": _WARN,  # a hump of a suction line that holds air
        "tank-dwell": _NOTE,  # oil stays too short in its tank to lose its air
        "taper-elbow": _WARN,  # an elbow on a taper thread stops where it stops
        "taper-in-aluminium": _WARN,  # taper thread in an aluminium port
        "tube-straight": _WARN,  # hard tube without a bend between two fixed ends
        "turbo-feed": _WARN,  # turbo feed pressure not limited
        "turbo-feed-high": _WARN,  # more oil pressure at a turbo than it bears
        "unknown-end": _ASK,  # a port that nobody has measured
        "unsure-ends": _ASK,  # another pair of hose ends may be needed within the measuring error
        "velocity-high": _NOTE,  # lines faster than usual
        "vent-rollover": _STOP,  # tank vent without a roll-over valve
        "vent-sags": _STOP,  # a vent with a sag between two higher points
    }
)

#: Codes that the flow of a car raises: a plan made without it says nothing of them.
OF_FLOW: frozenset[str] = frozenset(
    {
        "boils",
        "boils-in-time",
        "bypass-open",
        "carburettor-floods",
        "catch-can-small",
        "charge-loss",
        "coupler-thrust",
        "drain-overfull",
        "elbow-costly",
        "expansion-small",
        "flow-unknown",
        "flow-unsure",
        "fuel-vapour",
        "header-far",
        "hot-in-time",
        "ice-gone",
        "hose-sucked",
        "oil-pressure-low",
        "pipe-unbeaded",
        "pot-empties",
        "pressure-in-time",
        "pump-starves",
        "rail-low",
        "return-pressure",
        "runs-hot",
        "scavenge-small",
        "scavenge-starved",
        "tank-dwell",
        "turbo-feed-high",
        "velocity-high",
    }
)
