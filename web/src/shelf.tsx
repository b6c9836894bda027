// Every build on the shelf: what stands against it and what locks next.

import { Begin } from "./measure/begin";
import { shelf, take } from "./model/bench";

export function Shelf() {
  return (
    <main class="shelf">
      <h1>On the shelf</h1>
      <ul>
        {shelf.value.map((one) => (
          <li key={one.name}>
            <button
              onClick={() => {
                history.pushState(null, "", `/${encodeURIComponent(one.name)}`);
                void take(one.name);
              }}
            >
              <b>{one.title}</b>
              <span>{one.stops === null ? "cannot be used as it is" : `${one.stops} stop`}</span>
              <span>{one.next_lock !== "" && `next: before ${one.next_lock}`}</span>
            </button>
          </li>
        ))}
      </ul>
      <Begin />
    </main>
  );
}
