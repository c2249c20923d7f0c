"""What every reader must be told: the cautions, and what the model leaves out. One wording, used everywhere."""

CAUTIONS = (
    "Acute laminitis is an emergency. Call a veterinary surgeon the same day, and do not make the horse walk.",
    "Its cause (hormones, an infection elsewhere, overload of a limb) comes before any mechanics, and finding it is "
    "the veterinary surgeon's work.",
    "Veterinary surgeon and hoof-care professional decide together, and look at radiographs before they change how "
    "the foot is loaded.",
    "How high a heel, how short a toe, whether a tendon is cut, which device: these are clinical decisions, and the "
    "evidence for them is limited and in part contradicts itself. This program recommends no trim and no wedge.",
    "The number of degrees does not decide what becomes of a horse.",
    "Who may trim, shoe or treat a horse is set by the law of the place.",
)

LIMITS = (
    "The model is two-dimensional, with rigid bones, no blood flow, no pain and no medial-lateral displacement; it is "
    "a generic foot in short-term statics, and not for deciding how to treat or trim a horse."
)

SHORT_CAUTION = (
    "For teaching only, not for deciding how to treat or trim a horse. Acute laminitis is an emergency: call a "
    "veterinary surgeon the same day."
)

DEMONSTRATION = "The horses, people and yards in the examples are invented."
