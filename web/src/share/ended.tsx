// What a phone shows that was let go: why, what did not reach the bench, and what to do.

import "./share.css";

import { waiting as kept } from "../model/kept";
import { here, ended } from "./sharing";

export function Ended() {
  const waiting = kept.value;
  return (
    <main class="pair">
      <h1>{here.value === "phone" ? "Not paired any more" : "The bench is closed to this page"}</h1>
      <p class="pair-says" role="alert">
        {ended.value}
      </p>
      {waiting.length === 0 ? (
        <p>What was entered until then is in the file.</p>
      ) : (
        <div>
          <p>These did not reach the bench; enter them again there:</p>
          <ul>
            {waiting.map((one, k) => (
              <li key={k}>{one.says}</li>
            ))}
          </ul>
        </div>
      )}
      {here.value === "phone" && (
        <p>To go on, open Share on the bench and point this phone's camera at a new code there.</p>
      )}
    </main>
  );
}
