// Every word and mark that a page shows: its box, and what is wrong with where it stands.
({ covers, shortened, haloed }) => {
  const GLYPHS = 0.74; // of the size: what letters take of a line's height, the rest is leading
  const LOOSE = 1; // px
  const found = [];
  const named = (one) => `${one.tagName.toLowerCase()}.${one.getAttribute("class") ?? ""}`;
  const wayTo = (one) => [one.parentElement, one].filter(Boolean).map(named).join(" > ");

  // what is left of a box inside everything that scrolls, and what cuts it off
  const kept = (box, from) => {
    let [left, top, right, bottom] = box;
    let wrong = "";
    for (let one = from; one !== null && one !== document.body; one = one.parentElement) {
      const style = getComputedStyle(one);
      const cutsX = style.overflowX !== "visible";
      const cutsY = style.overflowY !== "visible";
      if (!cutsX && !cutsY) continue;
      if (one instanceof SVGElement && !(one instanceof SVGSVGElement)) continue;
      const edge = one.getBoundingClientRect();
      const scrolls = style.overflowY === "auto" || style.overflowY === "scroll";
      if (cutsY && scrolls) {
        [top, bottom] = [Math.max(top, edge.top), Math.min(bottom, edge.bottom)];
        if (bottom - top < 3) return null;
      } else if (cutsY && (top < edge.top - LOOSE || bottom > edge.bottom + LOOSE)) wrong ||= `cut off by ${named(one)}`;
      if (cutsX && (left < edge.left - LOOSE || right > edge.right + LOOSE)) {
        wrong ||= `cut off by ${named(one)}`;
        [left, right] = [Math.max(left, edge.left), Math.min(right, edge.right)];
        if (right - left < 1) return null;
      }
      if (style.position === "fixed") break;
    }
    const page = document.documentElement;
    if (left < -LOOSE || right > innerWidth + LOOSE) wrong ||= "runs out of the page";
    if (page.scrollHeight <= innerHeight && (top < -LOOSE || bottom > innerHeight + LOOSE)) wrong ||= "runs out of the page";
    return { box: [left, top, right, bottom], wrong };
  };

  // what stands over a box with a ground of its own
  const over = ([left, top, right, bottom], own) => {
    const [x0, y0] = [(left + right) / 2, (top + bottom) / 2];
    const ends = right - left > bottom - top ? [[left + 2, y0], [right - 2, y0]] : [[x0, top + 2], [x0, bottom - 2]];
    for (const [x, y] of [[x0, y0], ...ends]) {
      let hit = document.elementFromPoint(x, y);
      while (hit !== null && !hit.contains(own)) {
        const ground = getComputedStyle(hit).backgroundColor;
        if (hit instanceof HTMLElement && ground !== "rgba(0, 0, 0, 0)") return hit;
        hit = hit.parentElement;
      }
    }
    return null;
  };

  const add = (words, box, own, halo, cut = "") => {
    const left = kept(box, own);
    if (left === null) return;
    const top = over(left.box, own);
    if (top?.closest(covers)) return;
    const whole = own.closest(shortened) !== null;
    const wrong = cut || (left.wrong !== "" && !whole) ? cut || left.wrong : top !== null ? `lies under ${named(top)}` : "";
    found.push({ own, layer: own.closest(covers) !== null, words, box: left.box, where: wayTo(own), wrong, halo });
  };

  const seen = (one) => one.checkVisibility({ opacityProperty: true, visibilityProperty: true });
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    const own = node.parentElement;
    const words = node.data.trim();
    if (words === "" || own === null || !seen(own) || own.closest("option, clipPath, defs, script, style, .page-preview svg")) continue;
    const drawn = own.closest("text");
    const style = getComputedStyle(own);
    const range = document.createRange();
    range.selectNodeContents(node);
    const upright = drawn?.getAttribute("transform")?.startsWith("rotate") ?? false;
    for (const line of range.getClientRects()) {
      if (line.width < 1 || line.height < 1) continue;
      const trim = (line, high) => Math.max(0, (high - parseFloat(style.fontSize) * GLYPHS) / 2);
      const [dx, dy] = upright ? [trim(line, line.width), 0] : [0, trim(line, line.height)];
      const halo = drawn?.closest(haloed) == null || style.paintOrder.startsWith("stroke");
      add(words, [line.left + dx, line.top + dy, line.right - dx, line.bottom - dy], own, halo);
    }
  }

  const pen = document.createElement("canvas").getContext("2d");
  for (const one of document.querySelectorAll("select")) {
    if (!seen(one)) continue;
    const style = getComputedStyle(one);
    const edge = one.getBoundingClientRect();
    pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const words = one.selectedOptions[0]?.label ?? "";
    const left = edge.left + parseFloat(style.paddingLeft) + parseFloat(style.borderLeftWidth);
    const room = edge.right - parseFloat(style.paddingRight) - left;
    const size = parseFloat(style.fontSize) * GLYPHS;
    const middle = (edge.top + parseFloat(style.paddingTop) + edge.bottom - parseFloat(style.paddingBottom)) / 2;
    const long = pen.measureText(words).width;
    add(words, [left, middle - size / 2, left + Math.min(long, room), middle + size / 2], one, true, long > room + LOOSE ? "cut off by its own field" : "");
  }

  for (const one of document.querySelectorAll(".mark, .drawing [class^='mark-']:not(text, path), .plane-head, .handle-mark")) {
    if (!seen(one)) continue;
    const edge = one.getBoundingClientRect();
    if (edge.width < 1) continue;
    add("", [edge.left + 1, edge.top + 1, edge.right - 1, edge.bottom - 1], one, true);
  }
  // a leader through words that are not its own
  const cells = found.filter((one) => one.words !== "");
  for (const one of document.querySelectorAll(".label path, .gap-leader, .tag-leader")) {
    if (!seen(one)) continue;
    const [long, move] = [one.getTotalLength(), one.getScreenCTM()];
    const meets = new Set();
    for (let at = 3; at < long - 3; at += 2) {
      const { x, y } = one.getPointAtLength(at).matrixTransform(move);
      for (const cell of cells) if (x > cell.box[0] && x < cell.box[2] && y > cell.box[1] && y < cell.box[3]) meets.add(cell);
    }
    for (const cell of meets) if (!one.parentElement.contains(cell.own) && !cell.layer && one.ownerSVGElement.contains(cell.own)) cell.wrong ||= `has a leader running through (${named(one)})`;
  }
  return found.map(({ own, ...one }) => one);
}
