// Words about the board, from texts that the page carries in its language.

import { busy, Hand } from "./hand";
import { end, State } from "./state";

/** The texts of a page by id, with blanks in braces: "peg {peg}". */
export type Texts = Readonly<Record<string, string>>;

/** Fills the blanks of a text. */
export function fill(texts: Texts, id: string, blanks: Readonly<Record<string, string | number>> = {}): string {
  return (texts[id] ?? "").replace(/\{(\w+)\}/g, (_, blank: string) => String(blanks[blank] ?? ""));
}

/** Says what a peg is to someone who cannot see it. */
export function pegLabel(texts: Texts, s: State, h: Hand, names: readonly string[], peg: number): string {
  const parts = [fill(texts, "peg", { peg: names[peg] })];
  s.bands.forEach((b, i) => {
    if (b.includes(peg)) parts.push(fill(texts, "corner", { band: i + 1 }));
  });
  if (heldPeg(s, h) === peg) parts.push(fill(texts, "held"));
  return parts.join(", ");
}

/** The peg that is picked up, or -1. */
export function heldPeg(s: State, h: Hand): number {
  switch (h.held.kind) {
    case "peg":
      return h.held.peg;
    case "corner":
      return s.bands[h.held.band]?.[h.held.corner] ?? -1;
    case "side":
      return -1;
    default:
      return end(s);
  }
}

/** Says what to do next, or why nothing happened. */
export function hint(texts: Texts, s: State, h: Hand, names: readonly string[]): string {
  if (s.refused) return fill(texts, "refused_" + s.refused, { most: s.most });
  const held = h.held;
  const peg = names[heldPeg(s, h)] ?? "";
  if (held.kind === "side") {
    const band = s.bands[held.band];
    const other = band?.[(held.side + 1) % band.length];
    return band ? fill(texts, "hint_side", { from: names[band[held.side]], to: names[other ?? 0] }) : "";
  }
  if (held.kind === "none" && busy(s, h)) {
    const first = names[s.bands[s.chosen][0]];
    return fill(texts, s.bands[s.chosen].length > 2 ? "hint_open" : "hint_first", { peg, first });
  }
  if (held.kind !== "none") return fill(texts, "hint_" + held.kind, { peg });
  if (h.fresh) return fill(texts, "hint_fresh");
  return fill(texts, s.bands.length ? "hint_rest" : "hint_start");
}

/** Says what is on the board, band by band. */
export function describe(texts: Texts, s: State, names: readonly string[]): string {
  if (s.bands.length === 0) return fill(texts, "empty");
  return s.bands.map((b, i) => fill(texts, "band", { band: i + 1, pegs: b.map((p) => names[p]).join(", ") })).join(" ");
}
