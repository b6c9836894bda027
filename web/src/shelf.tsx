// Every build on the shelf: what stands against it and what locks next.

import { Begin } from "./measure/begin";
import { shelf, take, titled } from "./model/bench";
import { ShareButton } from "./share/share-button";
import type { OnShelf } from "./server";

/** What stands against a build, in words. */
function against({ stops, waits }: OnShelf): string {
  if (waits) return "weighing all doubts";
  if (stops === null) return "cannot be used as it is";
  return stops === 0 ? "no stop open" : `${stops} stop${stops === 1 ? "" : "s"} open`;
}

export function Shelf() {
  return (
    <main class="shelf">
      <header class="shelf-top">
        <h1>On the shelf</h1>
        <ShareButton />
      </header>
      <ul>
        {(shelf.value ?? []).map((one) => (
          <li key={one.name}>
            <button
              onClick={() => {
                history.pushState(null, "", `/${encodeURIComponent(one.name)}`);
                void take(one.name);
              }}
            >
              <b>{titled(one.name, one.title)}</b>
              <span>{against(one)}</span>
              <span>{one.next_lock !== "" && `next: before ${one.next_lock}`}</span>
            </button>
          </li>
        ))}
      </ul>
      <Begin />
    </main>
  );
}
