// One page as it will be printed, drawn when it comes into sight; on a night screen in chalk.

import { useEffect, useRef, useState } from "preact/hooks";

import { drawnPage, large } from "./papers";
import type { PagePaper } from "./papers";

export function PagePreview({ page, version }: { page: PagePaper; version: string }) {
  const held = large.value === page.number;
  const place = useRef<HTMLDivElement>(null);
  const [near, setNear] = useState(false);
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    if (place.current === null) return;
    const watch = new IntersectionObserver(
      (seen) => {
        if (seen.some((one) => one.isIntersecting)) setNear(true);
      },
      { rootMargin: "400px" },
    );
    watch.observe(place.current);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    if (!near) return;
    let wanted = true;
    drawnPage(page.number).then(
      (svg) => {
        if (wanted && place.current !== null) place.current.replaceChildren(drawing(svg));
      },
      (error: Error) => setTrouble(error.message),
    );
    return () => {
      wanted = false;
    };
  }, [near, version, page.number]);
  return (
    <figure class={`page-preview${held ? " large" : ""}`}>
      <div ref={place} class={`page-ground ${page.width_mm < page.height_mm ? "upright" : "level"}`} aria-hidden="true" />
      <button
        aria-pressed={held}
        aria-label={`Page ${page.number}, ${page.title}: ${held ? "smaller" : "larger"}`}
        onClick={() => {
          large.value = held ? 0 : page.number;
        }}
      />
      <figcaption>
        {page.number} · {page.title}
        {trouble !== "" && <span role="status"> · {trouble}</span>}
      </figcaption>
    </figure>
  );
}

/** A page's drawing as elements; its own style sheet stays out, the place brings one. */
function drawing(text: string): Node {
  // pens of the page would take the place of the paper's, which are true widths
  const bare = text.replace(/ pen-[a-z-]+"/g, '"').replace(/<(style)>[^<]*<\/\1>/, "");
  const read = new DOMParser().parseFromString(bare, "image/svg+xml").documentElement;
  read.removeAttribute("width");
  read.removeAttribute("height");
  return document.importNode(read, true);
}
