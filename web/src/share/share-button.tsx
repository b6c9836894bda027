// The way to the sheet that shares the bench; it says in every place whether the bench is shared.

import { here, opened, sharing } from "./sharing";

export function ShareButton() {
  if (here.value !== "bench") return null;
  const on = sharing.value?.on ?? false;
  const many = sharing.value?.phones.length ?? 0;
  return (
    <button
      class={on ? "share-open on" : "share-open"}
      aria-label={on ? `Shared on the garage network, phones paired: ${many}` : "Share on the garage network"}
      onClick={() => {
        opened.value = true;
      }}
    >
      {on ? "shared" : "share"}
      {on && <span>, {many}</span>}
    </button>
  );
}
