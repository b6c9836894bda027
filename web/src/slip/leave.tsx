// What is for the builder to decide may be left as it is, with a reason in his own words.

import { useState } from "preact/hooks";

import { deeds, edit } from "../model/bench";
import type { Finding } from "../server";

export function Leave({ one }: { one: Finding }) {
  const [because, setBecause] = useState("");
  const left = deeds.value?.left;
  if (left === undefined || left.some((name) => name.toLowerCase() === one.place.toLowerCase())) return null;
  const write = async (): Promise<void> => {
    const reason = because.trim();
    if (reason === "") return;
    const at = ["left as is", left.length] as const;
    const edits = [
      { path: [...at, "finding"], value: one.place },
      { path: [...at, "because"], value: reason },
    ];
    await edit(edits, `Leave ${one.place} as it is`);
  };
  return (
    <details>
      <summary>Leave it</summary>
      <form
        class="leave"
        onSubmit={(event) => {
          event.preventDefault();
          void write();
        }}
      >
        <label>
          Why it may stay as it is; the packet prints these words
          <input
            value={because}
            required
            maxLength={200}
            autocomplete="off"
            onInput={(event) => setBecause(event.currentTarget.value)}
          />
        </label>
        <button>Leave it so</button>
      </form>
    </details>
  );
}
