// A finding's place in small: what is cut open there, in a circle.

import { useEffect, useState } from "preact/hooks";

import { name, standing } from "../model/bench";
import { server } from "../server";
import type { Detail, Finding } from "../server";
import { Bodies } from "../sheet/bodies";
import type { Point } from "../sheet/box";
import { onView } from "../sheet/scale";

const HALF = 44; // px

export function Vignette({ one }: { one: Finding }) {
  const [detail, setDetail] = useState<Detail | null>(null);
  const { at, on } = one;
  const spot = at && on ? JSON.stringify([at, on]) : "";
  useEffect(() => {
    if (!at || !on) return;
    server.views(name.value, { edits: [], at_mm: at[0], gap: [at, on], drawn: "covered" }).then(
      (told) => setDetail(told.detail),
      () => setDetail(null),
    );
  }, [spot, standing.value?.version]);
  if (!at || !on) return <span class="vignette" />;
  const id = `vignette-${one.number}`;
  return (
    <svg class="vignette" viewBox={`0 0 ${2 * HALF} ${2 * HALF}`} aria-hidden="true">
      {detail && <Inside detail={detail} ends={[at, on]} id={id} />}
      <circle class="pen pen-thin" cx={HALF} cy={HALF} r={HALF - 1} />
    </svg>
  );
}

type Spot = readonly [number, number, number];

function Inside({ detail, ends, id }: { detail: Detail; ends: readonly [Spot, Spot]; id: string }) {
  const px = HALF / detail.radius;
  const at = (p: Point): Point => [HALF + (p[0] - detail.middle[0]) * px, HALF + (p[1] - detail.middle[1]) * px];
  const [a, b] = [at(onView(detail.view, ends[0])), at(onView(detail.view, ends[1]))];
  return (
    <>
      <clipPath id={id}>
        <circle cx={HALF} cy={HALF} r={HALF - 1} />
      </clipPath>
      <g clip-path={`url(#${id})`}>
        <Bodies view={detail.view} scale={{ at, back: (p) => p, px }} />
        <path class="feeler" d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} />
      </g>
    </>
  );
}
