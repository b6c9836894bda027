// A reading as a thumb types it: volts, with comma or point, above or below nought.

const VOLTS = /^([-+\u2212\u2013]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*(m?)v?$/i;

/** What is typed, as it is written; null where it is no voltage. A meter's comma is always a point. */
export function written(typed: string): string | null {
  const found = VOLTS.exec(typed.trim());
  if (found === null) return null;
  const [, sign, figure = "", milli = ""] = found;
  const plain = figure.replace(",", ".").replace(/^\./, "0.").replace(/\.$/, "");
  const minus = sign !== "" && sign !== "+" && Number(plain) !== 0;
  return `${minus ? "-" : ""}${plain} ${milli === "" ? "" : "m"}V`;
}

/** The figure of what is written, as it stands in the field. */
export const bare = (text: string): string => text.replace(/ V$/, "").replace(/^[-\u2212]/, "\u2212");

/** The same figure with the probes the other way round. */
export function turned(typed: string): string {
  const figure = typed.trim().replace(/^[-+\u2212\u2013]\s*/, "");
  return /^\s*[-\u2212\u2013]/.test(typed) ? figure : `\u2212${figure}`;
}
