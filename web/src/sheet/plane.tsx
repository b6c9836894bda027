// The cutting plane on the side view: its head A is a handle, dragged along or moved by arrows.

import { moveSection, sectionAt, standing, views } from "../model/bench";
import type { Point } from "./box";

const INCH = 25.4;
const STEPS = { mm: [1, 0.1, 10], in: [INCH / 16, INCH / 64, INCH] } as const;
export const HEAD = 15; // px, the head's radius

/** A place while the section there is still being drawn. */
function said(mm: number): string {
  const inches = standing.value?.unit === "in";
  const away = Math.abs(inches ? mm / INCH : mm).toFixed(inches ? 2 : 1);
  return `${away} ${inches ? "in" : "mm"} ${mm < 0 ? "ahead" : "behind"}`;
}

export function Plane({ head, foot, back }: { head: Point; foot: number; back: (p: Point) => Point }) {
  const told = views.value;
  if (told === null) return null;
  const [step, fine, far] = STEPS[standing.value?.unit ?? "mm"];
  const now = sectionAt.value ?? told.at_mm;
  const [x, y] = head;
  const keys: Record<string, number> = {
    ArrowLeft: now - step,
    ArrowDown: now - step,
    ArrowRight: now + step,
    ArrowUp: now + step,
    PageDown: now - far,
    PageUp: now + far,
    Home: told.span_mm[0],
    End: told.span_mm[1],
  };
  return (
    <g
      class="plane"
      role="slider"
      tabindex={0}
      aria-label="Cutting plane A"
      aria-orientation="horizontal"
      aria-valuemin={Math.round(told.span_mm[0])}
      aria-valuemax={Math.round(told.span_mm[1])}
      aria-valuenow={Math.round(now)}
      aria-valuetext={now === told.at_mm ? told.place : said(now)}
      onKeyDown={(event) => {
        const to = keys[event.key];
        if (to === undefined) return;
        event.preventDefault();
        moveSection(event.shiftKey ? now + Math.sign(to - now) * fine : to);
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
        const svg = event.currentTarget.ownerSVGElement;
        if (svg) moveSection(back([event.clientX - svg.getBoundingClientRect().left, 0])[0]);
      }}
    >
      <path class="plane-line" d={`M${x} ${y + HEAD}V${foot}`} />
      <path class="plane-end" d={`M${x} ${y + HEAD}v8M${x} ${foot - 8}v8`} />
      <path class="plane-way" d={`M${x - 21} ${y - 4}l-5 4l5 4M${x + 21} ${y - 4}l5 4l-5 4`} />
      <circle class="reach" cx={x} cy={y} r="22" />
      <circle class="plane-head" cx={x} cy={y} r={HEAD} />
      <text x={x} y={y + 5.5} text-anchor="middle">
        A
      </text>
    </g>
  );
}
