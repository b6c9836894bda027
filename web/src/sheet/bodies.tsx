// The lines and areas of a view, and what a remedy would change of them.

import type { View } from "../server";
import type { Point } from "./box";
import { fresh } from "./change";
import { line, path } from "./scale";
import type { Scale } from "./scale";

type Stroke = View["strokes"][number];
const lit = (one: Stroke): boolean => one.closed && one.pen === "visible";
const toned = (one: Stroke): boolean => one.closed && one.pen === "other-body";

export function Bodies({ view, scale, dim = false }: { view: View; scale: Scale; dim?: boolean }) {
  const { at, px } = scale;
  return (
    <g class={dim ? "bodies dim" : "bodies"}>
      {view.strokes.filter(toned).map((one, k) => (
        <path key={`t${k}`} class="toned" d={path(one.points, at, true)} />
      ))}
      {view.strokes.filter(lit).map((one, k) => (
        <path key={`l${k}`} class="lit" d={path(one.points, at, true)} />
      ))}
      {view.areas.map((one, k) => (
        <path key={`a${k}`} class={`area area-${one.fill}`} d={path(one.points, at, true)} />
      ))}
      {view.strokes.map((one, k) => (
        <path key={`s${k}`} class={`pen pen-${one.pen}`} d={path(one.points, at, one.closed)} />
      ))}
      {view.rings.map((one, k) => {
        const [cx, cy] = at(one.centre);
        return <circle key={`r${k}`} class={`pen ring pen-${one.pen}`} cx={cx} cy={cy} r={one.radius * px} />;
      })}
      {view.datum && <Datum at={at(view.datum)} />}
    </g>
  );
}

function Datum({ at: [x, y] }: { at: Point }) {
  return <path class="datum" d={`M${x} ${y}l-6 11h12Z`} />;
}

/** What edits would take off, hatched red with the new edge in red, and the old outline beside it. */
export function Changed({ view, after, scale, id }: { view: View; after: View; scale: Scale; id: string }) {
  const { at } = scale;
  const wood = (one: View): string =>
    [
      ...one.areas.filter((area) => area.fill === "ply").map((area) => path(area.points, at, true)),
      ...one.strokes.filter(lit).map((stroke) => path(stroke.points, at, true)),
    ].join("");
  return (
    <g class="changed">
      <mask id={id} maskUnits="userSpaceOnUse" x="0" y="0" width="4000" height="4000">
        <rect width="4000" height="4000" fill="white" />
        <path d={wood(after)} fill="black" />
      </mask>
      <path class="waste" d={wood(view)} mask={`url(#${id})`} />
      <path class="pen pen-other-body" d={line(fresh(view, after).map(([a, b]) => [at(a), at(b)]))} />
      <path class="red-line" d={line(fresh(after, view).map(([a, b]) => [at(a), at(b)]))} />
    </g>
  );
}
