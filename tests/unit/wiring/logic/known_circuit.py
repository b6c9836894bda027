"""Circuits that are known by heart; 30, 15, 50, 31, 85 to 87a as in DIN 72552."""

from trimwright.wiring.logic import (
    And,
    Coil,
    Contact,
    Fact,
    Feed,
    Grounded,
    Is,
    Join,
    Live,
    Load,
    Move,
    Network,
    Not,
    Or,
    Output,
    Pulled,
    Unit,
)

IN = Pulled("K1")

# start and stop buttons, and a relay that holds itself
SELF_HOLDING = Network(
    facts=(Fact("start", ("released", "pressed")), Fact("stop", ("released", "pressed"))),
    contacts=(
        Contact("stop button", "30", "a", Is("stop", "released")),
        Contact("start button", "a", "86", Is("start", "pressed")),
        Contact("K1 30-87", "a", "86", IN),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    coils=(Coil("K1", "86", "31"),),
    loads=(Load("pump", "86", "31"),),
)

# a relay whose coil is fed through its own break contact
BUZZER = Network(
    facts=(Fact("key", ("off", "on")),),
    contacts=(
        Contact("ignition switch", "30", "15", Is("key", "on")),
        Contact("K1 30-87a", "15", "86", Not(IN)),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    coils=(Coil("K1", "86", "31"),),
    loads=(Load("bulb", "86", "31"), Load("key lamp", "15", "31")),
)

# a lamp with a changeover switch at either end of the hall
HALL_LAMP = Network(
    facts=(Fact("front switch", ("up", "down")), Fact("rear switch", ("up", "down"))),
    joins=(Join("fuse 3", "30", "common", "fuse"), Join("lamp wire", "far common", "lamp")),
    contacts=(
        Contact("front up", "common", "one", Is("front switch", "up")),
        Contact("front down", "common", "other", Is("front switch", "down")),
        Contact("rear up", "far common", "one", Is("rear switch", "up")),
        Contact("rear down", "far common", "other", Is("rear switch", "down")),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    loads=(Load("hall lamp", "lamp", "31"),),
)

# the pump runs while there is oil pressure, and while the starter turns
FUEL_PUMP = Network(
    facts=(
        Fact("key", ("off", "on", "start")),
        Fact("engine", ("stopped", "cranking", "running")),
        Fact("oil pressure", ("low", "up")),
    ),
    joins=(Join("fuse 11", "15", "pump feed", "fuse"),),
    contacts=(
        Contact("oil pressure switch", "pump feed", "pump", Is("oil pressure", "up")),
        Contact("K1 30-87", "pump feed", "pump", IN),
    ),
    feeds=(
        Feed("ignition", "15", Or((Is("key", "on"), Is("key", "start")))),
        Feed("starter", "50", Is("key", "start")),
    ),
    grounds=("31",),
    coils=(Coil("K1", "50", "31"),),
    loads=(Load("fuel pump", "pump", "31"),),
    constraints=(
        Or((Not(Is("engine", "cranking")), Is("key", "start"))),
        Or((Not(Is("engine", "running")), Not(Is("key", "off")))),
        Or((Is("oil pressure", "up"), Not(Is("engine", "running")))),
        Or((Is("oil pressure", "low"), Is("engine", "running"))),
    ),
)

# the lock works only while the door is shut
DOOR_LOCK = Network(
    facts=(Fact("door", ("shut", "open")), Fact("lock button", ("released", "pressed"))),
    joins=(Join("coil wire", "button", "86"),),
    contacts=(
        Contact("lock button", "30", "button", Is("lock button", "pressed")),
        Contact("door switch", "85", "31", Is("door", "shut")),
        Contact("K1 30-87", "30", "motor", IN),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    coils=(Coil("K1", "86", "85"),),
    loads=(Load("lock motor", "motor", "31"),),
)

# two changeover relays: either side of the motor lies on ground until its relay pulls in
WINDOW = Network(
    facts=(Fact("window switch", ("rest", "up", "down")),),
    contacts=(
        Contact("switch up", "30", "up coil", Is("window switch", "up")),
        Contact("switch down", "30", "down coil", Is("window switch", "down")),
        *(
            Contact(
                f"{relay} 30-{pin}",
                end,
                motor,
                Pulled(relay) if end == "30" else Not(Pulled(relay)),
            )
            for relay, motor in (("K1", "M+"), ("K2", "M-"))
            for end, pin in (("30", "87"), ("31", "87a"))
        ),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    coils=(Coil("K1", "up coil", "31"), Coil("K2", "down coil", "31")),
    loads=(Load("window motor", "M+", "M-"),),
)

# four separate contacts: nothing keeps both on one side from closing
H_BRIDGE = Network(
    facts=(Fact("forward", ("off", "on")), Fact("reverse", ("off", "on"))),
    contacts=(
        Contact("high left", "30", "M+", Is("forward", "on")),
        Contact("low left", "M+", "31", Is("reverse", "on")),
        Contact("high right", "30", "M-", Is("reverse", "on")),
        Contact("low right", "M-", "31", Is("forward", "on")),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    loads=(Load("motor", "M+", "M-"),),
)

# either relay keeps the other out: who is quicker wins
RIVALS = Network(
    facts=(Fact("key", ("off", "on")),),
    contacts=(
        Contact("ignition switch", "30", "15", Is("key", "on")),
        Contact("K2 30-87a", "15", "one", Not(Pulled("K2"))),
        Contact("K1 30-87a", "15", "two", Not(IN)),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    coils=(Coil("K1", "one", "31"), Coil("K2", "two", "31")),
)

# a lamp that stays on for a while after the door is shut
COURTESY = Network(
    facts=(Fact("door", ("shut", "open")), Fact("key", ("off", "on"))),
    joins=(Join("unit feed", "30", "unit 30"), Join("door wire", "unit door", "pillar")),
    contacts=(
        Contact("door switch", "pillar", "31", Is("door", "open")),
        Contact("ignition switch", "30", "15", Is("key", "on")),
    ),
    feeds=(Feed("battery", "30"),),
    grounds=("31",),
    loads=(Load("courtesy lamp", "lamp", "31"),),
    units=(
        Unit(
            "lamp unit",
            ("dark", "lit", "after"),
            (
                Move("dark", Grounded("unit door"), "lit"),
                Move("lit", Not(Grounded("unit door")), "after"),
                Move("after", Grounded("unit door"), "lit"),
                Move("after", Live("15"), "dark"),
                Move("after", And(()), "dark", waits=True),
            ),
            (Output("lamp output", "unit 30", "lamp", ("lit", "after")),),
        ),
    ),
)
