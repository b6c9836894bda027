// Questions to the server and its answers, typed from its own schema.

import type { components } from "./api";

type Schemas = components["schemas"];
export type Standing = Schemas["StandingMessage"];
export type Fit = Schemas["FitMessage"];
export type Before = Schemas["BeforeMessage"];
export type Test = Schemas["TestMessage"];
export type Finding = Schemas["FindingMessage"];
export type Remedy = Schemas["RemedyMessage"];
export type Edit = Schemas["EditMessage"];
export type Fault = Schemas["FaultMessage"];
export type Views = Schemas["ViewsMessage"];
export type View = Schemas["ViewMessage"];
export type Detail = Schemas["DetailMessage"];
export type ViewsAsked = Schemas["ViewsAsked"];
export type Deeds = Schemas["DeedsMessage"];
export type Trial = Schemas["TrialMessage"];
export type Drawn = NonNullable<Schemas["ViewsAsked"]["drawn"]>;
export type Drag = Schemas["DragMessage"];
export type DragAsked = Schemas["DragAsked"];
export type OnShelf = Schemas["OnShelf"];
export type Here = Schemas["HereMessage"];
export type Beside = Schemas["BesideMessage"];
export type Clash = Schemas["ClashMessage"];

/** The file cannot hold an edit: every fault of it. */
export class FaultsError extends Error {
  constructor(readonly faults: readonly Fault[]) {
    super("The file cannot hold this.");
  }
}

/** Another hand changed what an edit would write. */
export class ClashError extends Error {
  constructor(readonly clash: Clash) {
    super("This was changed meanwhile.");
  }
}

/** The server gave no answer. */
export class AwayError extends Error {}

const UNPAIRED = 401;
const UNUSABLE = 422;
const CLASH = 409;

/** A question that was overtaken: nobody waits for its answer any more. */
export class OvertakenError extends Error {}

let onEnd: ((says: string) => void) | null = null;

/** Calls back once the server lets this page in no more, with why; nothing that waits for it goes on then. */
export function heedEnd(callback: (says: string) => void): void {
  onEnd = callback;
}

let onAway: (() => void) | null = null;

export async function answer<T>(path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  let response: Response;
  let told: unknown;
  try {
    response = await fetch(path, { ...request(body), ...(signal && { signal }) });
    told = await response.json().catch((error: unknown) => {
      if (response.ok || signal?.aborted) throw error;
      return null;
    });
  } catch {
    if (signal?.aborted) throw new OvertakenError();
    onAway?.();
    throw new AwayError("No connection to the bench.");
  }
  if (response.ok) return told as T;
  if (response.status === UNPAIRED && onEnd !== null) {
    onEnd(detail(told) ?? "");
    return new Promise<never>(() => undefined);
  }
  if (response.status === UNUSABLE) throw new FaultsError(told as Fault[]);
  if (response.status === CLASH && told !== null && "theirs" in (told as object)) {
    throw new ClashError(told as Clash);
  }
  throw new Error(detail(told) ?? `The bench answers ${response.status}.`);
}

function request(body: unknown): RequestInit {
  if (body === undefined) return {};
  if (body instanceof Blob) {
    return { method: "POST", headers: { "content-type": "application/octet-stream" }, body };
  }
  return {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  };
}

function detail(told: unknown): string | undefined {
  const said = (told as { detail?: unknown } | null)?.detail;
  return typeof said === "string" ? said : undefined;
}

export const at = (name: string, more = ""): string => `/api/builds/${encodeURIComponent(name)}${more}`;

export const server = {
  here: () => answer<Here>("/api/here"),
  builds: () => answer<OnShelf[]>("/api/builds"),
  standing: (name: string) => answer<Standing>(at(name)),
  deeds: (name: string) => answer<Deeds>(at(name, "/deeds")),
  fit: (name: string, signal: AbortSignal) => answer<Fit>(at(name, "/fit"), undefined, signal),
  views: (name: string, asked: ViewsAsked) => answer<Views>(at(name, "/views"), asked),
  edit: (name: string, base: string, patch: Schemas["KeptPatch"]) =>
    answer<Standing>(at(name, "/edits"), { base, ...patch }),
  beside: (name: string, mine: Schemas["OtherWay"]) => answer<Beside>(at(name, "/beside"), mine),
  drag: (name: string, asked: DragAsked) => answer<Drag>(at(name, "/drag"), asked),
  replay: (name: string, kept: Schemas["Replay"]) => answer<Schemas["ReplayMessage"]>(at(name, "/replay"), kept),
  trial: (name: string, edits: readonly Edit[], signal: AbortSignal) =>
    answer<Trial>(at(name, "/trial"), { edits }, signal),
  undo: (name: string) => answer<Standing>(at(name, "/undo"), {}),
  redo: (name: string) => answer<Standing>(at(name, "/redo"), {}),
};

const AGAIN_MS = 3000; // until a line that was closed is opened again

/** Calls back with every new version of a build, again when its findings are worked out, news of the sharing, and whether the server can be heard. */
export function listen(
  onVersion: (name: string, version: string) => void,
  onHeard: (heard: boolean) => void,
  onShare: () => void,
): void {
  const told = (event: Event) => JSON.parse((event as MessageEvent<string>).data) as Record<string, string>;
  let source = opened();
  // a question without an answer: only a new line tells whether, and when, the next one has one
  onAway = () => {
    if (source.readyState !== EventSource.OPEN) return; // it is being made anew already
    source.close();
    later();
  };

  function opened(): EventSource {
    const line = new EventSource("/api/events");
    line.addEventListener("open", () => {
      onHeard(true);
      onShare(); // what was told of it before this page listened
    });
    line.addEventListener("error", () => {
      onHeard(false);
      if (line.readyState === EventSource.CLOSED) void anew(); // a browser does not try that again
    });
    for (const news of ["version", "reckoned"]) {
      line.addEventListener(news, (event) => {
        onVersion(told(event)["name"] ?? "", told(event)["version"] ?? "");
      });
    }
    line.addEventListener("share", onShare);
    line.addEventListener("ended", (event) => {
      line.close();
      onEnd?.(told(event)["says"] ?? "");
    });
    return line;
  }

  async function anew(): Promise<void> {
    await server.here().catch(() => undefined); // where the page is let in no more, that ends it
    later();
  }

  function later(): void {
    setTimeout(() => (source = opened()), AGAIN_MS);
  }
}
