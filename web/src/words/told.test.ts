import { describe, expect, it } from "vitest";

import { MEANINGS } from "./meanings";
import { pieces } from "./told";

const words = (text: string) => pieces(text).filter((one) => one.meaning !== null).map((one) => one.text);

describe("pieces of a sentence", () => {
  it("tells a word where it stands first, in any form", () => {
    expect(words("The bulkheads are scribed; each bulkhead is.")).toEqual(["bulkheads", "scribed"]);
  });
  it("leaves words alone that only hold one", () => {
    expect(words("ensure, noses, datums, measured")).toEqual([]);
    expect(words("96 % sure")).toEqual(["sure"]);
  });
  it("loses nothing of the sentence", () => {
    for (const { says } of MEANINGS) expect(pieces(says).map((one) => one.text).join("")).toBe(says);
  });
  it("takes the longer of two words", () => {
    expect(words("at the test fit")).toEqual(["test fit"]);
  });
});
