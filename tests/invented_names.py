"""The demo with names as long as any builder makes them: where words have least room."""

LONG = 40  # letters
NAMES = {
    "build: Thornwick Dunlin estate, 1972": "Thornwick Dunlin shooting estate of 1972",
    "name: heater box": "heater box with both of its hoses fitted",
    "gear: first": "first with the clutch down and brake off",
    "gear: reverse": "reverse past the stop to the far right a",
    "name: front": "front bulkhead below the radio and ash b",
    "name: box": "rear wall of the box under the armrest c",
    "name: gear lever": "gear lever opening with its rubber boots",
    "name: handbrake": "handbrake slot in the deck with a gaiter",
    "name: deadener": "bitumen deadener with foil front to rear",
}


def renamed(text: str) -> str:
    """Return a build file, the demo's, with every name that it gives made long."""
    for before, name in NAMES.items():
        assert before in text, f"the demo names nothing '{before}'"
        text = text.replace(before, f"{before.partition(':')[0]}: {name}")
    return text
