// One page of the wiring diagram, with what is live and what carries marked in it.

import { useEffect, useRef, useState } from "preact/hooks";

import { name } from "../model/bench";
import { at } from "../server";
import { handleOf } from "./fault";
import { marked, part, pick, picked } from "./fault_state";
import { mark, ownName, tapped } from "./marking";
import { doing, hand as taken } from "./part";
import { markHand, takeDrawn } from "./part_drawn";
import { shown, turn } from "./state";

export function Diagram({ number, version }: { number: number; version: string }) {
  const ground = useRef<HTMLDivElement>(null);
  const [drawn, setDrawn] = useState("");
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    let wanted = true;
    fetchSheet(`/wire/pages/${number}.svg`).then(
      (svg) => {
        if (!wanted || ground.current === null) return;
        ground.current.replaceChildren(svg);
        setDrawn(`${number} ${version}`);
        setTrouble("");
      },
      (error: Error) => setTrouble(error.message),
    );
    return () => {
      wanted = false;
    };
  }, [number, version]);
  const now = shown.value;
  useEffect(() => {
    if (ground.current !== null) ink(ground.current, new Set(now?.live), new Set(now?.carries));
  }, [drawn, now]);
  const changes = doing.value === "change";
  const [hand, struck, named] = [part.value, marked.value, picked.value];
  useEffect(() => {
    if (ground.current !== null) mark(ground.current, changes ? new Set() : new Set(hand?.drawn ?? [named]), changes ? "" : struck);
  }, [drawn, hand, struck, named, changes]);
  const held = taken.value;
  useEffect(() => {
    if (ground.current !== null) markHand(ground.current, changes);
  }, [drawn, held, changes]);
  return (
    <>
      {trouble !== "" && <p role="alert">{trouble}</p>}
      <div ref={ground} class={changes ? "wire-ground changing" : "wire-ground"} role="img" aria-label={`Page ${number} of the wiring diagram`} onClick={changes ? takeDrawn : worked} />
    </>
  );
}

/** A tap takes a part in hand; a switch is worked by it as well. The lists beside do both from the keyboard. */
function worked(event: MouseEvent): void {
  const group = tapped(event);
  if (group === null) return;
  pick(ownName(group));
  const isContact = group.getAttribute("data-of")?.startsWith("contact ") ?? false;
  const handle = isContact && part.value !== null ? handleOf(part.value) : undefined;
  if (handle !== undefined) turn(handle);
}

/** A sheet as the papers draw it, to be looked at here. */
export async function fetchSheet(path: string): Promise<Node> {
  const response = await fetch(at(name.value, path));
  if (!response.ok) throw new Error("This sheet cannot be shown now.");
  // the page's own style sheet and pens stay out: those of the paper are true widths
  const bare = (await response.text()).replace(/ pen-[a-z-]+"/g, '"').replace(/<(style)>[^<]*<\/\1>/, "");
  const read = new DOMParser().parseFromString(bare, "image/svg+xml").documentElement;
  read.removeAttribute("width");
  read.removeAttribute("height");
  return document.importNode(read, true);
}

/** Marks what is live, and what current passes: a group is named by what it is and the thing's own name. */
export function ink(root: Element, live: ReadonlySet<string>, carries: ReadonlySet<string>): void {
  for (const group of root.querySelectorAll("g[data-of]")) {
    const of = group.getAttribute("data-of") ?? "";
    const own = of.slice(of.indexOf(" ") + 1);
    group.classList.toggle("carries", carries.has(own));
    group.classList.toggle("live", live.has(own) && !carries.has(own));
  }
}
