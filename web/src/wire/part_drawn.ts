// The parts where they are drawn: which one a finger meets, and the one in hand in red.

import { hand, hold, partOf, parts } from "./part";

const REACH = 20; // px around a finger in which a line is met
const STEP = 4;
const TURNS = 12;

/** The group of the drawing at a point, or the nearest within a finger of it. */
export function groupAt(x: number, y: number): Element | null {
  for (let far = 0; far <= REACH; far += STEP) {
    for (let turn = 0; turn < (far === 0 ? 1 : TURNS); turn += 1) {
      const angle = (turn * 2 * Math.PI) / TURNS;
      const met = document.elementFromPoint(x + far * Math.cos(angle), y + far * Math.sin(angle));
      const group = met?.closest(".wire-ground g[data-of]");
      if (group) return group;
    }
  }
  return null;
}

/** Takes the part in hand that is drawn under a finger. */
export function takeDrawn(event: MouseEvent): void {
  const of = groupAt(event.clientX, event.clientY)?.getAttribute("data-of");
  const found = of ? partOf(of, parts.value?.parts ?? []) : null;
  if (found !== null) hold(found);
}

/** Marks the part in hand in the drawing, and nothing else. */
export function markHand(root: Element, shown: boolean): void {
  const [now, all] = [hand.value, parts.value?.parts ?? []];
  for (const group of root.querySelectorAll("g[data-of]")) {
    const own = shown && now !== null && partOf(group.getAttribute("data-of") ?? "", all) === now;
    group.classList.toggle("hand", own);
  }
}
