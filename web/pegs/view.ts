// The board as a drawing. It is told the state and draws it; it decides nothing.

import { Hand, Spot } from "./hand";
import { State } from "./state";
import { heldPeg, pegLabel, Texts } from "./words";

/** A board as the server lays it out: one unit between neighbouring pegs, y down from the top left. */
export interface Layout {
  width: number;
  height: number;
  pegs: readonly { name: string; x: number; y: number }[];
  letters: readonly { text: string; x: number; y: number; size: number }[];
  disc?: { x: number; y: number; r: number };
}

interface Point {
  x: number;
  y: number;
}

const unit = 100;
const space = "http://www.w3.org/2000/svg";
const dashes = ["", "26 17", "1 17", "34 16 1 16", "10 15", "30 16 1 16 1 16"];

export class View {
  readonly svg: SVGSVGElement;
  readonly names: readonly string[];
  private readonly threads: SVGElement;
  private readonly lead: SVGElement;
  private readonly pegs: SVGElement[] = [];

  constructor(private readonly layout: Layout, private readonly texts: Texts) {
    this.names = layout.pegs.map((p) => p.name);
    this.svg = make("svg", { viewBox: `0 0 ${layout.width * unit} ${layout.height * unit}`, class: "pegs", role: "application" }) as SVGSVGElement;
    this.svg.setAttribute("aria-label", texts["board"] ?? "");
    this.ground();
    this.threads = this.group("threads");
    this.lead = make("line", { class: "lead" }, this.svg);
    layout.pegs.forEach((_, i) => this.pegs.push(this.peg(i)));
    this.reach(0);
  }

  /** Draws a state. */
  draw(s: State, h: Hand): void {
    this.threads.replaceChildren();
    s.bands.forEach((b, i) => this.band(s, h, b, i));
    const held = heldPeg(s, h);
    this.pegs.forEach((g, i) => {
      const band = s.bands.findIndex((b) => b.includes(i));
      const own = s.bands[s.chosen]?.includes(i) ? s.chosen : band;
      g.setAttribute("class", "peg" + (own < 0 ? "" : " corner thread" + (own % dashes.length)) + (i === held ? " held" : ""));
      g.setAttribute("aria-label", pegLabel(this.texts, s, h, this.names, i));
      g.setAttribute("aria-pressed", String(i === held));
    });
  }

  /** Draws the thread that a finger pulls, from what is held to where the finger is. */
  pull(s: State, h: Hand, to: Point | null): void {
    const from = heldPeg(s, h);
    this.lead.classList.toggle("shown", to !== null && (from >= 0 || h.held.kind === "side"));
    if (!to) return;
    const a = from >= 0 ? this.at(from) : this.middle(s, h);
    set(this.lead, { x1: a.x, y1: a.y, x2: to.x * unit, y2: to.y * unit });
  }

  /** Marks the peg that a finger is over. */
  over(peg: number): void {
    this.pegs.forEach((g, i) => g.classList.toggle("over", i === peg));
  }

  /** Makes one peg the one that Tab reaches. */
  reach(peg: number, focus = false): void {
    this.pegs.forEach((g, i) => g.setAttribute("tabindex", i === peg ? "0" : "-1"));
    if (focus) this.pegs[peg].focus();
  }

  /** The place of an event on the board, in units of the layout. */
  place(e: PointerEvent): Point {
    const m = this.svg.getScreenCTM();
    if (!m) return { x: -9, y: -9 };
    const p = new DOMPoint(e.clientX, e.clientY).matrixTransform(m.inverse());
    return { x: p.x / unit, y: p.y / unit };
  }

  /** The peg nearest to a place, or -1 where none is within reach. */
  near(p: Point): number {
    const far = this.layout.pegs.map((q) => Math.hypot(q.x - p.x, q.y - p.y));
    const best = far.indexOf(Math.min(...far));
    return far[best] <= 0.5 ? best : -1;
  }

  /** Whether a place lies outside the board. */
  outside(p: Point): boolean {
    return p.x < 0 || p.y < 0 || p.x > this.layout.width || p.y > this.layout.height;
  }

  /** What is under a finger that comes down: a peg, or a side that is nearer than any peg. */
  spot(p: Point, s: State, h: Hand): Spot | null {
    const peg = this.near(p);
    const far = peg < 0 ? 1 : Math.hypot(this.layout.pegs[peg].x - p.x, this.layout.pegs[peg].y - p.y);
    if (h.held.kind === "none" && far > 0.17) {
      const [side, aside] = this.nearSide(p, s);
      if (side && (far > 0.31 || aside + 0.12 < far)) return side;
    }
    return peg < 0 ? null : { kind: "peg", peg };
  }

  /** The peg that has the focus or that an event is about, or -1. */
  pegOf(e: Event): number {
    return Number((e.target as Element).closest<SVGElement>("[data-peg]")?.dataset.peg ?? -1);
  }

  /** The next peg in a direction, for the arrow keys; the same peg at the edge. */
  towards(peg: number, dx: number, dy: number): number {
    const here = this.layout.pegs[peg];
    let best = peg;
    let least = Infinity;
    this.layout.pegs.forEach((q, i) => {
      const along = (q.x - here.x) * dx + (q.y - here.y) * dy;
      const aside = Math.abs((q.x - here.x) * dy) + Math.abs((q.y - here.y) * dx);
      if (along < 0.05 || aside > along * 1.8) return;
      if (along + 2 * aside < least) [best, least] = [i, along + 2 * aside];
    });
    return best;
  }

  private nearSide(p: Point, s: State): [Spot | null, number] {
    let best: Spot | null = null;
    let least = 0.22;
    s.bands.forEach((pegs, band) => {
      for (let side = 0; side < (pegs.length === 2 ? 1 : pegs.length); side++) {
        const a = this.layout.pegs[pegs[side]];
        const b = this.layout.pegs[pegs[(side + 1) % pegs.length]];
        const [dx, dy] = [b.x - a.x, b.y - a.y];
        const k = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy)));
        const far = Math.hypot(a.x + k * dx - p.x, a.y + k * dy - p.y) - (band === s.chosen ? 0.02 : 0);
        if (far < least) [best, least] = [{ kind: "side", band, side }, far];
      }
    });
    return [best, least];
  }

  private at(peg: number): Point {
    const p = this.layout.pegs[peg];
    return { x: p.x * unit, y: p.y * unit };
  }

  private middle(s: State, h: Hand): Point {
    if (h.held.kind !== "side") return { x: 0, y: 0 };
    const band = s.bands[h.held.band];
    const a = this.at(band[h.held.side]);
    const b = this.at(band[(h.held.side + 1) % band.length]);
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  }

  private ground(): void {
    const d = this.layout.disc;
    if (d) make("circle", { cx: d.x * unit, cy: d.y * unit, r: d.r * unit, class: "disc" }, this.svg);
    const letters = this.group("letters");
    letters.setAttribute("aria-hidden", "true");
    for (const l of this.layout.letters) {
      make("text", { x: l.x * unit, y: l.y * unit, "font-size": l.size * unit * 0.8 }, letters).textContent = l.text;
    }
  }

  private group(name: string): SVGElement {
    return make("g", { class: name }, this.svg);
  }

  private peg(i: number): SVGElement {
    const { x, y } = this.at(i);
    const g = make("g", { class: "peg", role: "button", "data-peg": i }, this.svg);
    make("circle", { cx: x, cy: y, r: 31, class: "touch" }, g);
    make("circle", { cx: x, cy: y, r: 9, class: "ring" }, g);
    return g;
  }

  private band(s: State, h: Hand, pegs: readonly number[], i: number): void {
    const points = pegs.map((p) => `${this.at(p).x},${this.at(p).y}`).join(" ");
    const k = i % dashes.length;
    if (i === s.chosen) make("polygon", { points, class: `chosen thread${k}` }, this.threads);
    make("polygon", { points, class: `thread thread${k}`, "stroke-dasharray": dashes[k] }, this.threads);
    for (let side = 0; side < (pegs.length === 2 ? 1 : pegs.length); side++) {
      const a = this.at(pegs[side]);
      const b = this.at(pegs[(side + 1) % pegs.length]);
      const held = h.held.kind === "side" && h.held.band === i && h.held.side === side;
      if (held) make("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, class: "heldside" }, this.threads);
    }
  }
}

function make(name: string, attributes: Record<string, string | number>, parent?: Element): SVGElement {
  const el = document.createElementNS(space, name);
  set(el, attributes);
  parent?.append(el);
  return el;
}

function set(el: Element, attributes: Record<string, string | number>): void {
  for (const [k, v] of Object.entries(attributes)) el.setAttribute(k, String(v));
}
