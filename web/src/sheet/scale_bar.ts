// The doubt of a gap as a scale: from its 5 % to its 95 % reading, against the wanted gap.

import type { Finding } from "../server";

export interface Doubt {
  readonly short: readonly [number, number] | null; // px along the shoulder
  readonly clear: readonly [number, number] | null;
  readonly nominal: number;
  readonly wanted: number;
}

const EDGE = 0.06; // of the shoulder, free at both ends

/** Returns the scale on a shoulder of some pixels; null where the finding has no doubt in mm. */
export function doubt(one: Finding, long: number): Doubt | null {
  const { figure_mm: figure, limit_mm: limit, low_mm: low, high_mm: high, spare_mm: spare } = one;
  if (figure === null || limit === null || low === null || high === null || spare === null) return null;
  const [from, to] = [Math.min(low, figure, limit), Math.max(high, figure, limit)];
  const px = (mm: number): number => long * (EDGE + ((1 - 2 * EDGE) * (mm - from)) / (to - from || 1));
  const atMost = Math.abs(limit - figure - spare) < Math.abs(figure - limit - spare);
  const split = Math.min(Math.max(limit, low), high);
  const below = split > low ? ([px(low), px(split)] as const) : null;
  const above = high > split ? ([px(split), px(high)] as const) : null;
  return {
    short: atMost ? above : below,
    clear: atMost ? below : above,
    nominal: px(figure),
    wanted: px(limit),
  };
}
