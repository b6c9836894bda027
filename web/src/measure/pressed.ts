// A key of the keyboard as a key of the pad, from anywhere on the page but a field of words.

import type { Unit } from "./messages";
import { DOUBT, FEET, RUB_OUT } from "./typed";

const TYPED = /^[\d.,/ ]$/;

/** The pad's key, 'Enter' to go on, or null where the key is somebody else's. */
export function pressed(event: KeyboardEvent, unit: Unit): string | null {
  if (event.target instanceof Element && event.target.closest("dialog") !== null) return null;
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (event.target instanceof HTMLSelectElement) return null;
  const inWords = event.target instanceof HTMLInputElement;
  const onButton = event.target instanceof HTMLButtonElement;
  if (event.key === "Enter") return onButton ? null : "Enter";
  if (inWords || (onButton && event.key === " ")) return null;
  if (event.key === "Backspace") return RUB_OUT;
  if (event.key === DOUBT || event.key === "+") return DOUBT;
  if (event.key === "'" || event.key === "f") return unit === "in" ? FEET : null;
  return TYPED.test(event.key) ? event.key : null;
}
