// Detail B: the place of the gap in hand, cut open, with the gap tag beside its circle.

import type { Detail as Told, Finding, View } from "../server";
import { Bodies, Changed } from "./bodies";
import { around, leaderBoxes } from "./box";
import type { Box, Point, Room } from "./box";
import { inkOf, Labels } from "./drawing";
import { GapTag } from "./gap_tag";
import { useRoom } from "./room";
import { line, onView, path } from "./scale";
import type { Scale } from "./scale";
import { faces, LABEL, width } from "./type";
import { placed } from "./words";

const TAG = { long: 140, high: 86 };
const HIGH = 40; // px from the top: clear of a title block that also says what was not measured
const BAR = 7; // half of a feeler's bar
const TITLE = 272 + 16; // px that the title block takes at the right
const AT_FOOT = "(max-width: 1100px)"; // where it is a row along the foot, or opens from the strip
const BESIDE = 300; // px of room from which the tag stands beside the circle

export function Detail({ one, detail, after }: { one: Finding; detail: Told; after: View | undefined }) {
  const [frame, room] = useRoom();
  return (
    <div class="drawing drawing-detail" ref={frame}>
      {room.width > 60 && room.height > 60 && <Circle one={one} detail={detail} after={after} room={room} />}
    </div>
  );
}

function titleWidth(): number {
  return matchMedia(AT_FOOT).matches ? 0 : TITLE;
}

interface Layout {
  readonly middle: Point;
  readonly radius: number;
  readonly tag: Point; // left end of its shoulder
  readonly long: number;
}

/** The circle left and the tag right of it; above each other where it is narrow. */
export function layout(room: Room, title: number): Layout {
  if (room.width >= BESIDE) {
    const beside = Math.max(TAG.long + 40, title);
    const radius = Math.max(Math.min(room.height / 2 - 6, (room.width - beside) / 2, 150), 30);
    const middle: Point = [radius + 8, room.height / 2];
    return { middle, radius, tag: [middle[0] + radius + 16, Math.min(title > 0 ? HIGH : 58, room.height / 2)], long: Math.min(TAG.long, room.width - 2 * radius - 32) };
  }
  const radius = Math.max(Math.min((room.height - TAG.high - 12) / 2, room.width / 2 - 6), 30);
  return { middle: [room.width / 2, room.height - radius - 6], radius, tag: [12, 54], long: Math.min(TAG.long, room.width - 24) };
}

function Circle({ one, detail, after, room }: { one: Finding; detail: Told; after: View | undefined; room: Room }) {
  void faces.value;
  const { middle, radius, tag, long } = layout(room, titleWidth());
  const { view } = detail;
  const px = radius / detail.radius;
  const move = (p: Point): Point => [
    middle[0] + (p[0] - detail.middle[0]) * px,
    middle[1] + (p[1] - detail.middle[1]) * px,
  ];
  const scale: Scale = { at: move, back: (p) => p, px };
  const [a, b] = [one.at, one.on].map((spot) => move(onView(view, spot ?? [0, 0, 0]))) as [Point, Point];
  const seen = view.labels
    .map((label) => ({ words: label.words, at: move(label.at) }))
    .filter(({ at }) => Math.hypot(at[0] - middle[0], at[1] - middle[1]) < radius - 8);
  const taken: Box[] = corners(middle, radius);
  const gap: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  taken.push(around(gap[0], gap[1], 16), ...leaderBoxes([gap, gap[0] <= tag[0] ? tag : [tag[0] + long, tag[1]]]));
  const labels = placed(seen, taken, inkOf(view, scale), room, { size: LABEL, width }).filter(
    (label) => label.box.right < middle[0] + radius && label.box.left > middle[0] - radius,
  );
  const bodies = view.strokes.filter((stroke) => stroke.closed && stroke.pen === "other-body");
  return (
    <svg class="view" role="img" aria-label={`Detail B: ${one.place}, ${one.figure}, wanted ${one.limit}`} viewBox={`0 0 ${room.width} ${room.height}`}>
      <clipPath id="clip-circle">
        <circle cx={middle[0]} cy={middle[1]} r={radius} />
      </clipPath>
      <clipPath id="clip-bodies">
        <path d={bodies.map((stroke) => path(stroke.points, move, true)).join("")} />
      </clipPath>
      <g clip-path="url(#clip-circle)" class="inside">
        <Bodies view={view} scale={scale} />
        {(one.figure_mm ?? 0) < 0 && (
          <g clip-path="url(#clip-bodies)">
            {view.areas
              .filter((area) => area.fill === "ply" || area.fill === "foam")
              .map((area, k) => (
                <path key={k} class="clash" d={path(area.points, move, true)} />
              ))}
          </g>
        )}
        {after && <Changed view={view} after={after} scale={scale} id="mask-detail" />}
      </g>
      <circle class="pen pen-visible" cx={middle[0]} cy={middle[1]} r={radius} />
      <Labels labels={labels} />
      <Feeler a={a} b={b} />
      <GapTag one={one} at={tag} long={long} from={gap} />
    </svg>
  );
}

/** The square's corners that the circle leaves: no words there. */
function corners([x, y]: Point, r: number): Box[] {
  const inner = r * Math.SQRT1_2;
  return [-1, 1].flatMap((i) =>
    [-1, 1].map((j): Box => ({
      left: i < 0 ? x - r : x + inner,
      right: i < 0 ? x - inner : x + r,
      top: j < 0 ? y - r : y + inner,
      bottom: j < 0 ? y - inner : y + r,
    })),
  );
}

/** The gap's two ends, as a feeler between two short bars. */
function Feeler({ a, b }: { a: Point; b: Point }) {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = long === 0 ? [1, 0] : [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  const bar = ([x, y]: Point): readonly [Point, Point] => [
    [x - uy * BAR, y + ux * BAR],
    [x + uy * BAR, y - ux * BAR],
  ];
  return <path class="feeler" d={line([bar(a), bar(b), [a, b]])} />;
}
