"""Layouts changed for a test: what is written instead of what. Each text must stand in the layout once."""

FIXED_REDIRECT = 'position = [1348.000, 911.000, 331.400]\naxle = [0.6, -0.8, 0]\n'

VARIANTS = {
    "free": [(FIXED_REDIRECT, 'mount = "free"\nlink = "0.4 m"\nmass = "2 kg"\naxle = [0.6, -0.8, 0]\n')],
    # Drawn astern of its axis like a castor, the axis leaning, its own weight off the axis.
    "swivel": [(FIXED_REDIRECT, 'mount = "swivel"\nswivel_axis = [0.1, 0.05, 1]\nswivel_at = [1347.760, 910.820, 331.400]\nmass = "3 kg"\n'
                'centre_of_mass = ["0.02 m", "0.015 m", "-0.03 m"]\n' + FIXED_REDIRECT.replace("-0.8, 0]", "-0.8, 0.01]"))],
}


def changed(text, variant):
    for old, new in VARIANTS[variant]:
        if text.count(old) != 1:
            raise ValueError(f"variant {variant}: the layout has {text.count(old)} of {old!r}")
        text = text.replace(old, new)
    return text
