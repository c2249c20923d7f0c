"""Where the numbers come from: one table of source ids, and how far each may be trusted.

Parameters, measures, presets and reference ranges name a source by its id; nothing else in the program repeats a
citation. No full paper was at hand, so every entry says how its number was reached.
"""

from dataclasses import dataclass

from hoofsim.errors import BadInput, nearest

STATUSES = {
    "abstract": "the number stands in the paper's own abstract",
    "second-hand": "the number was read in somebody else's account of the paper",
    "memory": "the number was recalled and not read again: treat it with care",
    "practice": "known in the trade, with no published source found",
    "choice": "decided for this model, because no source gives it",
}


@dataclass(frozen=True)
class Source:
    """One source: `id`, what was measured, the value taken from it, the citation, and its status (see STATUSES)."""

    id: str
    what: str
    value: str
    citation: str
    status: str


_ABSTRACT = "abstract"

_TABLE = (
    Source(
        "F1",
        "share of body weight on the forefeet, standing",
        "58 % fore, 42 % hind (20 horses); 1422 N on each forefoot of a 500 kg horse",
        "Hood et al. 2001, Am J Vet Res 62:1393",
        _ABSTRACT,
    ),
    Source(
        "F2",
        "centre of pressure, standing",
        "70 ± 8 mm behind the toe (6 horses), which is 10-15 mm in front of the coffin joint's centre",
        "Rogers & Back 2003; position against the joint from Parks (essay)",
        "second-hand",
    ),
    Source(
        "F3",
        "trot: lever of the ground force at breakover, coffin-joint moment, navicular force",
        "lever 86 ± 6, 78 ± 9 and 77 ± 7 mm in three shoes; peak moment 175 ± 31 N·mm/kg; peak navicular force "
        "6.14 ± 1.47 N/kg; breakover lasts 39-40 ± 6 ms and starts at 86 % of stance (9 horses)",
        "Eliashar et al. 2002, Equine Vet J 34",
        _ABSTRACT,
    ),
    Source(
        "F4",
        "moment balance of the coffin joint",
        "tendon force = ground force × its lever / tendon lever; navicular force = 2 × tendon force × sin(turn / 2)",
        "form used by Willemen 1999 and Eliashar 2002, 2004",
        "second-hand",
    ),
    Source(
        "F5",
        "peak vertical force on a forefoot",
        "walk 6.16 ± 0.53 N/kg, trot 10.73 ± 1.22 N/kg",
        "McGuigan & Wilson 2003, J Exp Biol 206:1325",
        _ABSTRACT,
    ),
    Source(
        "F5b",
        "peak vertical force on a forefoot, trot",
        "one peak of 11.59 N/kg",
        "Merkens et al. 1993, Equine Vet J 25:134",
        _ABSTRACT,
    ),
    Source(
        "F5c",
        "fetlock angle against vertical force on the limb",
        "a straight line, little changed by gait or muscle; peaks of 216 ± 5 deg at 6.16 N/kg (walk) and 232 ± 4 deg at "
        "10.73 N/kg (trot); slope derived here",
        "McGuigan & Wilson 2003, J Exp Biol 206:1325 (abstract and its table 2)",
        _ABSTRACT,
    ),
    Source(
        "F6",
        "timing of the walk",
        "stance 898 ± 14 ms (standard error); breakover takes its last 15.8 %",
        "Rogers & Back 2007",
        _ABSTRACT,
    ),
    Source(
        "F6b",
        "peak force in the deep flexor tendon, walk",
        "4.09 kN; strain of the flexors above 5 %",
        "Lochner et al. 1980, Am J Vet Res 41:1929",
        _ABSTRACT,
    ),
    Source(
        "F7",
        "how the joints share a raised heel, standing",
        "over 30 deg of wedge: coffin joint flexes 29.5 ± 1.8, pastern joint 7.3 ± 1.0, fetlock extends 6.9 ± 2.0 deg, "
        "in a straight line (5 limbs); slopes per degree derived here",
        "Crevier-Denoix et al. 2001, Equine Vet J",
        _ABSTRACT,
    ),
    Source(
        "F8",
        "peak navicular force over a 6 deg heel wedge, trot",
        "24 % less, about 4 % a degree",
        "Willemen et al. 1999, Equine Vet J 31:25",
        "memory",
    ),
    Source(
        "F8b",
        "navicular force against the coffin bone's angle to the ground",
        "the steeper the bone, the smaller the force, through a smaller extending moment (31 horses)",
        "Eliashar et al. 2004, Equine Vet J 36:431",
        _ABSTRACT,
    ),
    Source(
        "F9",
        "deep flexor tendon: stiffness",
        "modulus 843 ± 56 MPa; 3.22 ± 0.20 kN/cm for the tendon, 2.47 ± 0.11 kN/cm with its accessory ligament",
        "Swanstrom et al. 2004, Am J Vet Res 65:188",
        _ABSTRACT,
    ),
    Source("F9b", "deep flexor tendon: cross-section", "1.3-1.7 cm²", "several authors", "memory"),
    Source(
        "F10",
        "laminar junction: moduli",
        "tension 18.25 ± 5.38 MPa; shear 5.38 ± 1.49 MPa along the wall, 2.57 ± 0.91 MPa around it",
        "Douglas et al. 1998, J Exp Biol 201:2287",
        _ABSTRACT,
    ),
    Source(
        "F11",
        "laminar junction: tensile curve",
        "modulus 0.15 MPa at small and 7.58 MPa at large strain; fails at 1.67 MPa and strain 0.50 (medians)",
        "Kochová et al. 2013, Equine Vet J 45:170",
        _ABSTRACT,
    ),
    Source(
        "F11b",
        "laminar corium: modulus and strength",
        "modulus 5.57-11.30 MPa, strength 1.72-3.09 MPa",
        "Hogan & Hood",
        _ABSTRACT,
    ),
    Source(
        "F12",
        "the navicular bone follows the coffin bone",
        "correlation 0.97 with coffin-joint flexion",
        "van Dixhoorn et al. 2002, Equine Vet J",
        _ABSTRACT,
    ),
    Source(
        "F13",
        "horn: modulus of wall, sole and frog",
        "762 ± 295, 230 ± 92 and 9.9 ± 0.6 MPa; another paper has frog 70 and wall from 410 (wet) to 14 600 (dry)",
        "Hinterhofer et al. 1998; Bertram & Gosline 1987, J Exp Biol 130:121",
        _ABSTRACT,
    ),
    Source(
        "F14",
        "a longer hoof",
        "lever of the ground force +22.7 %; coffin-joint moment at breakover +18.5 % walk, +13.4 % trot (12 horses)",
        "Weishaupt et al. 2014",
        _ABSTRACT,
    ),
    Source(
        "F15",
        "palmar angle raised from 0 to 15 deg, finite elements",
        "energy stored near the upper laminar border grows 1.3-3.8 times; disputed in later letters",
        "Ramsey et al. 2011, Equine Vet J",
        _ABSTRACT,
    ),
    Source(
        "F16",
        "effects of a raised heel",
        "coffin-joint pressure rises; navicular pressure moves; the check ligament is strained less, the superficial "
        "flexor and suspensory more",
        "Viitanen 2003; Weaver 2009; Lawson 2007",
        _ABSTRACT,
    ),
    Source(
        "F17",
        "eight weeks of toe growth",
        "coffin-joint moment of the standing horse rises, pastern-joint moment does not (direction only)",
        "Moleman et al. 2006, Equine Vet J 38:170",
        _ABSTRACT,
    ),
    Source(
        "F18",
        "force where the tendon bends round the navicular bone",
        "as large as the force from bone to bone",
        "Merritt et al. 2008",
        _ABSTRACT,
    ),
    Source(
        "F19",
        "6 deg heel wedge, joints at the trot",
        "coffin and pastern joints flex further and extend less; the fetlock does not change (3 horses, markers on bones)",
        "Chateau et al. 2006, Equine Vet J 38:164",
        _ABSTRACT,
    ),
    Source(
        "R1",
        "dorsal wall angle and heel angle, fore",
        "51.8 ± 3.9 and 40.1 ± 9.3 deg (225 hooves)",
        "hoof-shape study of mixed breeds (authors not seen)",
        _ABSTRACT,
    ),
    Source(
        "R2",
        "lucent zone, proximal / middle / distal",
        "sound 7.3 / 6.9 / 7.5 mm, acute laminitis 8.8 / 8.9 / 9.2 mm; thresholds: middle above 7.5 mm, or above 0.11 "
        "of the palmar cortex's length (18 cases, 32 controls)",
        "Skelton et al. 2024/2025",
        _ABSTRACT,
    ),
    Source(
        "R3",
        "founder distance, marker at the limit of firm horn",
        "4.1 ± 2.2 mm when sound (value recalled; the definition was read)",
        "Cripps & Eustace 1999, Equine Vet J 31:427",
        "memory",
    ),
    Source(
        "R4",
        "radiographs before and after one trim of ten small horses",
        "capsular rotation -1.7 ± 1.8, phalangeal 3.3 ± 2.8 deg; the trim took 3.0 mm of wall, 6.8 mm of ground length "
        "and 2.9 mm of sole and added 1.4 deg of hoof angle, 2.0 deg of coffin-bone angle",
        "Iran J Vet Surg, article 79374",
        _ABSTRACT,
    ),
    Source(
        "R5",
        "toe to the coffin joint's centre, along the ground, against dorsal wall length",
        "equal within 1 mm (23 cadaver limbs under mid-stance load)",
        "landmark study (author not seen)",
        "second-hand",
    ),
    Source(
        "R6",
        "degrees of rotation and outcome",
        "5.9 ± 6.5 deg in horses back at work, 14.5 ± 10.8 in those lame for good; R² 0.004 with outcome, 0.504 with "
        "clinical grade (202 horses)",
        "Hunt 1993, Equine Vet J 25",
        _ABSTRACT,
    ),
    Source(
        "R7",
        "horn growth after rotation",
        "new dorsal horn bends from about 8 deg; production equal at toe and heel, though visible toe growth lags "
        "(117 hooves)",
        "Hertsch & Teschner 2011, Tierärztl Prax G 39:163",
        _ABSTRACT,
    ),
    Source(
        "R8",
        "growth and renewal of the wall",
        "5.7-9.5 mm a month; renewed in 9-12 months",
        "trade summaries",
        "second-hand",
    ),
    Source(
        "R9",
        "smallest change worth reading on a radiograph",
        "2 deg or 2 mm",
        "Collins et al. 2011 (donkeys)",
        "second-hand",
    ),
    Source(
        "R10",
        "tip of the coffin bone ahead of the true frog point",
        "about 10 mm by one rule of thumb, 17-25 mm by others; no peer-reviewed figure found",
        "course and practice material",
        "practice",
    ),
    Source(
        "R11",
        "dorsal wall and dorsal face of the coffin bone",
        "parallel when sound",
        "Hobbs et al. 2022, Animals 12:3119",
        _ABSTRACT,
    ),
    Source(
        "R12",
        "hoof angle over seven weeks",
        "falls under a shoe, rises barefoot",
        "Malone & Davies 2019, Animals 9:1017",
        _ABSTRACT,
    ),
    Source(
        "R13",
        "lost or lipped tip of the coffin bone",
        "changes tip-to-frog though nothing moved",
        "textbooks",
        "second-hand",
    ),
    Source("practice", "fact of the trade", "see where it is used", "no published source found", "practice"),
    Source("choice", "decision of this model", "see where it is used", "no source gives it", "choice"),
)

SOURCES: dict[str, Source] = {source.id: source for source in _TABLE}


def source(source_id: str) -> Source:
    """The source of that id; BadInput naming the nearest one when there is none."""
    if source_id not in SOURCES:
        raise BadInput(f"no source '{source_id}': {nearest(source_id, SOURCES)}")
    return SOURCES[source_id]
