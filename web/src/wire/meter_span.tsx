// The expected range on a scale of volts: hatched between its limits, a tick at the figure, a red line at what was read.

import type { Reading } from "./meter_state";

const WIDE = 320;
const EDGE = 10;

export function Span({ one }: { one: Reading }) {
  const { least, most } = scale(one);
  const x = (volts: number): number => EDGE + ((volts - least) / (most - least)) * (WIDE - 2 * EDGE);
  const [low, high] = [x(one.low_v), x(one.high_v)];
  return (
    <svg class="meter-span" viewBox={`0 0 ${WIDE} 44`} role="img" aria-label={`Expected ${one.expected}`}>
      <defs>
        <pattern id="meter-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="meter-hatch" d="M0 0V5" />
        </pattern>
      </defs>
      <path class="meter-line" d={`M${EDGE} 16H${WIDE - EDGE}M${EDGE} 11V21M${WIDE - EDGE} 11V21`} />
      <rect class="meter-box" x={low} y="9" width={Math.max(2, high - low)} height="14" />
      <path class="meter-tick" d={`M${x(one.sound_v)} 5V27`} />
      {one.reads_v !== null && <path class="meter-read" d={`M${x(one.reads_v)} 2V30`} />}
      <text x={EDGE} y="41">
        {said(least)}
      </text>
      <text x={WIDE - EDGE} y="41" text-anchor="end">
        {said(most)} V
      </text>
    </svg>
  );
}

const said = (volts: number): string => String(volts).replace("-", "\u2212");

/** The ends of the scale: nought, the limits and what was read are on it, in whole steps. */
function scale({ low_v, high_v, reads_v }: Reading): { least: number; most: number } {
  const all = [0, low_v, high_v, reads_v ?? 0];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const step = most - least > 1 ? 5 : 0.1;
  const down = least < 0 ? Math.floor(least / step) * step : 0;
  return { least: down, most: Math.round(Math.ceil(Math.max(most, step) / step) * step * 10) / 10 };
}
