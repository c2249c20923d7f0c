"""What can be pointed at in a picture of the foot: each part's plain name and one plain sentence."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from hoofsim.errors import BadInput, nearest


@dataclass(frozen=True)
class Part:
    """A part of the picture: `label` gives both names where two are used, `short` is what fits on the picture."""

    name: str
    label: str
    short: str
    sentence: str


_PARTS = (
    # bones and joints
    Part("p1", "proximal phalanx (P1, long pastern bone)", "P1, long pastern bone",
         "The upper of the three toe bones; only its lower end is drawn."),
    Part("p2", "middle phalanx (P2, short pastern bone)", "P2, short pastern bone",
         "The bone above the coffin joint; its rounded lower end is what the coffin bone turns on."),
    Part("p3", "distal phalanx (P3, coffin bone, pedal bone)", "P3, coffin bone",
         "The bone inside the hoof: laminae hang it in the wall, and the deep flexor tendon pulls on its underside."),
    Part("palmar_process", "palmar process of P3 (wing of the coffin bone)", "palmar process of P3",
         "The backward wings of the coffin bone lie left and right of the cut, so they are drawn behind it."),
    Part("navicular", "navicular bone (distal sesamoid bone)", "navicular bone",
         "A small bone behind the coffin joint over which the deep flexor tendon turns."),
    Part("coffin_joint", "coffin joint (distal interphalangeal joint, DIP)", "coffin joint",
         "The joint between P2, P3 and the navicular bone."),
    # soft tissues
    Part("flexor_tendon", "deep digital flexor tendon (DDFT)", "deep flexor tendon (DDFT)",
         "A strong band that runs behind the pastern, round the navicular bone, and ends on the underside of P3."),
    Part("extensor_tendon", "common digital extensor tendon", "extensor tendon",
         "The band down the front of the pastern that ends on the extensor process of P3."),
    Part("collateral_ligament", "collateral sesamoidean ligament", "collateral sesamoidean ligament",
         "Holds the navicular bone up to P2."),
    Part("impar_ligament", "distal sesamoidean ligament (impar ligament)", "impar ligament",
         "Holds the navicular bone to P3."),
    Part("bursa", "navicular bursa", "navicular bursa",
         "A slip of fluid that lets the tendon glide on the navicular bone."),
    Part("lamellar_zone", "lamellar zone (laminae and their dermis)", "lamellar zone",
         "The soft layer between the coffin bone and the inner wall, full of interleaved laminae."),
    Part("laminae", "laminae (lamellar bonds)", "laminae",
         "Each short tie stands for many laminae: it thins when stretched and breaks when the bond is lost."),
    Part("solar_dermis", "solar corium (dermis of sole and frog)", "solar corium",
         "The soft layer between the coffin bone and the horn of sole and frog."),
    Part("solar_bonds", "bonds between bone and sole", "sole-to-bone bonds",
         "Each short tie stands for a stretch of solar corium between the underside of P3 and the sole."),
    Part("digital_cushion", "digital cushion", "digital cushion",
         "Springy fatty and fibrous tissue between the deep flexor tendon and the frog."),
    Part("coronary_corium", "coronary band (coronary corium)", "coronary band",
         "The tissue at the top of the wall from which the wall grows down."),
    Part("skin", "skin and the tissue under it", "skin", "The skin of the pastern and the heel bulbs."),
    # horn
    Part("dorsal_wall", "dorsal hoof wall", "dorsal wall", "The horn of the wall at the toe, cut along its length."),
    Part("white_line", "white line (terminal laminae)", "white line",
         "The softer horn that joins the sole to the wall."),
    Part("sole", "horny sole", "sole", "The horn under the coffin bone, arched a little off the ground."),
    Part("frog", "frog", "frog",
         "The rubbery horn in the middle of the underside, from the true frog point to the heel bulbs."),
    Part("capsule", "hoof capsule (wall, quarters and heels)", "hoof capsule",
         "The whole horn box seen from the side: behind the cut lie the quarter and the heel."),
    Part("coronet", "coronet (hairline)", "hairline", "The line where hair ends and horn begins."),
    # landmarks
    Part("tip", "tip of P3", "tip of P3", "The lowest and foremost point of the coffin bone."),
    Part("frog_point", "true frog point (trimmed frog apex)", "true frog point",
         "Where the frog proper begins once loose horn has been trimmed away."),
    Part("cor", "centre of rotation of the coffin joint (COR)", "centre of rotation (COR)",
         "The point about which the coffin bone turns on P2."),
    Part("extensor_process", "extensor process of P3", "extensor process", "The peak at the top of the coffin bone."),
    Part("breakover", "breakover", "breakover", "The foremost point of ground contact, over which the foot rolls."),
    Part("toe", "projected toe", "projected toe", "Where the line of the dorsal wall would meet the bearing surface."),
    Part("firm_horn", "firm-horn marker", "firm-horn marker",
         "Where the soft horn under the hairline becomes firm; the founder distance is read from here."),
    Part("tendon_insertion", "tendon insertion", "tendon insertion", "Where the deep flexor tendon ends on P3."),
    Part("heel_ground", "heel, on the ground", "heel", "The rearmost point of the bearing border."),
    # ground and forces
    Part("ground", "ground", "ground", "The surface the foot stands on."),
    Part("wedge", "wedge", "wedge", "A sloping plate under the foot."),
    Part("bed", "yielding bed", "yielding bed", "Soft ground that gives way under the foot."),
    Part("load", "load from the limb", "load", "The force that the limb puts on the foot."),
    Part("ground_force", "force of the ground", "ground force",
         "The push of the ground, drawn at the centre of pressure."),
    Part("tendon_force", "pull of the deep flexor tendon", "tendon pull",
         "The tension of the deep flexor tendon at P3."),
    Part("navicular_force", "force on the navicular bone", "on navicular bone",
         "What the bent tendon presses on the navicular bone."),
    Part("extensor_force", "pull of the extensor tendon", "extensor pull", "The tension of the extensor tendon at P3."),
    Part("moved", "movement since the baseline", "moved",
         "From where a landmark was in the unchanged foot to where it is now."),
    Part("ghost", "outline of the unchanged foot", "unchanged foot",
         "The same foot under the same load before anything was changed."),
)  # fmt: skip

PARTS: Mapping[str, Part] = MappingProxyType({part.name: part for part in _PARTS})


def part(name: str) -> Part:
    """The part called `name`; BadInput, naming the nearest one, when there is none."""
    if name not in PARTS:
        raise BadInput(f"part '{name}' is not known; {nearest(name, PARTS)}")
    return PARTS[name]
