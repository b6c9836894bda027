// What of the diagram is in hand or at fault: found under a finger, and marked by a cross.

const NEAR_PX = 14; // a finger on a thin line

export const ownName = (group: Element): string => {
  const of = group.getAttribute("data-of") ?? "";
  return of.slice(of.indexOf(" ") + 1);
};

/** What is drawn where the diagram was tapped, or nearest to it within a finger's width. */
export function tapped(event: MouseEvent): Element | null {
  const hit = (event.target as Element).closest("g[data-of]");
  if (hit !== null) return hit;
  for (const far of [NEAR_PX / 2, NEAR_PX]) {
    for (let k = 0; k < 8; k += 1) {
      const turn = (k * Math.PI) / 4;
      const [x, y] = [event.clientX + far * Math.cos(turn), event.clientY + far * Math.sin(turn)];
      const near = document.elementFromPoint(x, y)?.closest(".wire-ground g[data-of]");
      if (near) return near;
    }
  }
  return null;
}

/** Outlines what is in hand, and crosses what is at fault. */
export function mark(root: Element, inHand: ReadonlySet<string>, atFault: string): void {
  root.querySelectorAll(".fault-struck").forEach((one) => one.remove());
  for (const group of root.querySelectorAll<SVGGElement>("g[data-of]")) {
    const own = ownName(group);
    group.classList.toggle("in-hand", inHand.has(own));
    group.classList.toggle("at-fault", atFault !== "" && own === atFault);
  }
  const struck = best(root.querySelectorAll<SVGGElement>("g.at-fault"));
  if (struck !== undefined) strike(struck);
  const sought = struck ?? best(root.querySelectorAll<SVGGElement>("g.in-hand"));
  if (sought !== undefined) bringIn(root, sought);
}

/** Where a thing is drawn as several, the cross goes on what it is rather than on what frames it. */
function best(groups: Iterable<SVGGElement>): SVGGElement | undefined {
  const all = [...groups].filter((one) => !one.getAttribute("data-of")?.startsWith("lead "));
  return all.find((one) => !one.getAttribute("data-of")?.startsWith("part ")) ?? all[0];
}

/** Scrolls the sheet, and nothing around it, to what is drawn outside of what can be seen. */
function bringIn(root: Element, group: SVGGElement): void {
  const sheet = root.closest(".wire-sheet");
  if (sheet === null) return;
  const [window, own] = [sheet.getBoundingClientRect(), group.getBoundingClientRect()];
  const beyond = (low: number, high: number, least: number, most: number): number =>
    low >= least && high <= most ? 0 : (low + high - least - most) / 2;
  const right = beyond(own.left, own.right, window.left, window.right);
  const down = beyond(own.top, own.bottom, window.top, window.bottom);
  if (right !== 0 || down !== 0) sheet.scrollBy(right, down);
}

const HALF = 2.6; // of the cross [mm of the paper]

function strike(group: SVGGElement): void {
  const at = middle(group);
  const cross = document.createElementNS("http://www.w3.org/2000/svg", "path");
  cross.setAttribute("class", "fault-struck");
  cross.setAttribute("d", `M${at.x - HALF} ${at.y - HALF}l${2 * HALF} ${2 * HALF}m0 ${-2 * HALF}l${-2 * HALF} ${2 * HALF}`);
  group.append(cross);
}

/** Half way along the longest line of a wire; the middle of any other thing. */
function middle(group: SVGGElement): { x: number; y: number } {
  const lines = [...group.querySelectorAll<SVGGeometryElement>("path, line, polyline")];
  const [longest] = lines.sort((a, b) => b.getTotalLength() - a.getTotalLength());
  if (longest !== undefined && group.getAttribute("data-of")?.startsWith("wire ")) {
    return longest.getPointAtLength(longest.getTotalLength() / 2);
  }
  const { x, y, width, height } = group.getBBox();
  return { x: x + width / 2, y: y + height / 2 };
}
