"""Two invented builds that between them write every key there is, in its long and short forms."""

LONG = """# every key in its long form
format: 1
build: Thornwick Dunlin estate, 1972
unit: mm
driver: right
seed: 7
wanted: {certainty: 95 %, nose to dash: 6, walls to seats: 8, lever to opening: 6, handbrake: 6,
  other bodies: 5, daylight at most: 9}
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal, string above tunnel: 300 ± 1}
  layers:
    - {name: deadener, thick: 2 ± 0.5, from: 200 ahead, to: 900 behind}
  carpet:
    loose: 15 ± 1   # by the door
    pressed:
      - {weight: 1 kg, lath: 12 x 200, thick: 12.5 ± 0.5}
      - {weight: 5 kg, lath: 12 x 200, thick: 9 ± 0.5}
  floor below string: 487 ± 4
  tunnel:
    - at: 120 ahead
      by: contour gauge
      over: bare metal
      top: 279 below string
      down 10: {left: 84, right: 87}
      down 30: {left: 108, right: 111}
      down 60: {left: 131, right: 134}
      depths within: 1
      corners:
        - down 10 left
      girth floor to floor: 533
      width at shoulder: 190
      width at floor: 400
      height above floor: 208
    - at: 60 behind
      top: 304 below string
      points:
        - 100 left, 60 down
        - 72 left, 10 down
        - 74 right, 10 down
        - 101 right, 60 down
    - at: 380 behind
      top: 319 below string
      bites:
        - points:
            - 100 left, 60 down
            - A at 20 right, 5 down
            - B at 40 right, 12 down
        - points:
            - A at 20 right, 5 down
            - B at 40 right, 12 down
            - 90 right, 60 down
    - at: 540 behind
      top: 324 below string
      nails:
        apart: 400
        middle: from left 212, from right 208
        points:
          - from left 230, from right 330
          - from left 320, from right 220
  diagonals:
    - {from: down 10 left at 120 ahead, to: down 60 right at 120 ahead, length: 352}
  dash:
    - {at: 110 ahead, across: 90 left, up: 196 ± 3, by: tape}
    - {at: 10 ahead, across: 90 right, up: 218 ± 3}
  seats:
    left: {inner edge low: 148 ± 3 at 40 up, inner edge high: 144 ± 3 at 180 up, from: 170 behind,
      to: 620 behind, slides: 10, reading at: rearmost}
    right:
      inner edge low: 140 ± 3 at 40 up
      inner edge high: 136 ± 3 at 180 up
      from: 170 behind
      to: 620 behind
      slides: 10
      reading at: rearmost
  lever:
    knob: 46
    shaft: 14
    moves:
      - {gear: neutral, behind datum: 190 ± 2, above tunnel: 300 ± 2, off middle: 0 ± 2}
      - {gear: first, behind datum: 128 ± 2, above tunnel: 296 ± 2, off middle: 48 ± 2 left}
    shaft passes:
      - {gear: neutral, behind datum: 192 ± 2, above tunnel: 100 ± 2, off middle: 0 ± 2}
    boot height: 60
  engine moves: {across: 12 ± 3, along: 8 ± 3}
  handbrake:
    pivot: {behind datum: 560, up: 178, off middle: 0}
    long: 200
    thick: 30
    down: 24 deg
    up: 55 deg
  bodies:
    - name: heater box
      box: {from: 220 ahead, to: 64 ahead, left: 80 right, right: 210 right, bottom: 138, top: 320}
    - name: pipe
      cylinder:
        from: {at: 140 ahead, across: 90 left, up: 120}
        to: {at: 20 behind, across: 90 left, up: 120}
        thick: 60
    - name: bracket
      outline:
        points:
          - 88 left, 30 up
          - 60 left, 30 up
          - 60 left, 90 up
        from: 140 ahead
        to: 20 behind
console:
  sheet: birch plywood 12 ± 0.3
  deck:
    - {at: 70 ahead, height: 184}
    - {at: 690 behind, height: 170}
  widths:
    - {at: 70 ahead, left: 108, right: 108}
    - {at: 690 behind, left: 122, right: 122}
  from: 70 ahead
  to: 690 behind
  walls: {deck joint: rebate, runs through: walls, joint depth: 6, lean: 3 deg}
  scribe: {over: bare metal, deeper by: 1, edge: as suits}
  bulkheads:
    - {name: front, at: 40 ahead, joint: butt}
  openings:
    - {name: gear lever, at: 190 behind, off middle: 0, long: 160, wide: 108, corner: 25, lies: deck}
  held by:
    - {bolt: M6, at: 400 behind, off middle: 70 left, torque: 0.4 N m ± 0.2}
  as built:
    - {panel: left wall, what: thickness, at: 60 behind, reads: 12.2 ± 0.2}
  trims: {nose lower by: 1, front shorter by: 2, left wall in by: 1, right wall in by: 1}
  revision: A
covers:
  deck: {foam: 3 ± 0.5, leather: 1.2 ± 0.2}
  walls: {foam: 3 ± 0.5, leather: 1.2 ± 0.2}
test fit:
  - {probe: left wall daylight at 610 behind, reads: 4 ± 0.5,
     cut then: {nose lower by: 0, front shorter by: 0, left wall in by: 0, right wall in by: 0,
       scribe deeper by: 0, gear lever wide: 100}}
  - {probe: right wall at 420 behind, touches: the carpet}
left as is:
  - {finding: daylight left wall, because: the binding hides it}
locked:
  - {lock: wood is cut}
hours: {carpet: 5 h, wood is cut: 3 h, glue-up: 6 h, covering: 14 h, refit: 2 h, test fit: 90 min}
notes:
  - {part: left wall, says: the seam stands proud here}
  - {reading: "carpet, loose", says: read by the door, photo: photos/carpet.jpg}
  - {finding: nose to dash, photo: photos/nose.jpg}
wiring:
  battery: {at: engine bay, volts: 12.6 V, holds: 60 Ah, cranks: 540 A, inside: 8 mohm, parked for: 21 days,
    idles for: 60 min, left on for: 60 min, starter takes: 150 A}
  alternator: {at: engine bay, gives: 55 A, at idle: 22 A, holds: 14.2 V}
  places:
    - {name: engine bay, at: 1350 ahead, off middle: 300 left, up: 220 up}
    - {name: fuse box, at: 560 ahead, off middle: 420 right, up: 160 up}
    - {name: boot, at: 1900 behind, off middle: 520 right, up: 60 up}
  trunks:
    - {from: engine bay, to: fuse box, long: 1240, zone: engine bay, hole: 24, room: 14, bends: 40}
    - {from: fuse box, to: boot}
    - {from: engine bay, to: boot, long: 3200, laid: flat, relief: cut, under carpet: ["300 behind, 70 right", "700 behind, 70 right"], hinge: {body hole: 60, door hole: 85, closed: 70, opens: 68 deg, at first: apart, along the axis: 10, free: 180, leaves body: 20 deg, leaves door: 30 deg, wires: loose, strands: fine}}
  feeds:
    - {name: always, at: fuse box, live: always, cranking: stays, behind: 10 mohm, carries: 30 A}
  grounds:
    - {name: tail stud, at: boot, to battery: 3 mohm}
  fuses:
    - {name: fuse 7, at: fuse box, rated: 15 A, type: blade, breaks: 1000 A}
  switches:
    - {name: fog switch, at: fuse box, contacts: make, action: latching, carries: 10 A}
    - {name: door switch, at: boot, contacts: make, action: momentary, worked by: left door open, carries: 3 A}
  relays:
    - {name: fog relay, at: fuse box, coil: 90 ohm, carries: 30 A, coil guard: resistor}
  units:
    - name: start unit
      at: fuse box
      terminals:
        - "30"
        - "31"
        - fob
        - "50"
      states:
        - asleep
        - cranking
      moves:
        - from: asleep
          to: cranking
          when:
            - start unit fob live
          waits: 1 s
      outputs:
        - name: starter output
          joins:
            - "30"
            - "50"
          in:
            - cranking
  plugs:
    - {name: boot plug, at: boot, cavities: 4, carries: 15 A}
  splices:
    - {name: lamp splice, at: boot}
  loads:
    - {name: fog lamps, at: boot, kind: lamp, takes: 42 W, measured at: 13.5 V, starts with: 20 A,
      live: ignition, worked by: fog switch}
    - {name: tailgate release, at: boot, kind: solenoid, takes: 12 A, on for: 0.5 s, cuts out: 9 V,
      asleep: 1 mA, opens: tailgate, by hand: cord behind the trim}
  paths:
    - name: fog lamps
      goes:
        - always
        - fuse 7
        - fog relay 30-87
        - boot plug 1
        - lamp splice
        - fog lamps
        - tail stud
      size: 1.5 mm2
      colour: BKRD
    - name: fog relay
      goes:
        - fuse 7
        - fog switch
        - fog relay 86-85
        - tail stud
  bought cables:
    - {name: aerial lead, from: fuse box, to: boot, long: 3400}
  readings:
    - {reading: fog lamps, reads: 11.9 V}
  prices:
    - {of: blade fuse, costs: 0.40}
  signals:
    - {name: audio in, from: fog lamps, to: tailgate release, disturbed by: 50 mV}
  rules:
    - never: tailgate release
      while:
        - engine running
      except:
        - fog switch worked
    - always: fog lamps
      while:
        - key at ignition
  insulation: 105 C
  tail: 100
  slack: 30
"""

SHORT = """build: Larkspur estate, 1974
unit: in
car:
  datum: {marks: two scribed lines, top of tunnel here: bare metal}
  carpet: {loose: 5/8 ± 1/16, squeezed by hand: 1/4}
  dash above tunnel:
    over: bare metal
    by: tape
    2 ahead: 9-1/4 ± 1/8
    at datum: 10
  tunnel:
    - {at: 2 behind, top: 8 above floor, down 1/2: {left: 3, right: 3-1/8}}
    - {at: 12 behind, top: 8 above floor, down 1/2: {left: 3, right: 3-1/8}}
  between seats: {at hip: 10-1/4 ± 1/8}
  lever knob:
    across: 1-7/8
    shaft: 1/2
    neutral: {behind datum: 6, above tunnel: 10-1/2, off middle: 0}
    furthest left: 2-1/2
    furthest right: 2-1/4
    furthest rear: {behind datum: 9, above tunnel: 10, off middle: 0}
    furthest front: {behind datum: 3, above tunnel: 10, off middle: 0}
console:
  deck height: 8
  width: 9-1/4
  from: 3 ahead
  to: 12 behind
"""
