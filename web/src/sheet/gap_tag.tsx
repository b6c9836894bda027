// The gap tag: mark, figure, and its doubt drawn on the shoulder that holds it.

import type { Finding } from "../server";
import type { Point } from "./box";
import { DrawnFigure, parts } from "./figure";
import { Shape } from "./mark";
import { MARK } from "./mark_room";
import { doubt } from "./scale_bar";

const BAR = 8;

/** A tag on a level shoulder from `at` to the right, its leader from the gap's feeler. */
export function GapTag({ one, at: [x, y], long, from }: { one: Finding; at: Point; long: number; from: Point }) {
  const scale = doubt(one, long);
  const inFigure = parts(one.figure).figure !== "";
  const foot = from[0] <= x ? x : x + long;
  const red = one.grade === "good" ? "tag good" : "tag";
  return (
    <g class={red}>
      <path class="tag-leader" d={`M${from[0]} ${from[1]}L${foot} ${y}M${x} ${y}H${x + long}`} />
      <g class={`mark-${one.grade}`} transform={`translate(${x} ${y - MARK - 13})`}>
        <Shape grade={one.grade} />
        {one.number > 0 && (
          <text class="mark-number" x={MARK / 2} y={one.grade === "change" ? 13 : 15.2} text-anchor="middle">
            {one.number}
          </text>
        )}
      </g>
      {inFigure && (
        <text class="tag-figure" x={x + MARK + 8} y={y - 13}>
          <DrawnFigure words={one.figure} />
        </text>
      )}
      {scale && (
        <g class="doubt" transform={`translate(${x} ${y})`}>
          {scale.short && <rect class="short" x={scale.short[0]} y={-BAR / 2} width={scale.short[1] - scale.short[0]} height={BAR} />}
          {scale.clear && <rect class="clear" x={scale.clear[0]} y={-BAR / 2} width={scale.clear[1] - scale.clear[0]} height={BAR} />}
          <path class="nominal" d={`M${scale.nominal} ${-BAR / 2}v${BAR}`} />
          <path class="wanted" d={`M${scale.wanted} -7v14`} />
        </g>
      )}
      <text class="tag-sure" x={x} y={y + 24}>
        {one.sure !== "" && `${one.sure} sure`}
        {one.sure !== "" && one.limit !== "" && " · "}
        {one.limit !== "" && (
          <>
            wanted <DrawnFigure words={one.limit} unit={false} />
          </>
        )}
      </text>
    </g>
  );
}
