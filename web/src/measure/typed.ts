// The figure under the keys: what a key makes of the text, and how the text is written in the file.

import type { ReadBy, Unit } from "./messages";

const SIXTEENTHS: Readonly<Record<string, number>> = { "1/2": 8, "1/4": 4, "1/8": 2, "1/16": 1 };
const PER_INCH = 16;
const WHOLE_FRACTION = /\/(2|4|8|16|32|64)$/;
const LONGEST = 40;

export const RUB_OUT = "rub out";
export const DOUBT = "±";
export const FEET = "ft";

/** The text after a key; a key that makes no sense there leaves it as it is. */
export function press(text: string, key: string): string {
  if (key === RUB_OUT) return rubbedOut(text);
  if (text.length >= LONGEST) return text;
  if (key in SIXTEENTHS) return withFraction(text, SIXTEENTHS[key] ?? 0);
  if (key === DOUBT) return text.trim() === "" || text.includes(DOUBT) ? text : `${text.trimEnd()} ± `;
  if (key === FEET) return /^\d+$/.test(text) ? `${text} ft ` : text;
  if (key === ".5") return /[./,]\d*$/.test(text) ? text : text + (/\d$/.test(text) ? ".5" : "0.5");
  if (/^\d$/.test(key)) return WHOLE_FRACTION.test(text) ? text : text + key;
  return /^[.,/ ]$/.test(key) && text !== "" && !/[.,/ ]$/.test(text) ? text + key : text;
}

function rubbedOut(text: string): string {
  if (/ (±|ft) $/.test(text)) return text.replace(/ (±|ft) $/, "");
  if (WHOLE_FRACTION.test(text)) return text.replace(/ ?\d+\/\d+$/, "");
  return text.slice(0, -1);
}

/** Fractions add up: a half and a quarter are three quarters, and sixteen sixteenths an inch. */
function withFraction(text: string, more: number): string {
  const found = /^(.*?)(?:(\d+)(?: (?=\d+\/)|$))?(?:(\d+)\/(\d+))?$/.exec(text);
  if (found === null) return text;
  const [, before = "", whole, top, bottom] = found;
  if (/[.,/\d]$/.test(before)) return text;
  const parts = top === undefined ? 0 : (Number(top) * PER_INCH) / Number(bottom);
  if (!Number.isInteger(parts)) return text;
  const all = Number(whole ?? 0) * PER_INCH + parts + more;
  return before + inches(all);
}

function inches(sixteenths: number): string {
  const whole = Math.floor(sixteenths / PER_INCH);
  let [top, bottom] = [sixteenths % PER_INCH, PER_INCH];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  if (top === 0) return `${whole}`;
  return whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
}

export interface Reading {
  readonly text: string;
  readonly unit: Unit;
  readonly buildUnit: Unit;
  readonly by: ReadBy | null;
  readonly side: string;
  readonly tail: string;
}

/** The reading as the file holds it: figure, unit if it is another, doubt, side. */
export function asWritten({ text, unit, buildUnit, by, side, tail }: Reading): string {
  const [figure = "", own] = text.split(DOUBT).map((part) => part.trim());
  const named = unit === buildUnit || figure.includes("ft") || tail !== "" ? figure : `${figure} ${unit}`;
  const rule = by?.written === true ? (unit === "mm" ? by.mm : by.inch) : "";
  const doubt = own ?? rule;
  return `${named}${doubt === "" ? "" : ` ± ${doubt}`}${side === "" ? "" : ` ${side}`}${tail}`;
}

/** The text in parts, its fractions apart, to be set as fractions. */
export function parts(text: string): readonly { words: string; fraction: boolean }[] {
  return text
    .split(/(\d+\/\d*)/)
    .filter((words) => words !== "")
    .map((words) => ({ words, fraction: /^\d+\/\d/.test(words) }));
}
