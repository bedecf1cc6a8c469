# SPDX-License-Identifier: Apache-2.0
"""The trade's words and short forms for what it sells, by what they mean. [common practice]"""

#: Phrases by what they mean, "kind:value"; the longest that fits is taken.
_MEANINGS = {
    "quiet:":
    "wire braid|wire braided|wire reinforced|steel wire|all good|good condition|as new|"
    "outer cover|outer braid|outer sheath|outer jacket|outer diameter|outer dia|inner diameter|"
    "inner dia|inner liner|inner tube|brake line|line end|self centring|self centering|"
    "self centred|mist proof|oil mist proof|wire inserted|end user|long neck|cut to length|"
    "cut length|per side|of each|rust free|in stock|on request|ex stock",
    "fast:screw": "screw|screws|machine screw|cap screw|set screw|screw and nut|bolt and nut",
    "fam:taper": "taper|tapered",
    "noun:hose end":
    "hse end|hse ends|hose ends fittings|hose fttg|hose end reusable|reusable hose end|"
    "swivel hose end fitting|hose end|hose ends|he|hose fitting|hose fittings|hose end fitting|"
    "end|hoseend|hose endfitting|fitting for hose",
    "noun:adaptor":
    "adp|fttg|fttng|fittg|"
    "stud coupling|male stud coupling|straight stud coupling|straight male stud coupling|"
    "stud adaptor|stud adapter|rail end fitting|fuel rail fitting|fuel rail adaptor|"
    "fuel rail adapter|rail adaptor|rail adapter|rail fitting|rail end adaptor|"
    "pump outlet fitting|pump outlet adaptor|pump outlet adapter|pump inlet fitting|pump outlet|"
    "pump inlet|fuel pump outlet|fuel pump fitting|pump fitting|cooler adaptor|cooler adapter|"
    "oil cooler adaptor|oil cooler adapter|oil cooler fitting|tank fitting|tank adaptor|"
    "tank adapter|regulator fitting|regulator adaptor|carb fitting|carburettor fitting|"
    "screw in piece|threaded stud|male coupling|hex nipple|hexagon nipple|straight nipple|"
    "port stud|cooler fitting|gearbox fitting|gearbox adaptor|turbo feed fitting|"
    "turbo feed adaptor|oil feed adaptor|oil feed fitting|ftg|ftgs|ftng|adaptr|adapator|adptor|"
    "adater|straight adaptor|straight adapter|straight fitting|straight male stud|"
    "male to male adaptor|male to male adapter|screw in stud|screw in connector|screwed adaptor|"
    "threaded adaptor|adaptor|adapter|adaptors|adapters|adpt|adptr|adapt|adap|fitting|fittings|"
    "stud|connector|stud end|male stud|nipple|adaptor fitting|port adaptor|port adapter|"
    "screw in adaptor|screw in adapter|port fitting|male connector|screw in fitting|adaptor union",
    "noun:union": "union|unions|joiner|coupling union|un|union adaptor|union adapter",
    "noun:reducer":
    "jump up|jump down|jump size|jump size adaptor|reducing nipple|reducing adaptor straight|"
    "reduction piece|enlarger|rdc union|reduction|reducing adapter|reducer adaptor|reducer|rdcr|"
    "reducing|rdcg|reducing adaptor|rdc|stepped|step down|expander|reducers|step up",
    "noun:elbow":
    "stud elbow|male stud elbow|elbow adaptor|elbow adapter|elbow fitting|angle fitting|"
    "angle piece|elbow union|knee|elbow|elb|elbows|angle adaptor|compact elbow|angle|bend|elbo|"
    "angled",
    "noun:tee":
    "equal tee|unequal tee|run tee piece|stud tee|union tee|tee fitting|tee union|tee adapter|"
    "barrel tee|tee|t piece|t|tee piece|t pce|tees|t adaptor|tee adaptor|t block|t fitting",
    "noun:bulkhead":
    "bulkhead union|bulkhead fitting|bulkhead adaptor|bulkhead adapter|bulkhead connector|"
    "panel fitting|panel mount fitting|through bulkhead|bulkhead coupling|equal bulkhead|"
    "firewall fitting|bulkhead|blkhd|bulk head|bhd|blkhead|thru panel|through panel|bh",
    "noun:bulkhead nut":
    "nut for bulkhead fitting|nut for bulkhead union|back nut|backnut|bulkhead back nut|"
    "nut only for bulkhead|bulkhead nut|bulk head nut|nut blkhd|nut bulkhead|blkhd nut|bhd nut|"
    "nut for bulkhead|bulkhead locknut|bulkhead lock nut|nut , bulkhead|nuts bulkhead|"
    "bulkhead nuts",
    "noun:plug":
    "closing screw|closing plug|locking screw|sealing plug|sealing screw|socket screw plug|"
    "hex socket screw plug|hex socket plug|socket plug|socket head plug|allen plug|"
    "allen head plug|allen key plug|threaded plug|pipe plug|blind plug|magnetic drain plug|"
    "screwed plug|male plug|plug screw|sump plug|plug|plugs|blanking plug|screw plug|blank plug|"
    "plg|blanking screw|port plug|hex plug|stopper|blank off plug|hollow plug|drain plug",
    "noun:cap":
    "blank nut|blind nut|blank off cap|blank off caps|blank off nut|closing cap|sealing cap|"
    "blind cap|flare cap|female cap|flare cap nut|threaded cap|cap nut female|closing nut|cap|"
    "caps|blanking cap|blank cap|cap nut|blanking nut",
    "noun:silicone cap":
    "silicone end cap|silicone end caps|silicone blank|silicone blanking end|"
    "silicone blanking cap|silicone cap|blanking cap silicone|silicone bung",
    "noun:dust cap":
    "plastic blanking caps|plastic end caps|plastic protection cap|protection cap|"
    "protection caps|plastic transport cap|storage cap|cap , dust|cap , plastic|cap plstc|"
    "cap dust|dust plug|caps dust|plastic blanking cap|plastic end cap|transport cap|dust cap|"
    "dust caps|plastic dust caps|plastic cap|plastic caps|dustcap|dustcaps|protective cap|"
    "protective caps|plastic dust cap|cap plastic",
    "noun:test cap":
    "leak test set|leak test kit|leak test caps|leak test cap|leak test cap set|leak test plugs|"
    "leak test caps and plugs|pressure test kit|pressure testing caps|"
    "pressure test cap and plug set|cap and plug set|cap test|cap , test|test plug set|"
    "pressure test set|pressure test kit cap|pressure test caps and plugs|test caps and plugs|"
    "test cap and plug set|pressure test cap set|set of test caps|test plugs|test cap|test caps|"
    "pressure test cap|pressure test caps|test cap set",
    "noun:bung":
    "weld on threaded boss|welded boss|welded bung|weld fitting boss|weld in spud|weld in nipple|"
    "weld on stub|weld stub|weld tube|weld in nut|welding nut|weld nut|welding socket|"
    "weld on socket|welding boss|welding sleeve|welding nipple|welding stud|weld stud|"
    "bung , weld|boss , weld|fitting , weld|weld bng|weld in bung|bng|boss , weld in|"
    "bung , weld on|weld on spigot|weld on beaded tail|weld tail|weld on tail|"
    "weld on beaded hose tail|weld on hose spigot|weld in threaded boss|screw boss weld|"
    "weld in sleeve|weld nipple|weld on nipple|nipple weld|welding bung|weld spud|bung|weld bung|"
    "weld on bung|weld boss|weld in boss|weld on boss|bungs|weldable bung|weld on fitting|"
    "weld fitting|weld in fitting|weld on hose tail|weld on male|boss weld|bung weld|"
    "weld on adaptor|weld on adapter|weldable boss|weld socket|weld on female|weld in female|"
    "weld on male fitting|fitting weld on|weld in bush|weld in socket",
    "noun:bushing":
    "bsh|reducing nipple bush|red bush|reduction bush|thread reducer|reducing sleeve|"
    "thread reducing bush|bushing|bshg|bush|reducing bush|reducer bushing|reducing bushing|"
    "bushing reducer|reducer bush|pipe bushing|bushings|port reducer",
    "noun:banjo bolt":
    "single banjo bolt|banjo hollow screw|banjo union bolt|bolt for banjo|bolt hollow|"
    "banjo bolt single|hollow screw|banjo bolt hollow screw|banjo blt|blt banjo|bjo bolt|bjo blt|"
    "banjo screw|hollow bolt|banjo bolt|bolt banjo|banjo bolts|bolt , banjo",
    "noun:banjo":
    "banjo union|ring piece|ring connection|banjo end fitting|ring eye|banjo ring|ring banjo|eye|"
    "banjo eye fitting|banjo|banjo eye|banjo fitting|banjo adaptor|banjo adapter",
    "noun:coupler":
    "cplr|cplg|cpl|coupler|coupling|silicone coupler|couplers|connector hose|silicone joiner|"
    "joiner hose|straight coupler",
    "noun:silicone": "silicone|silicon|sil|silicone rubber",
    "noun:joiner":
    "inline hose joiner|hose repair connector|hose splice|barbed connector|barbed hose joiner|"
    "barbed reducing joiner|reducing hose joiner|double hose tail|hose to hose connector|"
    "hose connector|hose connector straight|straight hose connector|barbed hose connector|"
    "inline hose connector|hose joiner straight|hose coupling|straight hose joiner|hose joiner|"
    "hose connector barbed|barb joiner|barbed joiner|hose mender|hose coupler barbed|hose union",
    "noun:plate":
    "spacer plate|oil filter take off plate|sandwich , oil filter|plate , take off|"
    "oil take off plate|oil cooler take off plate|oil cooler sandwich plate|plate sandwich|"
    "plate , sandwich|oil cooler plate|oil filter take off|oil thermostat plate|take off plate|"
    "takeoff plate|sandwich plate|sandwich|takeoff sandwich|takeoff plate sandwich|"
    "oil takeoff plate sandwich|take off plate sandwich|sandwich adaptor|plate|filter plate|"
    "sandwich take off plate|sandwich takeoff plate|oil filter sandwich plate",
    "noun:head":
    "head , filter|fltr head|head , remote filter|remote filter adaptor|remote filter block|"
    "remote filter head|filter head|remote filter mount|filter mount|remote oil filter head|"
    "remote head|remote filter housing|oil filter head|head",
    "noun:y block": "y block|y piece|y adaptor|y adapter|y fitting|y|wye|y splitter",
    "noun:gauge port":
    "in line gauge adapter|in line gauge adaptor|inline gauge adapter|inline gauge adaptor|"
    "in line gauge fitting|inline gauge fitting|gauge take off adaptor|in line pressure adaptor|"
    "inline pressure adaptor|fuel pressure adaptor|fuel pressure gauge adaptor|"
    "gauge take off adapter|fuel pressure adapter|gauge hole|gauge tapping|npt tapping|"
    "gauge take off|pressure take off|pressure tapping|fuel pressure take off|gauge boss|"
    "gauge port|gauge adaptor|gauge adapter|sensor port|gage port|pressure port|port gauge|"
    "sender port|with gauge port",
    "noun:gauge tee": "gauge tee|gage tee|sensor tee",
    "noun:sensor adaptor":
    "sensor reduction|sensor reducing adaptor|sensor reducing bush|sender reducer|sensor bush|"
    "sender bush|sensor reducer bush|for sensor|for sender|for gauge sender|for temp sensor|"
    "for temperature sensor|for pressure sensor|for oil pressure sensor|for a sensor|"
    "adptr sensor|adpt sens|adpt sensor|sensor fitting|sender fitting|adaptor , sensor|"
    "adapter , sensor|gauge sensor fitting|temp sender adaptor|sensor boss adaptor|"
    "adaptor sensor|sens adpt|oil pressure sender adaptor|oil temp sensor adaptor|"
    "pressure sender adaptor|gauge fitting|sensor adaptor|sensor adapter|gauge sender adaptor|"
    "sender adaptor|sender adapter|temp sensor adaptor|temperature sensor adaptor|"
    "pressure sensor adaptor|sensor reducer|gauge sensor adaptor",
    "noun:tube nut":
    "flare nut and sleeve|tube nut with sleeve|hard line nut|nut for hard line|"
    "tube nut and sleeve|nut and ferrule for tube|nut and sleeve|sleeve and nut|nut with sleeve|"
    "nut sleeve|nut , and sleeve|nut & sleeve|nut , tube|nut tb|brake line nut|"
    "hydraulic line nut|line nut|brake tube nut|male brake nut|pipe union nut|tubing nut|b nut|"
    "tube fitting nut|flare tube nut|tube nut|nut tube|nut , tube coupling|tube coupling nut|"
    "nut tube coupling|tube sleeve nut|pipe nut|brake pipe nut|brake nut|tube nuts|union nut|"
    "coupling nut|pipe nuts|male tube nut|nut , coupling",
    "noun:panel washer":
    "washer , bulkhead|wshr , pnl|washer for bulkhead|bulkhead panel washer|panel wshr|"
    "washer pnl|sealing washer for bulkhead|panel washer|wshr pnl|washer panel|pnl wshr|"
    "bulkhead washer|washer , panel|backing washer bulkhead|panel washers|bulkhead washers|"
    "wshr blkhd|washer bulkhead",
    "noun:washer":
    "washer|wshr|washers|sealing washer|crush washer|seal ring|sealing ring|sealing washers|"
    "crush washers|ring seal|joint washer|copper washer|seal washer|flat washer",
    "noun:bonded":
    "bonded|bonded washer|bonded seal|bonded seals|bonded washers|bonded sealing washer|"
    "washer bonded|seal bonded|seal washer bonded|wshr bonded|washer , bonded|seal , bonded",
    "noun:oring": "orng|orngs|o ring|o rings|oring|orings|o ring seal|o ring seals|ring o|or",
    "noun:olive":
    "olv|olive , ptfe|sleeve ferrule|olive brass|brass olive|spare ptfe olive|hose end olive|"
    "olives ptfe|replacement olives|compression olive|olive|olives|ptfe olive|ferrule olive|"
    "spare olive|spare olives|replacement olive",
    "noun:lock nut":
    "ln|counter nut|check nut|nut jam|nut , jam|jam nut for adjustable|lknt|nut lck|lock nut|"
    "locknut|jam nut|lock nuts|nut lock|nut , lock|jamnut|jam nuts",
    "noun:p clip":
    "p clp|rubber lined clip|lined clip|pipe clip rubber lined|p style clip|p type clamp|clp p|"
    "clamp , cushioned|clip , p|clip , loop|loop clip|clip cushioned|p clip lined|"
    "cushion loop clamp|cushioned p clip|rubber lined p clip|lined p clip|p clip|p clips|p clamp|"
    "p type|clp p type|p type clip|loop clamp|clamp loop|clamp , loop|cushioned clamp|p clamps|"
    "clip p type|cushion clamp|hose support clip",
    "noun:t-bolt clamp":
    "hose clamp t bolt|t bolt hose clip|heavy duty t bolt|clp t bolt|clmp t bolt|clamp , t bolt|"
    "tbolt|t bolt band clamp|t bolt clamp|t bolt clamps|t bolt|t bolt hose clamp|clamp t bolt|"
    "tbolt clamp|t bolt clip",
    "noun:worm clamp":
    "hose clip worm|wormdrive|worm drive clp|screw type hose clip|hose clamp worm drive|wrm drv|"
    "clp worm|clp worm drv|worm drv|clmp worm|clamp , worm drive|clamp , hose , worm drive|worm|"
    "clamp hose worm drive|worm drive band|worm gear hose clamp|worm screw clamp|clp wrm drv|"
    "worm clip|worm drive|worm drive clip|worm drive hose clip|worm drive hose clips|worm clamp|"
    "worm drive clamp|worm drive hose clamp|worm drive clips|worm gear clamp|clamp worm drive|"
    "hose clip worm drive|clip worm drive|worm drive clamps|worm drive hose clamps",
    "noun:fuel clamp":
    "clamp fuel|nut and bolt fuel clip|fuel hose clip nut and bolt|fuel clip nut and bolt type|"
    "fuel clip nut & bolt type|nut and bolt clip|clp fuel|clamp , fuel|fuel injection clip|"
    "clp full wrap|clamp , full wrap|clamp , fuel hose|fuel line clip|full wrap fuel clamp|"
    "fuel clamp|fuel hose clamp|fuel line clamp|fuel injection clamp|full wrap clamp|fuel clip|"
    "fuel hose clip|fuel injection hose clamp|full wrap|fuel hose clips|fuel hose clamps|"
    "mini fuel clamp|fuel injection hose clip|efi clamp|efi hose clamp",
    "noun:clamp": "hose clip|hose clips|hose clamp|hose clamps|clip|clamp|clp|clmp|clips|clamps",
    "noun:v-band clamp":
    "v band clp|clamp v bnd|clamp vband|v band clmp|clp v band|clp vband|v clamp|"
    "quick release v band clamp|v band only clamp|v band clamp|vband clamp|clamp v band|"
    "v band clamps|clamp , v band",
    "noun:v-band flange":
    "v band weld flange|v band weld on flange|v band weld on flanges|v band weld flanges|"
    "weld on v band flange|weld on v band flanges|weld flange v band|v band weld ring flange|"
    "v band flange|vband flange|flange v band|v band flanges|flange , v band",
    "fam:vband": "v band|vband",
    "noun:v-band ring":
    "v band ring|v band sealing ring|v band gasket|v band seal|v band o ring|sealing ring v band|"
    "gasket v band|gasket , v band",
    "noun:drain flange":
    "turbo oil drain|oil drain|turbo drain|turbo oil return|turbo return|oil return|drain flange|"
    "turbo drain flange|return flange|turbo return flange|oil drain flange|"
    "turbo oil drain flange|oil return flange|turbo oil return flange|flange",
    "noun:flange gasket":
    "joint gasket|gasket for turbo drain|gskt|gskt flange|flange gskt|gskt , flange|"
    "turbo return gasket|turbo return flange gasket|oil drain gasket|return gasket|flange gasket|"
    "gasket|drain gasket|turbo drain gasket|gasket flange|gasket , flange|"
    "turbo drain flange gasket|drain flange gasket",
    "noun:flange plug": "blanking plate|block off plate|blank plate|blanking flange",
    "noun:flange bolt": "flange bolt|flange bolts|bolt flange",
    "noun:screen":
    "mesh strainer|filter screen|gauze|inline gauze|scrn|screen , inline|strnr|screen|"
    "inline screen|feed screen|turbo feed screen|mesh screen|screen filter|strainer|"
    "inline strainer|turbo oil feed screen|turbo screen",
    "noun:jet":
    "jet , oil|turbo oil feed jet|oil restrictor jet|jet restrictor|restricted|feed jet|"
    "oil feed jet|turbo feed jet|restrictor adaptor turbo|jet|restrictor jet|"
    "turbo oil restrictor jet|oil jet|turbo jet|jetted",
    "noun:restrictor":
    "rstr|restr|restrictor , inline|rstrctr|restrictor|inline restrictor|restrictors|"
    "restrictor fitting",
    "noun:filter":
    "fltr|inline fltr|fltr inline|fltr , inline|filt|inline filt|fltr fuel|fuel fltr|"
    "filter , fuel|filter fuel|inline fuel filter|fuel filter|inline filter|fuel filter inline|"
    "filter inline|inline oil filter|filter in line|in line fuel filter|in line filter|"
    "filter , fuel , inline|filter , inline",
    "noun:check valve":
    "check valve inside|non return valve inside|check valve built in|built in check valve|"
    "with integral check valve|with built in check valve|with check valve inside|valve , one way|"
    "vlv chk|vlv , chk|valve non return|inline check valve|inline non return valve|"
    "anti return valve|anti drainback valve|check valve|non return valve|one way valve|nrv|"
    "non return|one way|chk valve|chk vlv|check vlv|non return check valve|with check valve|"
    "with non return valve|valve check|valve , check|valve , non return|nonreturn valve|"
    "non return vlv|integral check valve",
    "noun:pipe":
    "mandrel bend|mandrel bent pipe|mandrel bent tube|boost pipe|intercooler pipe|beaded pipe|"
    "coolant pipe|mandrel bent|pipe|charge pipe|tube bend|alloy tube",
    "noun:tube": "tube|tubing|hard tube|hard line|hardline|brake pipe|pipe tube|hard pipe",
    "noun:hose": "hse|hose pipe|hosepipe|hose|hoses|hose line|hosing|line hose",
    "noun:heat sleeve":
    "slv heat|heat slv|heat shield sleeving|sleeve , heat reflective|sleeve , reflective|"
    "heat reflecting sleeve|heat sleeve|heat reflective sleeve|reflective sleeve|"
    "heat shield sleeve|heat reflective sleeving|heat sleeving|sleeve heat|sleeve , heat|"
    "aluminised heat sleeve|heat protection sleeve|sleeve heat reflective|thermal sleeve",
    "noun:fire sleeve":
    "slv fire|fire slv|sleeving fire|fire sleeve|fire sleeving|firesleeve|sleeve fire|"
    "silicone fire sleeve|sleeve , fire",
    "noun:chafe sleeve":
    "sleeve chafe|abrasion sleeve braided|braid sleeve|expandable sleeve|anti abrasion sleeving|"
    "spiral chafe guard|abrasion|chafe|anti chafe|slv chafe|chafe slv|sleeve , abrasion|"
    "anti chafing sleeve|chafe protection sleeve|chafe guard|abrasion guard|chafe sleeve|"
    "abrasion sleeve|chafe guard sleeve|anti chafe sleeve|abrasion sleeving|braided sleeve|"
    "braided sleeving|protective sleeve|chafing sleeve|sleeve abrasion|sleeve , chafe|"
    "anti abrasion sleeve|chafe sleeving|nylon braided sleeve",
    "noun:grommet":
    "grommet , panel|grommet , rubber|grmt rub|grommet rubber|firewall grommet|bulkhead grommet|"
    "rubber firewall grommet|blkhd grommet|grommet|grommets|panel grommet|rubber grommet|"
    "rubber panel grommet|grmt",
    "noun:paste":
    "thread paste|thread sealing paste|thread sealant|sealing paste|paste|pipe sealant|"
    "thread sealant paste|pipe thread sealant|thread compound",
    "noun:hose tag":
    "tag , hose|tag hose|hose id tag|hose identification tag|line label|id tag|hose marker|"
    "hose id tags|hose markers|hose tag|hose tags|hose label|hose labels|line tag|line tags",
    "noun:bonding strap":
    "strap bonding|strap , bonding|braided bonding strap|strp bonding|braided earth strap|"
    "braided bonding lead|bonding strap|earth strap|bonding lead|earthing strap|ground strap|"
    "bonding braid|fuel cell bonding strap",
    "fam:flare_37": "jic|flare|flr|flare end|flare fitting|an flare|jic flare|flared|cone",
    "fam:flare_45": "sae flare|flare sae|45 flare",
    "fam:inverted_flare": "inverted flare|inv flare|double flare|inverted|inv flr|invt flare",
    "fam:bubble_flare":
    "bubble end|sae bubble|bubble flare brake|metric bubble flare|bubble flare|bubble|iso flare|"
    "din flare|bubble flr|iso bubble flare",
    "fam:orb_unf":
    "orb|o ring boss|oring boss|boss o ring|sae boss|boss|sae o ring boss|o ring port|orb port|"
    "unf boss|sae orb|un o ring stud|un o ring stud end|unf o ring stud|unf o ring stud end|"
    "un orb|un stud|unf stud end",
    "fam:orfs": "orfs|o ring face seal|face seal|oring face seal|orfs face seal",
    "fam:npt": "npt|mnpt|national pipe|pipe thread npt|pipe npt",
    "fam:nptf": "npt dryseal|nptf|dryseal|dry seal",
    "fam:bspp":
    "bsp p|bsp para|bsp par|parallel pipe thread|whitworth parallel|g thread|bspp|bsp parallel|g|"
    "parallel bsp|bsp parallel thread|parallel|gas parallel",
    "fam:bspt":
    "bsp t|tapered pipe thread bsp|r thread|bsp tpr|bspt|bsp taper|bsp tapered|taper bsp|rc|r|"
    "tapered bsp",
    "fam:bsp": "bsp|gas|bspm",
    "fam:iso6149": "metric o ring|metric o ring boss|metric orb|o ring stud|stud o ring",
    "fam:flat":
    "incl alu ring|with alu ring|with flat ring|flat ring|alu ring|flat face for ring|"
    "aluminium ring|with aluminium ring|incl flat ring|and alu ring|incl aluminium ring|"
    "with alu seal|for flat ring|and flat ring|with crush ring|with sealing washer included|"
    "and sealing washer|for aluminium ring|with copper washer seat|for alu ring|flat washer seat|"
    "flat sealing face|flat seal face|washer sealing|for crush washer|with crush washer|"
    "inc sealing washer|incl sealing washer|with alloy washer|with aluminium sealing washer|"
    "with alu sealing washer|and aluminium washer|for alu washer|for aluminium washer|"
    "w alu washer|incl alu washer|incl aluminium washer|including aluminium washer|plus washer|"
    "including washer|includes washer|seal washer included|washer included|incl seal ring|"
    "incl sealing ring|with sealing ring|for sealing ring|for seal ring|flat face|flat seat|"
    "flat seal|flat sealing|flat|washer seat|for washer|with washer|aluminium washer|"
    "aluminium sealing washer|alu sealing washer|washer seal|washer face|w washer|inc washer|"
    "incl washer|and washer|alloy washer|alu washer|seal ring alu|seal washer alu|"
    "incl aluminium sealing washer|for sealing washer|with sealing washer|with aluminium washer|"
    "with seal ring|with seal ring alu|with alu washer|collar",
    "fam:barb":
    "hose nipple|hose nipples|"
    "hose shank|push on tail|barbed tail|barb|barbed|hose tail|hose barb|barbs|hose nozzle|"
    "hose spigot|push barb|tail|hosetail|barb end|hose stem|hose tails|nozzle|spigot",
    "fam:bead":
    "bead|beaded|beaded hose tail|beaded end|bead rolled|bead roll|rolled bead|beaded tail|"
    "beaded spigot|beads|swaged bead|beaded tube end|hose bead|beaded hose spigot",
    "fam:qc":
    "quick connector spigot|quick connect spigot|quick connector adaptor|quick connector adapter|"
    "quick connector fitting|quick connect adaptor|quick connect adapter|spigot quick connect|"
    "quick connect male spigot|quick connect coupling|j2044|quick coupler|snap on|quick conn|q c|"
    "qk connect|fuel quick connect|fuel rail quick connect|push to connect|qc|quick connect|"
    "quick connector|quick disconnect|quick fit|quick release fuel|quick connect fitting|"
    "efi quick connect|push fit quick connect",
    "fam:weld": "weld|weld on|weld in|weldable|welded|to weld",
    "fam:spinon": "spin on|oil filter|filter|canister",
    "g:m":
    "outer|male end|male side|male flare side|outside threaded|males|"
    "outside thread|male thread|outer thread|male|m|ml|mal|external thread|ext|ext thread|"
    "external|mle",
    "g:f":
    "inner|female end|female side|inside|inner thread|female thread|inside threaded|"
    "females|inward thread|female|f|fem|fml|internal thread|int|int thread|internal|fm|femal|"
    "femail|inside thread",
    "g:nut":
    "fits over male|screws over male|screws onto male|fits male|to fit male|goes over male|"
    "goes on male|screws on male|loose nut|rotating nut|fem swivel nut|swiv nut|"
    "swivelling female|swivel end nut|union nut female|female loose nut|female swivelling nut|"
    "fits onto male|free nut|swivel nut|female swivel|swivel female|f swvl|swvl f|fem swivel|"
    "female swvl|nut|female nut|swivel nut female|female swivel nut|fem swvl|female swiv|"
    "swivelling nut|f swivel|swivel f|female swivelling|nut swivel|flr f swvl|swvl nut",
    "turn:full swivel":
    "full swv|fl swvl|"
    "swivels fully|full rotating|fully rotatable|360 rotating|freely rotating|full swiv type|"
    "spins freely|rotates freely|fully swivels|swivels all round|360 ° full swivel|"
    "fully rotating|full swiveling|fully swiveling|rotates 360|full flow swivel|dbl swvl|"
    "swivels 360 °|360 degree swivel|full swivel 360|360 rotation|full swivel|full swvl|"
    "fully swivel|fully swivelling|full swivle|360 swivel|360 ° swivel|swivels 360|full swiv|"
    "free swivel|swivelling|full swivelling|360|full swivel type|rotating|swivels freely|fswvl|"
    "full swl|fs|full swivell|full 360 swivel|full rotation",
    "stop:assembly":
    "filter screws back on|filter goes back on|filter refits|under the filter|under filter|"
    "between block and filter|between filter and block|filter on top|"
    "with ends|with end fittings|with fittings|ends fitted|fittings fitted|made up|made to length|"
    "swaged ends|with hose ends",
    "turn:fixed":
    "non adjustable|not adjustable|"
    "does not swivel|not swivelling|doesnt swivel|does not turn|doesn t swivel|"
    "not the swivel type|not the swivel sort|non rotating|not rotating|no rotation|fixed angle|"
    "static|fixed|fxd|non swivel|no swivel|non swvl|fix|non swivelling|nonswivel|not swivel|"
    "rigid|fixd|none swivel|non swiveling|fixed type",
    "turn:swivel": "swivel|swvl|swivle|swiv|swivel type|swivell",
    "angle:0":
    "in line straight|strgt|stght|straight|str|strait|strt|staright|strght|inline straight|"
    "straigt|stright|stra|0",
    "hose:rubber":
    "braided nitrile|nitrile braided hose|braided nitrile hose|nitrile hose braided|"
    "rubb|cutter type hose|rubber line|synthetic rubber hose|nitrile rubber hose|for rubber hose|"
    "rubber race hose|race hose rubber|rbr|cutter style for rubber lined braided hose|"
    "nitrile lined|nitrile liner|rubber inner|rub hose|rubber core|brd rub hose|"
    "rubber lined hose|rubber|rub|braided rubber|rubber braided|rubber hose|brd rub|rub brd|cpe|"
    "rubber lined|cutter|cutter style|nitrile braided|steel braid rubber|rubber lined braided|"
    "braided rubber hose|rubber braid|wire braid rubber|ss brd rubber|braided rubber type|rubr|"
    "rubber braided type|cutter type|cpe lnr|cpe liner|cpe lined|synthetic rubber",
    "hose:PTFE":
    "ptfe line|p t f e|ptfe brake line|ptfe inner|ptfe core|ptfe braided|braided ptfe|"
    "smooth bore ptfe hose|ptfe braided hose|ptfe smooth bore|smoothbore ptfe|ptfe|ptfe lined|"
    "ptfe hose|tfe|ptfe lnr|ptfe liner|smooth bore ptfe",
    "hose:push-on":
    "push on line|pushfit|push fit line|p on hose|pushon hose|push on style|push on|pushon|"
    "push fit hose|push on rubber|push on hose|push on rubber hose|push on type|push on barbed|"
    "barbed push on|push on barb",
    "liner:fluorosilicone":
    "fluorosilicone|fluorosilicone lined|fluoro silicone|fluoro lined|fluorosilicone lining|"
    "fluoro|fluorosilicone liner|fvmq|oil resistant lined",
    "liner:conductive":
    "conductive|cond|anti static|antistatic|carbon lined|carbon|carbon filled|cond lnr|"
    "conductive liner|static dissipating|antistatic liner|carbon liner|anti static liner|"
    "conductive lined|carbon black liner|conductive carbon",
    "liner:plain": "non conductive|non cond|white liner|non carbon|nonconductive",
    "bore:full": "full bore|full flow bore|fullbore|full bore size|large bore",
    "bore:tube": "tube bore|tube equivalent|tube equivalent bore|tubebore|small bore",
    "use:epdm": "epdm",
    "use:heater": "heater|coolant|water|radiator hose|cooling",
    "use:fuel": "fuel|fuel line|fuel hose|petrol|gasoline|injection",
    "use:vacuum":
    "reference line|boost signal|boost line|vacuum line|vacuum|vacum|vac|boost|reference|"
    "boost reference|vacuum boost|vacume",
    "use:oil": "oil|turbo|turbo oil|engine oil|turbo feed",
    "use:air": "charge|intercooler|induction|charge air",
    "use:breather": "vent|crankcase vent|breather|crankcase breather",
    "rubber:NBR": "nbr|nitrile|nitrile rubber|nitril",
    "rubber:FKM": "fkm|fpm|fluorocarbon|fluoroelastomer|fluorocarbon rubber",
    "rubber:silicone": "vmq",
    "mat:aluminium":
    "aluminium|alu|al|alloy|ally|alum|aluminum|aluminium alloy|al aly|alluminium|aluminum alloy|"
    "al alloy|6061|7075|aluminiun|alumininium|alumin",
    "mat:steel":
    "zinc nickel|zinc nickel plated|zinc nickel steel|steel zinc nickel|steel|stl|mild steel|"
    "zinc plated steel|steel zinc|carbon steel|zinc plated|zn|zinc|ms|plated steel|"
    "steel zinc plated|steel plated|galv|mild",
    "mat:stainless": "stainless|stainless steel|ss|stainles|inox|st steel|a2|316|304|sst|stnls",
    "mat:brass": "brass|brs",
    "mat:copper": "copper|cu",
    "mat:cunifer": "copper nickel|cupro nickel|cunifer|kunifer",
    "mat:titanium": "titanium|ti",
    "mat:plastic": "plastic|nylon|pvc|polyurethane",
    "trait:adjustable":
    "adjustable with jam nut|adjustable jam nut|swivelling with locknut|set nut|"
    "adjustable locknut|adj locknut|adj ln|adj with ln|with counter nut|"
    "adjustable with counter nut|adjustable , with lock nut|adjustable|adj|positionable|"
    "with lock nut|w locknut|with locknut|w lock nut|adjustable with lock nut|w lknt|"
    "with jam nut|w jam nut|orientable|adjustable lock nut|and locknut",
    "trait:hump": "hump|hump hose|humped|hump coupler|single hump",
    "trait:double": "double|twin|dual|2 way|double hump",
    "trait:lined": "cushioned|lined|rubber lined|cushion|rubber cushioned|epdm lined|insulated",
    "trait:locking": "locking|with lock|lockable",
    "trait:magnetic": "magnetic",
    "trait:branch":
    "in the branch|centre leg|center leg|middle leg|on the middle|on centre|stem|on branch|"
    "on the branch|branch|on side|on the side|side|on the leg|on leg|on the stem",
    "trait:run": "on run|on the run|run|run end|on the end of run",
    "all:bead":
    "beaded at both ends|both ends bead rolled|bead on both ends|beads at both ends|"
    "beads each end|bead each end|rolled bead both ends|swaged both ends|beaded either end|"
    "rolled beads both ends|rolled beads|with rolled beads|with beads|beads rolled|"
    "beaded both ends|beaded ends|bead both ends|beads both ends|both ends beaded|"
    "bead rolled both ends|beaded each end|with beaded ends",
    "all:all":
    "at both ends|on both ends|on all three|all 3|same both|both sides|3 way equal|each side|"
    "every leg|all legs|all three legs|both ends|all ends|all 3 ends|all|each end|ends|both|"
    "3 ends|all three ends|every end|all three|throughout|all sides|either end",
    "rest:hex":
    "inside hexagon|inside hex|outside hexagon|outside hex|"
    "allen key|hex drive|hexagon drive|square drive|stainless element|stainless steel element|"
    "mesh element|micron element|steel element|stainless mesh element|with element|internal hex|"
    "internal hexagon|hex internal|external hex|hexagon socket|int hex|hex socket|socket head|"
    "hex hd|hex head|internal hex head|with collar|hexagon internal|int hexagon",
    "rest:inlet": "inlet|in|feed",
    "rest:outlet": "outlet|outlets|out|outs|ports",
    "noun:lockoff":
    "no flanges|without flanges|less flanges|flanges not included|not flanges|no flange|"
    "without washer|less washer|no washer|nut and olive included|locknut included|nut included|"
    "with nut and washer|and washer included|less nut|no nut|without nut|nut not included|"
    "excl nut|w o nut|with nut|incl nut|inc nut|and nut|c w nut|with nut included|"
    "complete with nut|w nut|without locknut|less locknut|no locknut|bolt not included|"
    "bolt m14x1.5 not included|without bolt|less bolt|excl bolt|not included|with o ring|"
    "w nbr or|with nbr o ring|inc o ring|incl o ring|w or|including o ring|with fkm o ring|"
    "c w o ring|and o ring|with seal|w o ring|w fkm or|with o rings|incl o rings|"
    "nbr o ring included|o ring included|incl nbr o ring|with bonded seal recess|"
    "bonded seal recess|with bonded seal|with bonded washer|incl bonded seal|incl bonded washer|"
    "for bonded seal|w bonded|supplied with o ring|with epdm o ring|o ring supplied|o ring incl|"
    "with sleeve|w sleeve|and sleeve|incl fkm o ring|incl epdm o ring|w epdm or|with o ring seal|"
    "for bonded washer|o ring fitted|with olive|w olive|incl olive|inc olive|olive included|"
    "and olive",
    "sep:to":
    "going to|through to|out to|reducing to|up to|down to|->|stepping to|to|x|by|into|onto|-|>|"
    "from|2",
    "sep:and": "and|with|w|plus|c w|incl|inc|including|&",
    "noun:feed restrictor":
    "oil feed restrictor|turbo restrictor|turbo feed restrictor|turbo oil feed restrictor|"
    "turbo oil restrictor|oil restrictor|feed restrictor",
}  # fmt: skip


def _phrases() -> dict[str, tuple[tuple[int, dict[tuple[str, ...], tuple[str, str]]], ...]]:
    """Phrases by their first word, then by their length, the longest first."""
    table: dict[str, dict[int, dict[tuple[str, ...], tuple[str, str]]]] = {}
    for meaning, phrases in _MEANINGS.items():
        kind, _, value = meaning.partition(":")
        for phrase in phrases.split("|"):
            words = tuple(phrase.split())
            by_length = table.setdefault(words[0], {})
            by_length.setdefault(len(words), {}).setdefault(words, (kind, value))
    return {
        first: tuple(sorted(by_length.items(), reverse=True)) for first, by_length in table.items()
    }


PHRASES = _phrases()
