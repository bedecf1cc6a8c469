# SPDX-License-Identifier: Apache-2.0
"""The trade's words: a description taken apart into sizes, families, genders and nouns.

A word that stands in none of the lists is kept as unknown, so that whoever judges the whole
can see that something was not understood.
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache

_MARKS = str.maketrans(
    {
        "×": "x", "″": '"', "“": '"', "”": '"', "”": '"', "–": "-", "—": "-", "−": "-",
        "º": "°", "˚": "°", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8",
        "⅝": " 5/8", "⅞": " 7/8", "*": "x", "(": " ( ", ")": " ) ", "\t": " ", "’": "'",
        "\u00a0": " ",
    }
)  # fmt: skip

_INCHES = re.compile(
    r'\( *[\d./ -]+(?:"|in(?:ch)?)?(?: *(?:to|>|-|x) *[\d./ -]+(?:"|in(?:ch)?)?)? *\)'
)
_PACKS = re.compile(
    r"\b(?:pack|bag|box|set|lot|pkt) of (?:\d+|two|three|four|five|six|eight|ten|twelve|twenty)\b|\b(?:pk|pack|bx|qty|pkt|bag)\.? ?:? ?\d+\b"
    r"|(?<![\d.,/x])\b\d+ ?(?:pcs|pc|pieces|pk|pce|per pack|per bag|off)\b|\bve ?\d+\b|\( *\d+ ?x *\)|\( *x ?\d+ *\)|\( *\d+ *\) *$"
    r"|\bx ?(?!(?:30|45|60|90|120|150|180) *$)\d+(?: job lot)? *$|\bx ?\d+ job lot\b"
    r"|\b(?:priced? |sold )?(?:per|by the) (?:linear )?(?:ft|foot|m|mtr|met(?:re|er))\b"
    r"|(?<![\d./x-])\b(?:\d+(?:\.\d+)?|one|two|three|five|ten|twenty)[ -]?"
    r"(?:m|mtrs?|met(?:re|er)s?|ft|foot|feet)\b(?! ?x)(?: (?:coil|roll|length|reel)s?)?"
    r"|\b(?:each|ea|job lot|pair|pr)\b"
)
_AMOUNTS = re.compile(
    r"\b\d+(?:\.\d+)? ?(?:ml|cc|g|gram|grams|litres?|l|bar|psi|kg|micron|um)\b|\be ?85\b"
    r"|\bx ?0?\.\d+ ?(?:in|\")? ?wall\b|\b0?\.\d+ ?(?:in|\")? ?wall\b|\b\d+ ?ply\b|\b\d+ ?sh\b"
    r"|\b\d+ (?:shore|durometer)(?: a)?\b|\bx? ?\d+(?:\.\d+)? ?mm (?:long|wall|thick|wide)\b"
)
_LENGTHS = re.compile(
    r"\b(?:per|by the) (?:linear )?(?:ft|foot|m|mtr|met(?:re|er))\b|(?<![\d./x-])\b(?:\d+(?:\.\d+)?|"
    r"one|two|three|five|ten|twenty)[ -]?(?:m|mtrs?|met(?:re|er)s?|ft|foot|feet)\b(?! ?x)"
)
_TOKEN = re.compile(
    r"as ?-?568 ?-? ?[a-z]?(?P<as568>\d{3})\b"
    r"|(?P<spec>\bmil ?-?h ?-?8794|\b100 ?r ?5\b|\bj?30 ?r ?\d+\b|\biso ?-?6149(?:-\d)?"
    r"|\biso ?-?(?:1179|228|9974|11926|8434|7)(?:-\d)?\b|\bdin ?3852\b|\bj ?(?:514|1926|1453|512)\b"
    r"|\br[12] ?a?t\b|\b[12]sn\b)"
    r"|\bm ?(?P<metric>\d{1,2}) ?(?:x|-|/) ?(?P<pitch>[0-3](?:\.\d+)?)(?![\d/])"
    r"|\bm(?P<bare>\d{1,2})\b"
    r"|(?P<mult>\b[2-4]) ?x ?(?=an|-\d|orb|m\d|\d+/\d|dash|\d+ ?mm)"
    r"|(?P<dim>\b\d+(?:\.\d+)? ?x ?\d+(?:\.\d+)?(?: ?x ?\d+(?:\.\d+)?)?)(?: ?mm)?(?= |,|$|\))"
    r"|(?P<un>\b\d+-\d+/\d+|\b[1-4] \d+/\d+|\b\d+/\d+|(?<![\d.])[01]?\.\d{3,4}|\b[12](?=-1[1-4]\b))"
    r"(?:\"? ?- ?|\"? ?x ?(?=\d\d ?un)|\"? (?=\d\d ?un))(?P<tpi>11\.5|[1-3]\d)(?! ?mm|[\d./])"
    r"|(?P<low>\b\d+(?:\.\d+)?) ?(?:mm)? ?(?:-|to) ?(?P<high>\d+(?:\.\d+)?) ?mm\b(?! (?:bore )?(?:id|bore))"
    r"|(?P<mm>\b\d+(?:\.\d+)?) ?(?:mm|mil|millimet(?:re|er)s?)\b"
    r"|(?P<angle>\b\d{2,3}) ?(?:°|deg(?:ree)?s?\b|d\b)"
    r"|(?:(?<![\w./-])|(?<=an))-(?P<dash>\d{1,2})(?= ?(?:an|jic)\b|[^\w./]|$|(?:m|f|fm|orb|npt)\b)"
    r"|\ban[ -]{0,2}(?P<an>\d{1,2})(?![\d/.])(?:(?=\b)|(?=m|f|x))"
    r"|(?<![\d/.-])(?P<nan>\d{1,2}) ?-? ?an\b"
    r"|#(?P<hash>\d{1,2})\b"
    r"|(?P<inch>\b\d+-\d+/\d+|\b[1-4] \d+/\d+|\b\d+/\d+|(?<![\d.])\d*\.\d+(?= ?(?:\"|in\b|inch|od\b))"
    r"|\b\d+(?:\.\d+)?(?= ?(?:\"|in\b|inch)))(?: ?(?:\"|in\b|inch(?:es)?\b))?"
    r"|(?P<num>\b\d+(?:\.\d+)?)"
    r"|(?P<word>[a-z]+)"
    r"|(?P<mark>[,>/&+;:()|°])"
)

_NUMBERS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "eleven": 11, "ten": 10, "twelve": 12,
    "fourteen": 14, "sixteen": 16, "twenty": 20, "ninety": 90, "thirty": 30, "sixty": 60,
    "twentyfour": 24,
}  # fmt: skip

#: Phrases by what they mean; the longest that fits is taken.
_MEANINGS = {
    # nouns
    "noun:hose end": "hose end|hose ends|he|hose fitting|hose fittings|hose end fitting|end|hoseend|"
    "hose endfitting|fitting for hose",
    "noun:adaptor": "ftg|ftgs|ftng|"
    "adaptr|adapator|adptor|adater|straight adaptor|straight adapter|straight fitting|straight male stud|male to male adaptor|male to male adapter|screw in stud|screw in connector|screwed adaptor|threaded adaptor|"
    "adaptor|adapter|adaptors|adapters|adpt|adptr|adapt|adap|fitting|fittings|stud|"
    "connector|stud end|male stud|nipple|adaptor fitting|port adaptor|port adapter|screw in adaptor|"
    "screw in adapter|port fitting|male connector|screw in fitting|adaptor union",
    "noun:union": "union|unions|joiner|coupling union|un|union adaptor|union adapter",
    "noun:reducer": "rdc union|reduction|reducing adapter|reducer adaptor|"
    "reducer|rdcr|reducing|rdcg|reducing adaptor|rdc|stepped|step down|expander|"
    "reducers|step up",
    "noun:elbow": "elbow|elb|elbows|angle adaptor|compact elbow|angle|bend|elbo|angled",
    "noun:tee": "tee|t piece|t|tee piece|t pce|tees|t adaptor|tee adaptor|t block|t fitting",
    "noun:bulkhead": "bulkhead|blkhd|bulk head|bhd|blkhead|thru panel|through panel|bh",
    "noun:bulkhead nut": "bulkhead nut|bulk head nut|nut blkhd|nut bulkhead|blkhd nut|bhd nut|"
    "nut for bulkhead|bulkhead locknut|bulkhead lock nut|nut , bulkhead|nuts bulkhead|bulkhead nuts",
    "noun:plug": "plug|plugs|blanking plug|screw plug|blank plug|plg|blanking screw|port plug|"
    "hex plug|stopper|blank off plug|hollow plug|drain plug",
    "noun:cap": "cap|caps|blanking cap|blank cap|cap nut|blanking nut",
    "noun:silicone cap": "silicone blanking cap|silicone cap|blanking cap silicone|silicone bung",
    "noun:dust cap": "cap , dust|cap , plastic|cap plstc|cap dust|dust plug|caps dust|plastic blanking cap|plastic end cap|transport cap|"
    "dust cap|dust caps|plastic dust caps|plastic cap|plastic caps|dustcap|dustcaps|"
    "protective cap|protective caps|plastic dust cap|cap dust|cap plastic",
    "noun:test cap": "pressure test cap and plug set|cap and plug set|cap test|cap , test|test plug set|pressure test set|pressure test kit cap|pressure test caps and plugs|test caps and plugs|test cap and plug set|pressure test cap set|set of test caps|test plugs|"
    "test cap|test caps|pressure test cap|pressure test caps|test cap set",
    "noun:bung": "welding socket|weld on socket|welding boss|welding sleeve|welding nipple|welding stud|weld stud|"
    "bung , weld|boss , weld|fitting , weld|weld bng|weld in bung|bng|boss , weld in|bung , weld on|weld on spigot|weld on beaded tail|weld tail|weld on tail|weld on beaded hose tail|weld on hose spigot|weld in threaded boss|screw boss weld|weld in sleeve|weld nipple|weld on nipple|nipple weld|welding boss|welding bung|weld spud|"
    "bung|weld bung|weld on bung|weld in bung|weld boss|weld in boss|weld on boss|bungs|"
    "weldable bung|weld on fitting|weld fitting|weld in fitting|weld on hose tail|weld on male|boss weld|"
    "bung weld|weld on adaptor|weld on adapter|weldable boss|weld socket|weld on socket|"
    "weld on female|weld in female|weld on male fitting|fitting weld on|weld in bush|weld in socket",
    "noun:bushing": "bushing|bshg|bush|reducing bush|reducer bushing|reducing bushing|bushing reducer|"
    "reducer bush|pipe bushing|bushings|port reducer",
    "noun:banjo bolt": "hollow screw|banjo bolt hollow screw|"
    "banjo blt|blt banjo|bjo bolt|bjo blt|banjo screw|hollow bolt|"
    "banjo bolt|bolt banjo|banjo bolts|bolt , banjo",
    "noun:banjo": "ring eye|banjo ring|ring banjo|eye|banjo eye fitting|"
    "banjo|banjo eye|banjo fitting|banjo adaptor|banjo adapter",
    "noun:coupler": "cplr|cplg|cpl|"
    "coupler|coupling|silicone coupler|couplers|connector hose|"
    "silicone joiner|joiner hose|straight coupler",
    "noun:silicone": "silicone|silicon|sil|silicone rubber",
    "noun:joiner": "hose connector|hose connector straight|straight hose connector|barbed hose connector|inline hose connector|hose joiner straight|hose coupling|straight hose joiner|"
    "hose joiner|hose connector barbed|barb joiner|barbed joiner|hose mender|"
    "hose coupler barbed|hose union",
    "noun:plate": "spacer plate|oil filter take off plate|sandwich , oil filter|plate , take off|oil take off plate|oil cooler take off plate|oil cooler sandwich plate|plate sandwich|plate , sandwich|oil cooler plate|oil filter take off|oil thermostat plate|"
    "take off plate|takeoff plate|sandwich plate|sandwich|takeoff sandwich"
    "|takeoff plate sandwich|oil takeoff plate sandwich|take off plate sandwich|sandwich adaptor|plate|"
    "filter plate|sandwich take off plate|sandwich takeoff plate|oil filter sandwich plate",
    "noun:head": "head , filter|fltr head|head , remote filter|remote filter adaptor|remote filter block|"
    "remote filter head|filter head|remote filter mount|filter mount|remote oil filter head|"
    "remote head|remote filter housing|oil filter head|head",
    "noun:y block": "y block|y piece|y adaptor|y adapter|y fitting|y|wye|y splitter",
    "noun:gauge port": "gauge hole|gauge tapping|npt tapping|gauge take off|pressure take off|pressure tapping|fuel pressure take off|gauge boss|"
    "gauge port|gauge adaptor|gauge adapter|sensor port|gage port|"
    "pressure port|port gauge|gauge tapping|sender port|with gauge port",
    "noun:gauge tee": "gauge tee|gage tee|sensor tee",
    "noun:sensor adaptor": "for sensor|for sender|for gauge sender|for temp sensor|for temperature sensor|for pressure sensor|for oil pressure sensor|for a sensor|"
    "adptr sensor|adpt sens|adpt sensor|sensor fitting|sender fitting|adaptor , sensor|adapter , sensor|gauge sensor fitting|temp sender adaptor|sensor boss adaptor|adaptor sensor|sens adpt|oil pressure sender adaptor|oil temp sensor adaptor|pressure sender adaptor|gauge fitting|"
    "sensor adaptor|sensor adapter|gauge sender adaptor|sender adaptor|"
    "sender adapter|temp sensor adaptor|temperature sensor adaptor|pressure sensor adaptor|"
    "sensor reducer|gauge sensor adaptor",
    "noun:tube nut": "nut and sleeve|sleeve and nut|nut with sleeve|nut sleeve|nut , and sleeve|nut & sleeve|"
    "nut , tube|nut tb|brake line nut|hydraulic line nut|line nut|brake tube nut|male brake nut|pipe union nut|tubing nut|b nut|tube fitting nut|flare tube nut|"
    "tube nut|nut tube|nut , tube coupling|tube coupling nut|nut tube coupling|"
    "nut , tube|tube sleeve nut|pipe nut|brake pipe nut|brake nut|tube nuts|union nut|coupling nut|"
    "pipe nuts|male tube nut|nut , coupling",
    "noun:panel washer": "washer , bulkhead|wshr , pnl|washer for bulkhead|bulkhead panel washer|panel wshr|washer pnl|sealing washer for bulkhead|"
    "panel washer|wshr pnl|washer panel|pnl wshr|bulkhead washer|washer , panel|"
    "backing washer bulkhead|panel washers|bulkhead washers|wshr blkhd|washer bulkhead",
    "noun:washer": "washer|wshr|washers|sealing washer|crush washer|seal ring|sealing ring|"
    "sealing washers|crush washers|ring seal|joint washer|copper washer|seal washer|flat washer",
    "noun:bonded": "bonded|bonded washer|bonded seal|bonded seals|bonded washers|bonded sealing washer|"
    "washer bonded|seal bonded|seal washer bonded|wshr bonded|washer , bonded|seal , bonded",
    "noun:oring": "orng|orngs|"
    "o ring|o rings|oring|orings|o ring seal|o ring seals|ring o|or",
    "noun:olive": "olv|olive , ptfe|sleeve ferrule|olive brass|brass olive|spare ptfe olive|hose end olive|olives ptfe|replacement olives|compression olive|"
    "olive|olives|ptfe olive|ferrule olive|spare olive|spare olives|replacement olive",
    "noun:lock nut": "ln|counter nut|check nut|"
    "nut jam|nut , jam|jam nut for adjustable|lknt|nut lck|"
    "lock nut|locknut|jam nut|lock nuts|nut lock|nut , lock|jamnut|jam nuts",
    "noun:p clip": "clp p|clamp , cushioned|clip , p|clip , loop|loop clip|clip cushioned|p clip lined|cushion loop clamp|cushioned p clip|rubber lined p clip|lined p clip|"
    "p clip|p clips|p clamp|p type|clp p type|p type clip|loop clamp|clamp loop|"
    "clamp , loop|cushioned clamp|p clamps|clip p type|cushion clamp|hose support clip",
    "noun:t-bolt clamp": "clp t bolt|clmp t bolt|clamp , t bolt|tbolt|t bolt band clamp|"
    "t bolt clamp|t bolt clamps|t bolt|t bolt hose clamp|clamp t bolt|tbolt clamp|"
    "t bolt clip",
    "noun:worm clamp": "wrm drv|clp worm|clp worm drv|worm drv|clmp worm|clamp , worm drive|clamp , hose , worm drive|worm|clamp hose worm drive|worm drive band|worm gear hose clamp|worm screw clamp|clp wrm drv|worm clip|"
    "worm drive|worm drive clip|worm drive hose clip|worm drive hose clips|worm clamp|"
    "worm drive clamp|worm drive hose clamp|worm drive clips|worm gear clamp|clamp worm drive|"
    "hose clip worm drive|clip worm drive|worm drive clamps|worm drive hose clamps",
    "noun:fuel clamp": "clp fuel|clamp , fuel|fuel injection clip|clp full wrap|clamp , full wrap|clamp , fuel hose|fuel line clip|full wrap fuel clamp|"
    "fuel clamp|fuel hose clamp|fuel line clamp|fuel injection clamp|full wrap clamp|"
    "fuel clip|fuel hose clip|fuel injection hose clamp|full wrap|fuel hose clips|fuel hose clamps|"
    "mini fuel clamp|fuel injection hose clip|efi clamp|efi hose clamp",
    "noun:clamp": "hose clip|hose clips|hose clamp|hose clamps|clip|clamp|clp|clmp|clips|clamps",
    "noun:v-band clamp": "clamp vband|v band clmp|clp v band|clp vband|v clamp|quick release v band clamp|v band only clamp|"
    "v band clamp|vband clamp|clamp v band|v band clamps|clamp , v band",
    "noun:v-band flange": "v band flange|vband flange|flange v band|v band flanges|flange , v band",
    "fam:vband": "v band|vband",
    "noun:v-band ring": "v band ring|v band sealing ring|v band gasket|v band seal|v band o ring|"
    "sealing ring v band|gasket v band|gasket , v band",
    "noun:drain flange": "turbo oil drain|oil drain|turbo drain|turbo oil return|turbo return|oil return|"
    "drain flange|turbo drain flange|return flange|turbo return flange|"
    "oil drain flange|turbo oil drain flange|oil return flange|turbo oil return flange|flange",
    "noun:flange gasket": "gskt|gskt flange|flange gskt|gskt , flange|turbo return gasket|turbo return flange gasket|oil drain gasket|return gasket|"
    "flange gasket|gasket|drain gasket|turbo drain gasket|gasket flange|"
    "gasket , flange|turbo drain flange gasket|drain flange gasket",
    "noun:flange plug": "blanking plate|block off plate|blank plate|blanking flange",
    "noun:flange bolt": "flange bolt|flange bolts|bolt flange",
    "noun:screen": "scrn|screen , inline|strnr|"
    "screen|inline screen|feed screen|turbo feed screen|mesh screen|screen filter|"
    "strainer|inline strainer|turbo oil feed screen|turbo screen",
    "noun:jet": "jet , oil|turbo oil feed jet|oil restrictor jet|jet restrictor|restricted|feed jet|oil feed jet|turbo feed jet|restrictor adaptor turbo|"
    "jet|restrictor jet|turbo oil restrictor jet|turbo oil restrictor|oil jet|turbo jet|"
    "jetted|turbo restrictor|turbo feed restrictor|oil feed restrictor|turbo oil feed restrictor",
    "noun:restrictor": "rstr|restr|restrictor , inline|rstrctr|"
    "restrictor|inline restrictor|restrictors|restrictor fitting",
    "noun:filter": "fltr|inline fltr|fltr inline|fltr , inline|filt|inline filt|fltr fuel|fuel fltr|filter , fuel|filter fuel|"
    "inline fuel filter|fuel filter|inline filter|fuel filter inline|filter inline|"
    "inline oil filter|filter in line|in line fuel filter|in line filter|filter , fuel , inline|"
    "filter , inline",
    "noun:check valve": "valve , one way|vlv chk|vlv , chk|valve non return|inline check valve|inline non return valve|anti return valve|anti drainback valve|"
    "check valve|non return valve|one way valve|nrv|non return|one way|chk valve|"
    "chk vlv|check vlv|non return check valve|with check valve|with non return valve|valve check|"
    "valve , check|valve , non return|nonreturn valve|non return vlv|integral check valve",
    "noun:pipe": "pipe|charge pipe|tube bend|alloy tube",
    "noun:tube": "tube|tubing|hard tube|hard line|hardline|brake pipe|pipe tube|hard pipe",
    "noun:hose": "hose|hoses|hose line|hosing|line hose",
    "noun:heat sleeve": "slv heat|heat slv|heat shield sleeving|sleeve , heat reflective|sleeve , reflective|heat reflecting sleeve|"
    "heat sleeve|heat reflective sleeve|reflective sleeve|heat shield sleeve|"
    "heat reflective sleeving|heat sleeving|sleeve heat|sleeve , heat|aluminised heat sleeve|"
    "heat protection sleeve|sleeve heat reflective|thermal sleeve",
    "noun:fire sleeve": "slv fire|fire slv|sleeving fire|"
    "fire sleeve|fire sleeving|firesleeve|sleeve fire|silicone fire sleeve|"
    "sleeve , fire",
    "noun:chafe sleeve": "abrasion|chafe|anti chafe|"
    "slv chafe|chafe slv|sleeve , abrasion|anti chafing sleeve|chafe protection sleeve|chafe guard|abrasion guard|"
    "chafe sleeve|abrasion sleeve|chafe guard sleeve|anti chafe sleeve|"
    "abrasion sleeving|braided sleeve|braided sleeving|protective sleeve|chafing sleeve|sleeve abrasion|"
    "sleeve , chafe|anti abrasion sleeve|chafe sleeving|nylon braided sleeve",
    "noun:grommet": "grommet , panel|grommet , rubber|grmt rub|grommet rubber|firewall grommet|bulkhead grommet|rubber firewall grommet|blkhd grommet|"
    "grommet|grommets|panel grommet|rubber grommet|rubber panel grommet|grmt",
    "noun:paste": "thread paste|thread sealing paste|thread sealant|sealing paste|paste|pipe sealant|"
    "thread sealant paste|pipe thread sealant|thread compound",
    "noun:hose tag": "tag , hose|tag hose|hose id tag|hose identification tag|line label|id tag|hose marker|hose id tags|hose markers|"
    "hose tag|hose tags|hose label|hose labels|line tag|line tags",
    "noun:bonding strap": "strap bonding|strap , bonding|braided bonding strap|strp bonding|braided earth strap|braided bonding lead|"
    "bonding strap|earth strap|bonding lead|earthing strap|ground strap|"
    "bonding braid|fuel cell bonding strap",
    # families of ends
    "fam:flare_37": "jic|flare|flr|flare end|flare fitting|an flare|jic flare|flared|cone",
    "fam:flare_45": "sae flare|flare sae|45 flare",
    "fam:inverted_flare": "inverted flare|inv flare|double flare|inverted|inv flr|invt flare",
    "fam:bubble_flare": "bubble end|sae bubble|bubble flare brake|metric bubble flare|"
    "bubble flare|bubble|iso flare|din flare|bubble flr|iso bubble flare",
    "fam:orb_unf": "orb|o ring boss|oring boss|boss o ring|sae boss|boss|sae o ring boss|"
    "o ring port|orb port|unf boss|sae orb",
    "fam:orfs": "orfs|o ring face seal|face seal|oring face seal|orfs face seal",
    "fam:npt": "npt|mnpt|national pipe|pipe thread npt|pipe npt",
    "fam:nptf": "nptf|dryseal|dry seal",
    "fam:bspp": "bspp|bsp parallel|g|parallel bsp|bsp parallel thread|parallel|gas parallel",
    "fam:bspt": "bspt|bsp taper|bsp tapered|taper bsp|rc|r|tapered bsp|taper",
    "fam:bsp": "bsp|gas|bspm",
    "fam:iso6149": "metric o ring|metric o ring boss|metric orb|o ring stud|stud o ring",
    "fam:flat": "flat washer seat|flat sealing face|flat seal face|washer sealing|for crush washer|with crush washer|inc sealing washer|incl sealing washer|with alloy washer|with aluminium sealing washer|with alu sealing washer|and aluminium washer|for alu washer|for aluminium washer|w alu washer|incl alu washer|incl aluminium washer|including aluminium washer|plus washer|including washer|includes washer|seal washer included|washer included|incl seal ring|incl sealing ring|with sealing ring|for sealing ring|for seal ring|"
    "flat face|flat seat|flat seal|flat sealing|flat|washer seat|for washer|with washer|"
    "aluminium washer|aluminium sealing washer|alu sealing washer|washer seal|washer face|w washer|"
    "inc washer|incl washer|and washer|alloy washer|alu washer|seal ring alu|seal washer alu|"
    "incl aluminium sealing washer|for sealing washer|with sealing washer|with aluminium washer|"
    "with seal ring|with seal ring alu|with alu washer|collar",
    "fam:barb": "barb|barbed|hose tail|hose barb|barbs|hose nozzle|hose spigot|push barb|tail|"
    "hosetail|barb end|hose stem|hose tails|nozzle|spigot",
    "fam:bead": "bead|beaded|beaded hose tail|beaded end|bead rolled|bead roll|"
    "rolled bead|beaded tail|beaded spigot|beads|swaged bead|beaded tube end|hose bead|"
    "beaded hose spigot",
    "fam:qc": "quick connect coupling|j2044|quick coupler|snap on|quick conn|q c|qk connect|fuel quick connect|fuel rail quick connect|push to connect|"
    "qc|quick connect|quick connector|quick disconnect|quick fit|quick release fuel|"
    "quick connect fitting|efi quick connect|push fit quick connect",
    "fam:weld": "weld|weld on|weld in|weldable|welded|to weld",
    "fam:spinon": "spin on|oil filter|filter|canister",
    # genders
    "g:m": "males|outside thread|male thread|outer thread|"
    "male|m|ml|mal|external thread|ext|ext thread|external|mle",
    "g:f": "inside|inner thread|female thread|inside threaded|females|inward thread|"
    "female|f|fem|fml|internal thread|int|int thread|internal|fm|femal|femail|inside thread",
    "g:nut": "swivel nut|female swivel|swivel female|f swvl|swvl f|fem swivel|female swvl|nut|"
    "female nut|swivel nut female|female swivel nut|fem swvl|female swiv|swivelling nut|"
    "f swivel|swivel f|female swivelling|nut swivel|flr f swvl|swvl nut",
    # turning
    "turn:full swivel": "360 ° full swivel|fully rotating|full swiveling|fully swiveling|rotates 360|full flow swivel|dbl swvl|swivels 360 °|360 degree swivel|full swivel 360|360 rotation|"
    "full swivel|full swvl|fully swivel|fully swivelling|full swivle|360 swivel|"
    "360 ° swivel|swivels 360|full swiv|free swivel|swivelling|full swivelling|360|full swivel type|"
    "rotating|swivels freely|fswvl|full swl|fs|full swivell|full 360 swivel|full rotation",
    "turn:fixed": "fixed|fxd|non swivel|no swivel|non swvl|fix|non swivelling|nonswivel|not swivel|"
    "rigid|fixd|none swivel|non swiveling|fixed type",
    "turn:swivel": "swivel|swvl|swivle|swiv|swivel type|swivell",
    # straight
    "angle:0": "straight|str|strait|strt|staright|strght|inline straight|straigt|stright|stra|0",
    # hose kinds
    "hose:rubber": "for rubber hose|rubber race hose|race hose rubber|rbr|cutter style for rubber lined braided hose|nitrile lined|nitrile liner|rubber inner|rub hose|rubber core|brd rub hose|rubber lined hose|"
    "rubber|rub|braided rubber|rubber braided|rubber hose|brd rub|rub brd|cpe|"
    "rubber lined|cutter|cutter style|nitrile braided|steel braid rubber|rubber lined braided|"
    "braided rubber hose|rubber braid|wire braid rubber|ss brd rubber|braided rubber type|rubr|"
    "rubber braided type|cutter type|cpe lnr|cpe liner|cpe lined|synthetic rubber",
    "hose:PTFE": "ptfe inner|ptfe core|ptfe braided|braided ptfe|smooth bore ptfe hose|ptfe braided hose|ptfe smooth bore|smoothbore ptfe|"
    "ptfe|ptfe lined|ptfe hose|tfe|ptfe lnr|ptfe liner|smooth bore ptfe",
    "hose:push-on": "push on|pushon|push fit hose|push on rubber|push on hose|"
    "push on rubber hose|push on type|push on barbed|barbed push on|push on barb",
    "liner:fluorosilicone": "fluorosilicone|fluorosilicone lined|fluoro silicone|fluoro lined|"
    "fluorosilicone lining|fluoro|fluorosilicone liner|fvmq|oil resistant lined",
    "liner:conductive": "conductive|cond|anti static|antistatic|carbon lined|carbon|carbon filled|"
    "cond lnr|conductive liner|static dissipating|antistatic liner|carbon liner|anti static liner|"
    "conductive lined|carbon black liner|conductive carbon",
    "liner:plain": "non conductive|non cond|white liner|non carbon|nonconductive",
    "bore:full": "full bore|full flow bore|fullbore|full bore size|large bore",
    "bore:tube": "tube bore|tube equivalent|tube equivalent bore|tubebore|small bore",
    "use:epdm": "epdm", "use:heater": "heater|coolant|water|radiator hose|cooling",
    "use:fuel": "fuel|fuel line|fuel hose|petrol|gasoline|injection",
    "use:vacuum": "vacuum|vacum|vac|boost|reference|boost reference|vacuum boost|vacume",
    "use:oil": "oil|turbo|turbo oil|engine oil|turbo feed",
    "use:air": "charge|intercooler|induction|charge air",
    "use:breather": "vent|crankcase vent|"
    "breather|crankcase breather",
    "rubber:NBR": "nbr|nitrile|nitrile rubber|nitril",
    "rubber:FKM": "fkm|fpm|fluorocarbon|fluoroelastomer|fluorocarbon rubber",
    "rubber:silicone": "vmq",
    "mat:aluminium": "aluminium|alu|al|alloy|ally|alum|aluminum|aluminium alloy|al aly|alluminium|"
    "aluminum alloy|al alloy|6061|7075|aluminiun|alumininium|alumin",
    "mat:steel": "zinc nickel|zinc nickel plated|zinc nickel steel|steel zinc nickel|"
    "steel|stl|mild steel|zinc plated steel|steel zinc|carbon steel|zinc plated|zn|"
    "zinc|ms|plated steel|steel zinc plated|steel plated|galv|mild",
    "mat:stainless": "stainless|stainless steel|ss|stainles|inox|st steel|a2|316|304|sst|stnls",
    "mat:brass": "brass|brs", "mat:copper": "copper|cu",
    "mat:cunifer": "copper nickel|cupro nickel|cunifer|kunifer",
    "mat:titanium": "titanium|ti", "mat:plastic": "plastic|nylon|pvc|polyurethane",
    "trait:adjustable": "adj ln|adj with ln|with counter nut|adjustable with counter nut|adjustable , with lock nut|"
    "adjustable|adj|positionable|with lock nut|w locknut|with locknut|w lock nut|"
    "adjustable with lock nut|w lknt|with jam nut|w jam nut|orientable|adjustable lock nut|and locknut",
    "trait:hump": "hump|hump hose|humped|hump coupler|single hump",
    "trait:double": "double|twin|dual|2 way|double hump",
    "trait:lined": "cushioned|lined|rubber lined|cushion|rubber cushioned|epdm lined|insulated",
    "trait:locking": "locking|with lock|lockable",
    "trait:magnetic": "magnetic", "trait:branch": "on branch|on the branch|branch|on side|on the side|"
    "side|on the leg|on leg|on the stem",
    "trait:run": "on run|on the run|run|run end|on the end of run",
    "all:bead": "rolled beads|with rolled beads|with beads|beads rolled|beaded both ends|beaded ends|bead both ends|beads both ends|both ends beaded|"
    "bead rolled both ends|beaded each end|with beaded ends",
    "all:all": "both ends|all ends|all 3 ends|all|each end|ends|both|3 ends|all three ends|every end|"
    "all three|throughout|all sides|either end",
    "rest:hex": "stainless element|stainless steel element|mesh element|micron element|steel element|stainless mesh element|with element|"
    "internal hex|internal hexagon|hex internal|external hex|hexagon socket|int hex|"
    "hex socket|socket head|hex hd|hex head|internal hex head|with collar|hexagon internal|int hexagon",
    "rest:inlet": "inlet|in|feed", "rest:outlet": "outlet|outlets|out|outs|ports",
    "noun:lockoff": "less nut|no nut|without nut|nut not included|excl nut|w o nut|with nut|incl nut|"
    "inc nut|and nut|c w nut|with nut included|complete with nut|w nut|without locknut|less locknut|"
    "no locknut|bolt not included|bolt m14x1.5 not included|without bolt|less bolt|excl bolt|"
    "not included|with o ring|w nbr or|with nbr o ring|inc o ring|incl o ring|w or|including o ring|"
    "with fkm o ring|c w o ring|and o ring|with seal|w o ring|w fkm or|with o rings|incl o rings|"
    "nbr o ring included|o ring included|incl nbr o ring|with bonded seal recess|bonded seal recess|"
    "with bonded seal|with bonded washer|incl bonded seal|incl bonded washer|for bonded seal|w bonded|"
    "supplied with o ring|with epdm o ring|o ring supplied|o ring incl|with sleeve|w sleeve|and sleeve|"
    "incl fkm o ring|incl epdm o ring|w epdm or|with o ring seal|for bonded washer|o ring fitted|"
    "with olive|w olive|incl olive|inc olive|olive included|and olive",
    # separators
    "sep:to": "to|x|by|into|onto|-|>|from|2",
    "sep:and": "and|with|w|plus|c w|incl|inc|including|&",
}  # fmt: skip

_NOISE = frozenset(
    "black blk blue blu red silver gold golden natural polished anodised anodized anod finish colour"
    " color the a of for style type new brand quality genuine heavy duty hd high performance race"
    " racing motorsport hex hexagon head short long an dash size thread threaded tapered unf un uns"
    " unc sae fit fits series single piece pc item per id od bore dia diameter inside outside ids"
    " internal hex degree degrees deg 1st with on is are it as at be used item premium pro standard"
    " std nom nominal wall mm inch inches cm aly aly car auto universal light lightweight"
    " line lines lnr liner lining brd braid braided brided stainless ss outer cover covered"
    " sealing seal seals included forged machined cnc billet satin matt matte gloss chrome"
    " pressure rated brake clutch gearbox diff engine steering take off takeoff cell body mandrel screw rolled type collar port e85 bar psi max working temp flow free clear sh 75sh 70sh shore durometer"
    " only matching duty resistant alcohol e85 ethanol methanol compatible suitable use"
    " strong textile wire sided ended end ends one way way hole holes bolt centres centers ctrs mounting"
    " 4 ply ply reinforced layer layers rubber connection connections compact turbo inline grade"
    " plain unit units unused surplus spare tail section clean as shown see nice rubberised"
    " non pcd wide band bands joint joints end wrap micron nut cap".split()
)  # fmt: skip

#: Nouns of things that are no part of a line, and of kits.
STOP = frozenset(
    "set sets kit kits assembly assy gloves glove shirt spanner spanners wrench wrenches tool tools gauge gage"
    " sender sensor probe tank pump pumps radiator cooler coolers regulator element concentrate can"
    " sticker stickers decal decals bracket brackets thermostat manifold rail carburettor relocation"
    " spacer die tap taps crimp crimped ferrule ferrules camlock spiral tape spring springs bracket"
    " relief ball shut shutoff shutter valve mixed selection assorted assortment box breather oilcan"
    " vintage litre litres fluid oil-can bearing gasketset workshop mug cable ties tie zip switch"
    " solenoid thermometer bottle reservoir header swirl pot catch dipstick book manual fan core"
    " injector injectors swage swaged crimpon dry break quick coupling made custom assembled"
    " cleaner degreaser brush vice vise jaws jaw cutters shears bender benders flaring"
    " wideband lambda oxygen wire wiring loom battery pulley belt hammer torch helmet".split()
)  # fmt: skip

_ALLOWED_STOP = frozenset(
    ("valve", "gauge", "gage", "sensor", "sender", "quick", "coupling", "wire")
)


def _phrases() -> dict[str, list[tuple[tuple[str, ...], tuple[str, str]]]]:
    table: dict[str, list[tuple[tuple[str, ...], tuple[str, str]]]] = {}
    for meaning, phrases in _MEANINGS.items():
        kind, _, value = meaning.partition(":")
        for phrase in phrases.split("|"):
            words = tuple(phrase.split())
            table.setdefault(words[0], []).append((words, (kind, value)))
    for found in table.values():
        found.sort(key=lambda item: -len(item[0]))
    return table


PHRASES = _phrases()


@dataclass(frozen=True, slots=True)
class Word:
    """One thing that a description says: its kind, its value, and the text it stood in."""

    kind: str
    value: str


def read_words(description: str) -> tuple[Word, ...]:
    """Take a description apart.

    Parameters
    ----------
    description : str
        Free text.

    Returns
    -------
    tuple of Word
        Sizes (``dash``, ``un``, ``metric``, ``inch``, ``mm``, ``range``, ``dim``, ``num``), and
        what the phrases mean (``noun``, ``fam``, ``g``, ``turn``, ``angle``, ``hose``, ``mat``
        ...). Noise is left out, words of no list are ``unknown``, ``stop`` is another thing.

    Examples
    --------
    >>> [(w.kind, w.value) for w in read_words("ADPT AL 1/2NPT-M X -10 FLR-M STR BLK")][:5]
    [('noun', 'adaptor'), ('mat', 'aluminium'), ('inch', '1/2'), ('fam', 'npt'), ('g', 'm')]
    """
    text = description.lower().translate(_MARKS)
    text = re.sub(r"(?<=\d),(?=\d{1,2}\b)", ".", text)
    text = re.sub(r"\bw/ ?", "with ", text)
    if "mm" in text:
        text = _INCHES.sub(" ", text)
    text = _AMOUNTS.sub(" ", text)
    lengths = _LENGTHS.search(text) is not None
    text = _PACKS.sub(" ", text)
    text = re.sub(r"(?<=[a-z])[-.'](?=[a-z])", " ", text)
    raw: list[tuple[str, str]] = []
    for found in _TOKEN.finditer(text):
        kind = found.lastgroup or ""
        value = found.group(kind) if kind else ""
        if kind in ("as568", "mm", "num", "inch", "word", "mark", "dim"):
            raw.append((kind, value))
        elif kind in ("dash", "an", "nan", "hash"):
            raw.append(("dash", f"-{int(value)}"))
        elif kind == "pitch":
            pitch = float(value)
            raw.append(("metric", f"M{int(found.group('metric'))}x{pitch:g}"))
        elif kind == "bare":
            raw.append(("metric", f"M{int(value)}"))
        elif kind == "tpi":
            raw.append(("un", f"{_fraction(found.group('un'))}-{value}"))
        elif kind == "high":
            raw.append(("range", f"{float(found.group('low')):g}-{float(value):g}"))
        elif kind == "angle":
            raw.append(("angle", str(int(value))))
        elif kind == "mult":
            raw.append(("mult", value))
        elif kind == "spec":
            raw.extend(_spec(value))
    return _settled(_joined(raw), lengths)


def _settled(words: list[Word], lengths: bool) -> tuple[Word, ...]:
    """Bare numbers that are dashes become so; a span that is of no clamp is two sizes."""
    is_ported = any(w.value in ("plate", "head") for w in words if w.kind == "noun")
    is_clamp = any(w.kind == "noun" and "clamp" in w.value for w in words)
    found: list[Word] = []
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else Word("", "")
        before = words[at - 1] if at else Word("", "")
        is_piped = (after.kind == "fam" and after.value in _PIPES) or (
            before.kind == "fam" and before.value in _PIPES
        )
        if word.kind == "angle" and word.value == "45" and after == Word("fam", "flare_37"):
            continue  # the cone's angle, not the fitting's
        if word == Word("fam", "flare_37") and before == Word("angle", "45"):
            found.append(Word("fam", "flare_45"))
        elif (
            word.kind == "num"
            and word.value in ("2", "3", "4")
            and (after.kind in ("dash", "metric", "un") or (is_ported and after.kind == "inch"))
        ):
            found.append(Word("mult", word.value))
        elif word.kind == "num" and word.value in ("1", "2") and is_piped:
            found.append(Word("inch", word.value))
        elif (
            word.kind == "dash" and word.value in ("-1", "-2") and before.kind == "fam" and is_piped
        ):
            found.append(Word("unknown", word.value))
        elif word.kind == "num" and is_dash(words, at):
            found.append(Word("dash", f"-{int(word.value)}"))
        elif word.kind == "range" and not is_clamp:
            low, _, high = word.value.partition("-")
            found += [Word("mm", low), Word("sep", "to"), Word("mm", high)]
        else:
            found.append(word)
    if lengths:
        found.append(Word("sold", "length"))
    return tuple(found)


_PIPES = frozenset(("npt", "nptf", "bspp", "bspt", "bsp"))


def is_dash(words: list[Word], at: int) -> bool:
    """Whether a bare number is a dash size: beside a family that has them, or a gender."""
    value = words[at].value
    if "." in value or not 2 <= int(value) <= 32:
        return False
    after = words[at + 1] if at + 1 < len(words) else Word("", "")
    before = words[at - 1] if at else Word("", "")
    near = {
        after.value if after.kind == "fam" else "",
        before.value if before.kind == "fam" else "",
    }
    if near & {"orb_unf", "flare_37", "orfs", "flare_45"}:
        return True
    return after.kind == "g" or (after.kind, after.value) == ("sep", "to")


def _fraction(text: str) -> str:
    """An inch size as a fraction: ``0.750`` is ``3/4``, ``1 1/16`` is ``1-1/16``."""
    text = text.strip().replace(" ", "-")
    if "." not in text:
        return text
    sixteenths = round(float(text) * 16)
    if abs(float(text) * 16 - sixteenths) > 0.02:
        return text
    whole, part = divmod(sixteenths, 16)
    if not part:
        return str(whole)
    below = 16
    while part % 2 == 0:
        part, below = part // 2, below // 2
    return f"{whole}-{part}/{below}" if whole else f"{part}/{below}"


def _spec(text: str) -> list[tuple[str, str]]:
    plain = re.sub(r"[ -]", "", text)
    if plain.startswith("mil"):
        return [("spec", "MIL-H-8794")]
    if plain.startswith("100r5"):
        return [("spec", "SAE 100R5")]
    if "30r" in plain:
        return [("spec", f"fuel J30R{plain.rpartition('r')[2]}")]
    for start, family in (
        ("iso6149", "iso6149"), ("iso9974", "flat"), ("din3852", "flat"), ("iso1179", "bspp"),
        ("iso228", "bspp"), ("iso11926", "orb_unf"), ("j1926", "orb_unf"), ("iso8434", ""),
        ("j514", "flare_37"), ("j1453", "orfs"), ("j512", "flare_45"), ("iso7", "bspt"),
    ):  # fmt: skip
        if plain.startswith(start):
            return [("fam", family)] if family else []
    return [("stop", text)]


@lru_cache(20_000)
def _meant(word: str) -> str:
    """The one word of ours that a word is, but for one slip of the fingers; empty for none."""
    if len(word) < 5:
        return ""
    found = [known for known in _vocabulary().get(word[0], ()) if _is_slip(word, known)]
    return found[0] if len(found) == 1 else ""


@cache
def _vocabulary() -> dict[str, tuple[str, ...]]:
    words = {word for start in PHRASES.values() for phrase, _ in start for word in phrase}
    words |= _NOISE | STOP | _NUMBERS.keys()
    heap: dict[str, list[str]] = {}
    for word in sorted(words):
        if len(word) >= 5 and word.isalpha():
            heap.setdefault(word[0], []).append(word)
    return {start: tuple(found) for start, found in heap.items()}


def _is_slip(one: str, two: str) -> bool:
    """Whether two words differ by one letter added, left out, changed or changed over."""
    if abs(len(one) - len(two)) > 1 or one == two:
        return False
    at = next(
        (i for i, (a, b) in enumerate(zip(one, two, strict=False)) if a != b),
        min(len(one), len(two)),
    )
    if len(one) == len(two):
        rest = one[at + 1 :] == two[at + 1 :]
        over = one[at : at + 2] == two[at : at + 2][::-1] and one[at + 2 :] == two[at + 2 :]
        return rest or over
    long, short = (one, two) if len(one) > len(two) else (two, one)
    return long[at + 1 :] == short[at:]


_SPOKEN = {
    "eighth": "1/8", "eighths": "/8", "quarter": "1/4", "quarters": "/4", "half": "1/2",
    "sixteenth": "1/16",
}  # fmt: skip


def _joined(raw: list[tuple[str, str]]) -> list[Word]:
    """Phrases in place of words, spoken numbers in place of names."""
    found: list[Word] = []
    at = 0
    while at < len(raw):
        kind, value = raw[at]
        if kind == "word":
            length, words = _phrase(raw, at)
            if length:
                if words is not None:
                    found.append(words)
                at += length
                continue
            number = _number(raw, at)
            if number is not None:
                found.append(number[1])
                at += number[0]
                continue
            if value not in STOP and value not in _NOISE and (meant := _meant(value)):
                raw[at] = ("word", meant)
                found.append(Word("typo", value))
                continue
            if value in STOP:
                found.append(Word("stop", value))
            elif value not in _NOISE:
                found.append(Word("unknown", value))
        elif kind == "inch":
            found.append(Word("inch", _fraction(value)))
        elif kind == "num":
            found.append(Word("num", value))
        elif kind == "mm":
            found.append(Word("mm", f"{float(value):g}"))
        elif kind == "dim":
            found.append(Word("dim", value.replace(" ", "")))
        elif kind == "mark":
            if value in ",;|()":
                found.append(Word("comma", value))
            elif value in ">/&+":
                found.append(Word("sep", "to" if value == ">" else value))
        else:
            found.append(Word(kind, value))
        at += 1
    return found


def _phrase(raw: list[tuple[str, str]], at: int) -> tuple[int, Word | None]:
    for words, (kind, value) in PHRASES.get(raw[at][1], ()):
        end = at + len(words)
        if end <= len(raw) and all(raw[at + i][1] == word for i, word in enumerate(words) if i):
            return len(words), Word(kind, value)
    return 0, None


def _number(raw: list[tuple[str, str]], at: int) -> tuple[int, Word] | None:
    def word(i: int) -> str:
        return raw[at + i][1] if at + i < len(raw) else ""

    first = word(0)
    if first == "dash" or first == "size":
        if word(1) in _NUMBERS:
            return 2, Word("dash", f"-{_NUMBERS[word(1)]}")
        if word(1).isdigit() and len(word(1)) <= 2:
            return 2, Word("dash", f"-{int(word(1))}")
        return None
    if first == "three" and word(1) in ("eighths", "quarters", "eighth", "quarter"):
        return _with_inch(raw, at, 2, "3" + _SPOKEN[word(1).rstrip("s") + "s"])
    if first == "five" and word(1) in ("eighths", "eighth"):
        return _with_inch(raw, at, 2, "5/8")
    if first in ("forty", "fourty") and word(1) == "five":
        return 2, Word("angle", "45")
    if first in ("fortyfive", "ninty"):
        return 1, Word("angle", "45" if first == "fortyfive" else "90")
    if first == "number" and (word(1) in _NUMBERS or word(1).isdigit()):
        return 2, Word("dash", f"-{_NUMBERS.get(word(1)) or int(word(1))}")
    if first == "one" and word(1) in ("fifty", "twenty", "eighty"):
        return 2, Word("angle", {"fifty": "150", "twenty": "120", "eighty": "180"}[word(1)])
    if first in _NUMBERS and word(1) in ("sixteenth", "sixteenths") and _NUMBERS[first] % 2:
        return _with_inch(raw, at, 2, f"{_NUMBERS[first]}/16")
    if first == "seven" and word(1) in ("eighths", "eighth"):
        return _with_inch(raw, at, 2, "7/8")
    if first in ("eighth", "quarter", "half", "sixteenth"):
        return _with_inch(raw, at, 1, _SPOKEN[first])
    if first in ("ninety", "thirty", "sixty"):
        return 1, Word("angle", str(_NUMBERS[first]))
    if first == "inch" and word(1) == "and" and word(2) == "a" and word(3) in ("half", "quarter"):
        return 4, Word("inch", f"1-{_SPOKEN[word(3)]}")
    if first in ("one", "two", "three") and word(1) == "and" and word(3) in ("half", "quarter"):
        whole = {"one": 1, "two": 2, "three": 3}[first]
        return _with_inch(raw, at, 4, f"{whole}-{_SPOKEN[word(3)]}")
    if first in ("one", "two", "three", "four") and word(1) in ("inch", "in"):
        return 2, Word("inch", str({"one": 1, "two": 2, "three": 3, "four": 4}[first]))
    if first in _NUMBERS and word(1) in ("mil", "mm", "millimetre"):
        return 2, Word("mm", str(_NUMBERS[first]))
    if first in _NUMBERS:
        return 1, Word("num", str(_NUMBERS[first]))
    return None


def _with_inch(raw: list[tuple[str, str]], at: int, length: int, text: str) -> tuple[int, Word]:
    if at + length < len(raw) and raw[at + length][1] in ("inch", "in"):
        length += 1
    return length, Word("inch", text)
