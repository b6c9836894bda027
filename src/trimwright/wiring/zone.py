"""How warm it is where wires run."""

AMBIENT_C = {
    "cabin": 60.0,
    "boot": 60.0,
    "engine bay": 85.0,
    "by the exhaust": 100.0,
}  # degrees C of the air around a loom on a hot day; common practice, no source
