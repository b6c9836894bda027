// The parts where they are drawn: which one a finger meets, and the one in hand in red.

import { tapped } from "./marking";
import { hand, hold, partOf, parts } from "./part";

/** Takes the part in hand that is drawn under a finger. */
export function takeDrawn(event: MouseEvent): void {
  const of = tapped(event)?.getAttribute("data-of");
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
