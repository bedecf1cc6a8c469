# SPDX-License-Identifier: Apache-2.0
"""Words that tell no two parts apart, and names of other things. [common practice]"""

#: Words that tell no two parts apart.
_QUIET = """
1st 4 70sh 75sh a alcohol aly an anod anodised anodized are as at auto band bands bar be billet
black blk blu blue body bolt bore braid braided brake brand brd brided cap car cell centers
centres chrome clean clear clutch cm cnc collar color colour compact compatible connection
connections cover covered ctrs dash deg degree degrees dia diameter diff durometer duty e85 end
ended ends engine ethanol finish fit fits flow for forged free gearbox genuine gloss gold golden
grade hd head heavy hex hexagon high hole holes id ids inch inches included inline inside internal
is it item joint joints layer layers light lightweight line liner lines lining lnr long machined
mandrel matching matt matte max methanol micron mm motorsport mounting natural new nice nom
nominal non nut od of off on one only outer outside pc pcd per performance piece plain ply
polished port premium pressure pro psi quality race racing rated red reinforced resistant rolled
rubber rubberised sae satin screw seal sealing seals section see series sh shore short shown sided
silver single size spare ss stainless standard std steering strong style suitable surplus tail
take takeoff tapered temp textile the thread threaded turbo type un unc unf unit units universal
uns unused use used wall way wide wire with working wrap
goes instead remote
reusable suit suits equal unequal cut length lengths coil coils reel reels roll rolls overbraid
overbraided bl proof once good just its sort same kind bought wrong left spare build project shed
ideal perfect never fitted condition vgc approx about roughly these those this that they them was
were been have got some sold sale selling jump shop race sport motor sports pcs packet
box bag pkt vpe plated passivated degreased lightly very well please note suitable
including supplied complete universal genuine replacement spares quantity order
"""

#: Nouns of things that are no part of a line, and of kits.
_OTHER = """
assembled assembly assorted assortment assy ball battery bearing belt bender benders book bottle
box bracket brackets break breather brush cable camlock can carburettor catch cleaner concentrate
cooler coolers core coupling crimp crimped crimpon custom cutters decal decals degreaser die
dipstick dry element fan ferrule ferrules flaring fluid gage gasketset gauge glove gloves hammer
header helmet injector injectors jaw jaws kit kits lambda litre litres loom made manifold manual
mixed mug oil-can oilcan oxygen pot probe pulley pump pumps quick radiator rail regulator relief
relocation reservoir selection sender sensor set sets shears shirt shut shutoff shutter solenoid
spacer spanner spanners spiral spring springs sticker stickers swage swaged swirl switch tank tap
tape taps thermometer thermostat tie ties tool tools torch valve vice vintage vise
unlined corrugated convoluted submersible submersed bleed bleeder pigtail
left lh lefthand npsm npsc npsi bsf bsw whitworth jis din butt torx
wideband wire
wiring workshop wrench wrenches zip
"""

NOISE = frozenset(_QUIET.split())
STOP = frozenset(_OTHER.split())

#: Words that mean something or nothing, and are no slip of the fingers.
KNOWN = NOISE | STOP
