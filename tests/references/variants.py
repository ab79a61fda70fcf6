"""Layouts changed for a test: what is written instead of what. Each text must stand in the layout once."""

REDIRECT = 'position = [1348.000, 911.000, 331.400]\naxle = [0.6, -0.8, 0]\n'
REDUCED_REDIRECT = "position = [660.320, 346.760, 403.250]\n"
ON_THE_BLOCK = 'offset = ["0 m", "0 m", "0 m"]\n'

FREE = 'mount = "free"\nlink = "0.4 m"\nmass = "2 kg"\naxle = [0.6, -0.8, 0]\n'
RUBS = "friction = 1.09\n"
RUBS_BY_WRAP = 'friction = 1.09\nfriction_wrap = "180 deg"\n'
RUBS_LESS = "friction = 1.04\n"

VARIANTS = {
    "free": [(REDIRECT, FREE)],
    # Drawn astern of its axis like a castor, the axis leaning, its own weight off the axis.
    "swivel": [(REDIRECT, 'mount = "swivel"\nswivel_axis = [0.1, 0.05, 1]\nswivel_at = [1347.760, 910.820, 331.400]\nmass = "3 kg"\n'
                'centre_of_mass = ["0.02 m", "0.015 m", "-0.03 m"]\n' + REDIRECT.replace("-0.8, 0]", "-0.8, 0.01]"))],
    "rubbing": [(REDIRECT, REDIRECT + RUBS_BY_WRAP)],
    "rubbing_free": [(REDIRECT, FREE + RUBS)],
    "rubbing_reduced": [(REDUCED_REDIRECT, REDUCED_REDIRECT + RUBS_BY_WRAP), (ON_THE_BLOCK, ON_THE_BLOCK + RUBS_LESS)],
}


def changed(text, variant):
    for old, new in VARIANTS[variant]:
        if text.count(old) != 1:
            raise ValueError(f"variant {variant}: the layout has {text.count(old)} of {old!r}")
        text = text.replace(old, new)
    return text
