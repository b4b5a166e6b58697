// What bands are on a board, and what a gesture makes of them. Nothing here
// touches the page, and nothing here knows where a peg lies: a peg is a number.

/** A peg, by its place in the board's list. */
export type Peg = number;

/** A band: the pegs it turns at, in order. It is a loop; round two pegs it is a piece of a line. */
export type Band = readonly Peg[];

/** Why a gesture did nothing: the band has that peg, there is no further band, or there is nothing there. */
export type Refusal = "" | "again" | "full" | "nothing";

interface Moment {
  readonly bands: readonly Band[];
  /** The band that buttons act on, -1 for none. */
  readonly chosen: number;
  /** Whether the chosen band is still being stretched from its last peg. */
  readonly open: boolean;
}

/** What is on the board, what was on it before, and why the last gesture did nothing, if so. */
export interface State extends Moment {
  readonly past: readonly Moment[];
  readonly refused: Refusal;
  /** How many bands the task allows. */
  readonly most: number;
}

export type Gesture =
  | { kind: "stretch"; from: Peg; to: Peg; fresh?: boolean }
  | { kind: "bend"; band: number; side: number; peg: Peg }
  | { kind: "move"; band: number; corner: number; to: Peg }
  | { kind: "drop"; band: number; corner: number }
  | { kind: "choose"; band: number }
  | { kind: "rest" }
  | { kind: "off"; band: number }
  | { kind: "clear" }
  | { kind: "set"; bands: readonly Band[] }
  | { kind: "undo" };

/** So many bands are the most on any board. */
export const mostBands = 40;
const longestPast = 500;

export function empty(most = 0): State {
  return { bands: [], chosen: -1, open: false, past: [], refused: "", most: most > 0 ? Math.min(most, mostBands) : mostBands };
}

/**
 * Returns the state after a gesture. A gesture that would name a peg twice in
 * one band, or make one band too many, changes nothing but `refused`. Undo
 * after any gesture that changed the bands gives the state before it.
 */
export function apply(s: State, g: Gesture): State {
  switch (g.kind) {
    case "stretch":
      return stretch(s, g.from, g.to, g.fresh === true);
    case "bend":
      return reshape(s, g.band, g.peg, (b) => (b[g.side] === undefined ? b : [...b.slice(0, g.side + 1), g.peg, ...b.slice(g.side + 1)]));
    case "move":
      return reshape(s, g.band, g.to, (b) => (b[g.corner] === undefined ? b : b.map((p, i) => (i === g.corner ? g.to : p))));
    case "drop":
      return drop(s, g.band, g.corner);
    case "choose":
      return s.bands[g.band] ? { ...s, chosen: g.band, open: false, refused: "" } : refuse(s, "nothing");
    case "rest":
      return { ...s, open: false, refused: "" };
    case "off":
      return off(s, g.band);
    case "clear":
      return s.bands.length === 0 ? refuse(s, "nothing") : next(s, { bands: [], chosen: -1, open: false });
    case "set":
      return next(s, { bands: g.bands, chosen: g.bands.length - 1, open: false });
    case "undo":
      return undo(s);
  }
}

function refuse(s: State, refused: Refusal): State {
  return { ...s, refused };
}

function next(s: State, m: Moment): State {
  const before = { bands: s.bands, chosen: s.chosen, open: s.open };
  return { ...m, past: [...s.past, before].slice(-longestPast), refused: "", most: s.most };
}

function undo(s: State): State {
  const before = s.past[s.past.length - 1];
  return before ? { ...before, past: s.past.slice(0, -1), refused: "", most: s.most } : refuse(s, "nothing");
}

/** The peg that the chosen band is being stretched from, or -1. */
export function end(s: State): Peg {
  const band = s.open ? s.bands[s.chosen] : undefined;
  return band ? band[band.length - 1] : -1;
}

function stretch(s: State, from: Peg, to: Peg, fresh: boolean): State {
  if (from === to) return refuse(s, "nothing");
  if (!fresh && end(s) === from) return lengthen(s, to);
  if (s.bands.length >= s.most) return refuse(s, "full");
  return next(s, { bands: [...s.bands, [from, to]], chosen: s.bands.length, open: true });
}

function lengthen(s: State, to: Peg): State {
  const band = s.bands[s.chosen];
  if (band[0] === to) return { ...s, open: false, refused: "" };
  if (band.includes(to)) return refuse(s, "again");
  return next(s, { bands: swap(s.bands, s.chosen, [...band, to]), chosen: s.chosen, open: true });
}

function reshape(s: State, at: number, peg: Peg, change: (b: Band) => Band): State {
  const band = s.bands[at];
  if (!band) return refuse(s, "nothing");
  if (band.includes(peg)) return refuse(s, "again");
  const changed = change(band);
  if (changed === band) return refuse(s, "nothing");
  return next(s, { bands: swap(s.bands, at, changed), chosen: at, open: false });
}

function drop(s: State, at: number, corner: number): State {
  const band = s.bands[at];
  if (!band || band[corner] === undefined) return refuse(s, "nothing");
  if (band.length === 2) return off(s, at);
  return next(s, { bands: swap(s.bands, at, band.filter((_, i) => i !== corner)), chosen: at, open: false });
}

function off(s: State, at: number): State {
  if (!s.bands[at]) return refuse(s, "nothing");
  const bands = s.bands.filter((_, i) => i !== at);
  return next(s, { bands, chosen: bands.length - 1, open: false });
}

function swap(bands: readonly Band[], at: number, band: Band): readonly Band[] {
  return bands.map((b, i) => (i === at ? band : b));
}

/** Writes bands as the server reads them: "A1 D1 D3 / B2 C2". */
export function write(bands: readonly Band[], names: readonly string[]): string {
  return bands.map((b) => b.map((p) => names[p]).join(" ")).join(" / ");
}

/** Reads what `write` wrote, or null for anything else. */
export function read(text: string, names: readonly string[]): readonly Band[] | null {
  if (text === "") return [];
  const bands = text.split(" / ").map((b) => b.split(" ").map((n) => names.indexOf(n)));
  const good = (b: Band) => b.length >= 2 && !b.includes(-1) && new Set(b).size === b.length;
  return bands.every(good) ? bands : null;
}
