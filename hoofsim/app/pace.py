"""When a screen does what need not be done at once, so that the hand is followed first."""

# Seconds without a change before curves are computed.
HAND_RESTS_AFTER = 0.15
# Seconds between pieces of long work: longer than the clock ever advances in one frame, so one piece a frame at most.
WORK_EVERY = 0.1
# Steps of the clock from one picture to the next, while a foot moves by itself.
STEPS_A_PICTURE = 2
