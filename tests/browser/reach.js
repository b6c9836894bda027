// What a finger can act on, and how wide and high the room is that answers to it.
() => {
  const WANTED = "button, a[href], input, select, textarea, summary, [role='button'], [role='slider']";
  const MOST = 60; // px looked at from the middle
  const named = (one) => `${one.tagName.toLowerCase()}.${one.getAttribute("class") ?? ""} '${(one.getAttribute("aria-label") ?? one.textContent ?? "").trim().slice(0, 40)}'`;
  const found = [];
  const from = document.querySelector("dialog:modal") ?? document;
  for (const one of from.querySelectorAll(WANTED)) {
    if (!one.checkVisibility({ visibilityProperty: true }) || one.disabled) continue;
    one.scrollIntoView({ block: "center", inline: "nearest" });
    const whole = one.closest("label") ?? one;
    const answers = (x, y) => {
      const hit = document.elementFromPoint(x, y);
      return hit !== null && (whole.contains(hit) || hit.closest("label")?.control === one);
    };
    const box = (one.querySelector(".reach") ?? one).getBoundingClientRect();
    const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    const far = (dx, dy) => {
      let k = 0;
      while (k < MOST && answers(x + dx * k, y + dy * k)) k += 1;
      return k;
    };
    const wide = far(1, 0) + far(-1, 0) - 1;
    const high = far(0, 1) + far(0, -1) - 1;
    found.push({ name: named(one), kind: one.closest("[class]")?.getAttribute("class") ?? "", wide, high });
  }
  return found;
}
