// What the trade's words mean, in a builder's words; those that are easier seen have a drawing.

export interface Meaning {
  readonly word: string;
  /** How it stands in a sentence, beside the word itself. */
  readonly forms: readonly string[];
  readonly says: string;
  /** Lines of a drawing 120 wide and 60 high: of the part meant, and thin ones of what is around it. */
  readonly heavy?: string;
  readonly thin?: string;
}

const WAVE = "M4 50C24 38 40 56 60 46S96 40 116 50";

export const MEANINGS: readonly Meaning[] = [
  {
    word: "datum",
    forms: [],
    says: "The place that everything is measured from: two marks that stay visible, with a string across.",
    heavy: "M60 34l-8 14h16Z",
    thin: "M4 34H116M60 12H20M26 9l-6 3l6 3M60 12H100M94 9l6 3l-6 3",
  },
  {
    word: "nose",
    forms: [],
    says: "The console's front end, which goes under the dash.",
    heavy: "M20 52V30L44 18",
    thin: "M44 18H96L106 30V52ZM20 52H44M8 6H34L30 24",
  },
  {
    word: "scribe",
    forms: ["scribed", "scribing"],
    says: "To cut a lower edge to the shape of what it stands on.",
    heavy: `M8 10V44${WAVE.slice(WAVE.indexOf("C"))}`,
    thin: `M8 10H112V46${WAVE}`,
  },
  {
    word: "daylight",
    forms: [],
    says: "The gap that shows between a lower edge and the carpet.",
    heavy: "M56 34V46M50 34H62M50 46H62",
    thin: "M8 8V34H112V8M4 46H116",
  },
  {
    word: "bulkhead",
    forms: ["bulkheads"],
    says: "A panel across the console, from wall to wall.",
    heavy: "M24 16H96V44H24Z",
    thin: "M16 10H104V50H96V16H24V50H16Z",
  },
  {
    word: "bevel",
    forms: ["bevelled"],
    says: "An edge cut at an angle, so that it meets a slope over its whole thickness.",
    heavy: "M44 52L76 38",
    thin: "M44 6V52M76 6V38M10 58L110 22",
  },
  {
    word: "girth",
    forms: [],
    says: "How long a string is that lies over the tunnel from floor to floor.",
    heavy: "M18 52C36 50 40 12 60 12S84 50 102 52",
    thin: "M4 54H116",
  },
  {
    word: "shoulder",
    forms: [],
    says: "Where the tunnel's top turns into its side.",
    heavy: "M40 28C43 18 48 13 60 13S77 18 80 28",
    thin: "M18 54C32 52 36 40 40 28M80 28C84 40 88 52 102 54",
  },
  {
    word: "lath",
    forms: [],
    says: "A thin straight strip of wood that bridges what lies below it.",
    heavy: "M8 16H112V22H8Z",
    thin: "M4 50C30 44 40 22 60 22S90 44 116 50",
  },
  {
    word: "rebate",
    forms: [],
    says: "A joint with a step cut along one edge, which the other panel lies in.",
    heavy: "M20 14H80V26H92V40H20Z",
    thin: "M80 14H92V26H80ZM92 14V56H80V40",
  },
  {
    word: "housing",
    forms: [],
    says: "A joint with a groove across one panel, which the other stands in.",
    heavy: "M8 34H50V42H70V34H112V54H8Z",
    thin: "M50 42V6H70V42",
  },
  {
    word: "glue-up",
    forms: [],
    says: "Gluing the panels to one piece: after it they can be trimmed, not moved.",
  },
  {
    word: "covering",
    forms: [],
    says: "Foam and leather are glued on: after it no edge can be trimmed.",
  },
  {
    word: "test fit",
    forms: [],
    says: "The bare console is set in the car, to see what it touches and how much room is left.",
  },
  {
    word: "sure",
    forms: [],
    says: "Of a hundred cars that would read as yours does, in so many the wanted gap is kept.",
  },
  {
    word: "doubt",
    forms: ["doubts"],
    says: "How far a reading may be off: you would bet 19 to 1 that it is no further.",
  },
];
