"""The trade's words: each means one category in its language, or several on purpose."""

from __future__ import annotations

from collections import defaultdict

import pytest

from tests.kb.knowledge import known

ON_PURPOSE = {
    # In the hydraulics or at the pedal: the place decides.
    ("en-gb", "stop lamp switch"): {"hydraulic-stop-lamp-switch", "pedal-stop-lamp-switch"},
    ("en-gb", "brake light switch"): {"hydraulic-stop-lamp-switch", "pedal-stop-lamp-switch"},
    ("en-gb", "stop light switch"): {"hydraulic-stop-lamp-switch", "pedal-stop-lamp-switch"},
    # Of petrol or of diesel: the fuel decides.
    ("en-gb", "injector"): {"fuel-injector", "diesel-injector"},
    ("en-us", "injector"): {"fuel-injector", "diesel-injector"},
    ("de", "einspritzdüse"): {"fuel-injector", "diesel-injector"},
    ("fr", "injecteur"): {"fuel-injector", "diesel-injector"},
    ("es", "inyector"): {"fuel-injector", "diesel-injector"},
    # At the shock absorber or through a panel.
    ("en-us", "grommet"): {"damper-rubber", "grommet"},
    # Of a wire or of a cylinder.
    ("en-gb", "plug"): {"connector", "spark-plug"},
    # A dynamo, and often an alternator too.
    ("en-us", "generator"): {"alternator", "dynamo"},
    # A box, and often the rack too.
    ("de", "lenkgetriebe"): {"steering-box", "steering-rack"},
    # From final drive to wheel, or inside the tube of a live axle: the axle decides.
    ("en-gb", "half-shaft"): {"driveshaft", "axle-shaft"},
    ("en-us", "axle shaft"): {"driveshaft", "axle-shaft"},
    ("de", "steckachse"): {"driveshaft", "axle-shaft"},
    ("fr", "demi-arbre"): {"driveshaft", "axle-shaft"},
    ("es", "palier"): {"driveshaft", "axle-shaft"},
}

# Facts of language: British, American and German words of the trade, common practice. `word -> category`.
BRITISH = {
    "silencer": "silencer", "back box": "silencer", "exhaust manifold": "exhaust-manifold", "downpipe": "front-pipe",
    "catalytic converter": "catalytic-converter", "lambda probe": "lambda-probe", "gearbox": "gearbox",
    "propshaft": "propshaft", "driveshaft": "driveshaft", "half-shaft": "driveshaft", "CV gaiter": "driveshaft-gaiter",
    "crownwheel and pinion": "crownwheel-and-pinion", "final drive": "final-drive", "diff": "final-drive",
    "friction plate": "friction-plate", "driven plate": "friction-plate", "clutch cover": "clutch-cover",
    "release bearing": "release-bearing", "clutch master cylinder": "clutch-master-cylinder",
    "clutch slave cylinder": "clutch-slave-cylinder", "starter motor": "starter-motor", "ring gear": "ring-gear",
    "alternator": "alternator", "dynamo": "dynamo", "control box": "voltage-regulator", "earth lead": "earth-lead",
    "flasher unit": "flasher-unit", "indicator lamp": "front-indicator", "sidelight": "sidelight",
    "rear lamp cluster": "rear-lamp", "reversing lamp": "reversing-lamp", "number plate lamp": "number-plate-lamp",
    "bulb": "bulb", "HT lead": "plug-leads", "rotor arm": "rotor-arm", "distributor cap": "distributor-cap",
    "contact breaker points": "contact-points", "condenser": "condenser", "heater plug": "glow-plug",
    "carburettor": "carburettor", "inlet manifold": "inlet-manifold", "petrol tank": "fuel-tank",
    "tank sender": "fuel-sender", "rocker cover": "rocker-cover", "tappet": "tappet", "cam follower": "tappet",
    "gudgeon pin": "gudgeon-pin", "big-end shells": "big-end-shells", "sump": "sump", "sump plug": "sump-plug",
    "cam belt": "cam-belt", "fan belt": "drive-belt", "multi-rib belt": "drive-belt", "core plug": "core-plug",
    "heater matrix": "heater-matrix", "expansion tank": "expansion-tank", "top hose": "coolant-hose",
    "bottom hose": "coolant-hose", "brake disc": "brake-disc", "brake pads": "brake-pads", "brake shoes": "brake-shoes",
    "caliper": "brake-caliper", "carrier": "caliper-carrier", "wheel cylinder": "wheel-cylinder",
    "brake servo": "brake-servo", "brake pipe": "brake-pipe", "brake union": "brake-union",
    "bleed nipple": "bleed-nipple", "upright": "upright", "stub axle": "upright", "swivel": "upright",
    "wheel bearing": "wheel-bearing", "wishbone": "suspension-arm", "track control arm": "suspension-arm",
    "track rod": "track-rod", "track rod end": "track-rod-end", "ball joint": "ball-joint", "kingpin": "kingpin",
    "steering rack": "steering-rack", "steering box": "steering-box", "anti-roll bar": "anti-roll-bar",
    "drop link": "anti-roll-bar-link", "damper": "damper", "shock absorber": "damper", "top mount": "top-mount",
    "bush": "plain-bush", "engine mounting": "engine-mounting", "gearbox mounting": "gearbox-mounting",
    "wheel nut": "wheel-nut", "wheel bolt": "wheel-bolt", "spigot ring": "spigot-ring", "tyre": "tyre",
    "bonnet": "bonnet", "tailgate": "tailgate", "boot lid": "boot-lid", "wing": "wing", "sill": "sill",
    "windscreen": "windscreen", "quarterlight": "quarterlight", "window winder": "window-winder",
    "gas strut": "gas-strut", "oil seal": "shaft-seal", "circlip": "circlip", "split pin": "split-pin",
    "grub screw": "grub-screw", "worm-drive hose clip": "hose-clip",
}  # fmt: skip
AMERICAN = {
    "muffler": "silencer", "header": "exhaust-manifold", "oxygen sensor": "lambda-probe", "O2 sensor": "lambda-probe",
    "transmission": "gearbox", "driveshaft": "propshaft", "axle shaft": "driveshaft", "CV axle": "driveshaft",
    "CV boot": "driveshaft-gaiter", "ring and pinion": "crownwheel-and-pinion", "differential": "final-drive",
    "third member": "final-drive", "clutch disc": "friction-plate", "pressure plate": "clutch-cover",
    "throw-out bearing": "release-bearing", "starter": "starter-motor", "generator": "dynamo",
    "voltage regulator": "voltage-regulator", "ground strap": "earth-lead", "turn signal flasher": "flasher-unit",
    "front turn signal": "front-indicator", "parking light": "sidelight", "taillight assembly": "rear-lamp",
    "backup light": "reversing-lamp", "license plate light": "number-plate-lamp", "spark plug wires": "plug-leads",
    "distributor rotor": "rotor-arm", "points": "contact-points", "carburetor": "carburettor",
    "intake manifold": "inlet-manifold", "gas tank": "fuel-tank", "fuel sending unit": "fuel-sender",
    "valve cover": "rocker-cover", "lifter": "tappet", "wrist pin": "gudgeon-pin", "rod bearings": "big-end-shells",
    "oil pan": "sump", "drain plug": "sump-plug", "timing belt": "cam-belt", "serpentine belt": "drive-belt",
    "V-belt": "drive-belt", "freeze plug": "core-plug", "expansion plug": "core-plug", "heater core": "heater-matrix",
    "coolant reservoir": "expansion-tank", "upper radiator hose": "coolant-hose", "rotor": "brake-disc",
    "caliper bracket": "caliper-carrier", "brake booster": "brake-servo", "brake line": "brake-pipe",
    "flare nut": "brake-union", "bleeder screw": "bleed-nipple", "parking brake cable": "handbrake-cable",
    "steering knuckle": "upright", "spindle": "upright", "control arm": "suspension-arm", "A-arm": "suspension-arm",
    "tie rod": "track-rod", "tie rod end": "track-rod-end", "rack and pinion": "steering-rack",
    "sway bar": "anti-roll-bar", "end link": "anti-roll-bar-link", "shock": "damper", "strut mount": "top-mount",
    "bushing": "plain-bush", "motor mount": "engine-mounting", "trans mount": "gearbox-mounting",
    "lug nut": "wheel-nut", "lug bolt": "wheel-bolt", "hub ring": "spigot-ring", "tire": "tyre", "hood": "bonnet",
    "hatch": "tailgate", "trunk lid": "boot-lid", "fender": "wing", "rocker panel": "sill",
    "windshield": "windscreen", "vent window": "quarterlight", "window regulator": "window-winder",
    "lift support": "gas-strut", "snap ring": "circlip", "cotter pin": "split-pin", "set screw": "grub-screw",
    "hose clamp": "hose-clip",
}  # fmt: skip
GERMAN = {
    "Schalldämpfer": "silencer", "Endtopf": "silencer", "Abgaskrümmer": "exhaust-manifold", "Hosenrohr": "front-pipe",
    "Katalysator": "catalytic-converter", "Lambdasonde": "lambda-probe", "Getriebe": "gearbox",
    "Kardanwelle": "propshaft", "Gelenkwelle": "propshaft", "Antriebswelle": "driveshaft", "Steckachse": "driveshaft",
    "Achsmanschette": "driveshaft-gaiter", "Tellerrad und Triebling": "crownwheel-and-pinion",
    "Differential": "final-drive", "Achsgetriebe": "final-drive", "Kupplungsscheibe": "friction-plate",
    "Kupplungsdruckplatte": "clutch-cover", "Ausrücklager": "release-bearing",
    "Geberzylinder": "clutch-master-cylinder", "Nehmerzylinder": "clutch-slave-cylinder", "Anlasser": "starter-motor",
    "Zahnkranz": "ring-gear", "Lichtmaschine": "alternator", "Regler": "voltage-regulator", "Masseband": "earth-lead",
    "Blinkgeber": "flasher-unit", "Blinkrelais": "flasher-unit", "Blinker": "front-indicator",
    "Fahrtrichtungsanzeiger": "front-indicator", "Standlicht": "sidelight", "Rückleuchte": "rear-lamp",
    "Heckleuchte": "rear-lamp", "Rückfahrscheinwerfer": "reversing-lamp", "Kennzeichenleuchte": "number-plate-lamp",
    "Glühlampe": "bulb", "Zündkabel": "plug-leads", "Verteilerfinger": "rotor-arm", "Verteilerkappe": "distributor-cap",
    "Unterbrecherkontakte": "contact-points", "Kondensator": "condenser", "Glühkerze": "glow-plug",
    "Vergaser": "carburettor", "Ansaugkrümmer": "inlet-manifold", "Benzintank": "fuel-tank", "Tankgeber": "fuel-sender",
    "Ventildeckel": "rocker-cover", "Stößel": "tappet", "Kolbenbolzen": "gudgeon-pin",
    "Pleuellagerschalen": "big-end-shells", "Ölwanne": "sump", "Ölablassschraube": "sump-plug", "Zahnriemen": "cam-belt",
    "Keilriemen": "drive-belt", "Keilrippenriemen": "drive-belt", "Froststopfen": "core-plug",
    "Wärmetauscher": "heater-matrix", "Ausgleichsbehälter": "expansion-tank", "Kühlerschlauch": "coolant-hose",
    "Bremsscheibe": "brake-disc", "Bremsbeläge": "brake-pads", "Bremsklötze": "brake-pads", "Bremsbacken": "brake-shoes",
    "Bremssattel": "brake-caliper", "Sattelhalter": "caliper-carrier", "Radbremszylinder": "wheel-cylinder",
    "Bremskraftverstärker": "brake-servo", "Bremsleitung": "brake-pipe", "Überwurfschraube": "brake-union",
    "Entlüftungsnippel": "bleed-nipple", "Achsschenkel": "upright", "Radträger": "upright", "Radlager": "wheel-bearing",
    "Radnabe": "hub", "Querlenker": "suspension-arm", "Spurstange": "track-rod", "Spurstangenkopf": "track-rod-end",
    "Traggelenk": "ball-joint", "Achsschenkelbolzen": "kingpin", "Zahnstangenlenkung": "steering-rack",
    "Lenkgetriebe": "steering-box", "Stabilisator": "anti-roll-bar", "Koppelstange": "anti-roll-bar-link",
    "Stoßdämpfer": "damper", "Federbein": "suspension-strut", "Domlager": "top-mount", "Buchse": "plain-bush",
    "Silentlager": "plain-bush", "Motorlager": "engine-mounting", "Getriebelager": "gearbox-mounting",
    "Radmutter": "wheel-nut", "Radschraube": "wheel-bolt", "Zentrierring": "spigot-ring", "Reifen": "tyre",
    "Motorhaube": "bonnet", "Kofferraumdeckel": "boot-lid", "Heckklappe": "tailgate", "Kotflügel": "wing",
    "Schweller": "sill", "Windschutzscheibe": "windscreen", "Dreiecksfenster": "quarterlight",
    "Fensterheber": "window-winder", "Gasdruckfeder": "gas-strut", "Wellendichtring": "shaft-seal",
    "Sicherungsring": "circlip", "Splint": "split-pin", "Madenschraube": "grub-screw", "Schlauchschelle": "hose-clip",
}  # fmt: skip
WORDS = [
    *(("en-gb", word, name) for word, name in BRITISH.items()),
    *(("en-us", word, name) for word, name in AMERICAN.items()),
    *(("de", word, name) for word, name in GERMAN.items()),
]


def meanings() -> dict[tuple[str, str], set[str]]:
    """Language and folded word to the categories that have it as name or synonym."""
    found: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
    for name, category in known().categories.items():
        for language, word in category.names.items():
            found[language, word.casefold()].add(name)
        for language, words in category.also.items():
            for word in words:
                found[language, word.casefold()].add(name)
    return found


MEANINGS = meanings()


def test_the_list_is_long_enough() -> None:
    """At least 150 words, in three kinds of speech."""
    assert len(WORDS) >= 150


@pytest.mark.parametrize(("language", "word", "category"), WORDS)
def test_trade_word_is_known(language: str, word: str, category: str) -> None:
    """The word is a name or a synonym of its category in that language."""
    assert category in MEANINGS.get((language, word.casefold()), set())


def test_a_word_means_one_category_or_several_on_purpose() -> None:
    """Within a language no word is shared by accident, and nothing on the list of shared ones is there for nothing."""
    shared = {key: names for key, names in MEANINGS.items() if len(names) > 1}
    assert shared == ON_PURPOSE


def test_false_friends_keep_their_side_of_the_water() -> None:
    """A driveshaft goes to the wheel in Britain and lengthwise in America (common practice)."""
    assert MEANINGS["en-gb", "driveshaft"] == {"driveshaft"}
    assert MEANINGS["en-us", "driveshaft"] == {"propshaft"}
    assert "alternator" in MEANINGS["en-us", "generator"]


def test_synonyms_are_many() -> None:
    """Most categories that differ in speech have their synonyms; all words together are at least 1500."""
    assert len(MEANINGS) >= 1500
