// The true width of words as the page sets them.

import { signal } from "@preact/signals";

import type { Width } from "./box";

const FACE = '"Sofia Sans", "Bitter", "Segoe UI", "Noto Sans", system-ui, sans-serif';
export const LABEL = 13;

let pen: CanvasRenderingContext2D | null = null;
/** Counts up once the faces are there, so that what was placed with others is placed anew. */
export const faces = signal(0);
void document.fonts.ready.then(() => {
  faces.value += 1;
});

export const width: Width = (words, size) => {
  pen ??= document.createElement("canvas").getContext("2d");
  if (pen === null) throw new Error("The browser has no canvas to measure words with.");
  pen.font = `400 ${size}px ${FACE}`;
  return pen.measureText(words).width;
};
