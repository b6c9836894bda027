// What the lists of the wiring hold, in the order they are offered, and what one of each is called.

export interface Listed {
  readonly key: string; // of the file, under wiring
  readonly sort: string;
  readonly one: string;
  readonly many: string;
}

const listed = (key: string, sort: string, one: string, many: string): Listed => ({ key, sort, one, many });

export const LISTS: readonly Listed[] = [
  listed("loads", "load", "load", "loads"),
  listed("paths", "path", "current path", "current paths"),
  listed("places", "place", "place", "places"),
  listed("trunks", "trunk", "trunk", "trunks"),
  listed("fuses", "fuse", "fuse", "fuses"),
  listed("switches", "switch", "switch", "switches"),
  listed("relays", "relay", "relay", "relays"),
  listed("grounds", "ground", "ground point", "ground points"),
  listed("feeds", "feed", "feed", "feeds"),
  listed("plugs", "plug", "plug", "plugs"),
  listed("splices", "splice", "joint", "joints"),
  listed("units", "unit", "control unit", "control units"),
  listed("bought cables", "cable", "bought cable", "bought cables"),
  listed("signals", "signal", "signal lead", "signal leads"),
  listed("rules", "rule", "rule", "rules"),
];
export const SOURCES = ["battery", "alternator"] as const;

export const oneOf = (sort: string): string => LISTS.find((each) => each.sort === sort)?.one ?? sort;
export const manyOf = (sort: string): string =>
  sort === "source" ? "battery and alternator" : (LISTS.find((each) => each.sort === sort)?.many ?? sort);
