// What a hand is doing: one set of rules for taps, keys and drags, so that all
// three make the same gestures. A drag is a pick where it starts and a put where it ends.

import { end, Gesture, Peg, State } from "./state";

/** What is picked up and waits for a peg to be put on. */
export type Held =
  | { kind: "none" }
  | { kind: "peg"; peg: Peg }
  | { kind: "corner"; band: number; corner: number }
  | { kind: "side"; band: number; side: number };

/** What a finger is on. */
export type Spot = { kind: "peg"; peg: Peg } | { kind: "side"; band: number; side: number };

export interface Hand {
  readonly held: Held;
  /** Whether the next stretch is a band of its own, whatever is at its first peg. */
  readonly fresh: boolean;
}

export const idle: Hand = { held: { kind: "none" }, fresh: false };

/** What follows from a tap: the hand afterwards, and gestures to apply first, in order. */
export interface Step {
  readonly hand: Hand;
  readonly gestures: readonly Gesture[];
}

/** Picks up what is at a spot. */
export function pick(s: State, h: Hand, at: Spot): Step {
  if (at.kind === "side") {
    return { hand: { held: at, fresh: false }, gestures: [{ kind: "choose", band: at.band }] };
  }
  if (!h.fresh && end(s) === at.peg) return { hand: idle, gestures: [] };
  const corner = h.fresh ? null : cornerAt(s, at.peg);
  if (corner) return { hand: { held: corner, fresh: false }, gestures: [{ kind: "choose", band: corner.band }] };
  return { hand: { held: { kind: "peg", peg: at.peg }, fresh: h.fresh }, gestures: [{ kind: "rest" }] };
}

/** Puts what is held on a peg. */
export function put(s: State, h: Hand, peg: Peg): Step {
  const held = h.held;
  switch (held.kind) {
    case "none":
      return { hand: idle, gestures: end(s) < 0 ? [] : [{ kind: "stretch", from: end(s), to: peg }] };
    case "peg":
      return { hand: idle, gestures: held.peg === peg ? [] : [{ kind: "stretch", from: held.peg, to: peg, fresh: true }] };
    case "corner":
      return { hand: idle, gestures: same(s, held, peg) ? [] : [{ kind: "move", band: held.band, corner: held.corner, to: peg }] };
    case "side":
      return { hand: idle, gestures: [{ kind: "bend", band: held.band, side: held.side, peg }] };
  }
}

/** A tap, or Enter on a peg: puts what is held there, or picks up what is there. */
export function tap(s: State, h: Hand, at: Spot): Step {
  if (at.kind === "side") return pick(s, h, at);
  if (h.held.kind !== "none") return put(s, h, at.peg);
  if (h.fresh || end(s) < 0) return pick(s, h, at);
  if (end(s) === at.peg) return { hand: idle, gestures: [{ kind: "rest" }] };
  return put(s, h, at.peg);
}

/** Whether something is picked up, or a band is being stretched. */
export function busy(s: State, h: Hand): boolean {
  return h.held.kind !== "none" || end(s) >= 0;
}

/** The side after the one that is held, of the chosen band: for keys, and where sides lie close. */
export function nextSide(s: State, h: Hand): Step {
  const band = s.bands[s.chosen];
  if (!band) return { hand: h, gestures: [] };
  const now = h.held.kind === "side" && h.held.band === s.chosen ? h.held.side : -1;
  const sides = band.length === 2 ? 1 : band.length;
  return pick(s, h, { kind: "side", band: s.chosen, side: (now + 1) % sides });
}

function same(s: State, held: { band: number; corner: number }, peg: Peg): boolean {
  return s.bands[held.band]?.[held.corner] === peg;
}

function cornerAt(s: State, peg: Peg): { kind: "corner"; band: number; corner: number } | null {
  const order = [s.chosen, ...s.bands.map((_, i) => s.bands.length - 1 - i)];
  for (const band of order) {
    const corner = s.bands[band]?.indexOf(peg) ?? -1;
    if (corner >= 0) return { kind: "corner", band, corner };
  }
  return null;
}
