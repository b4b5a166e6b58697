// The board that a hand can work: by finger, by mouse, by taps, by keys, by
// buttons. Seats and the desk's tap-in share it. It sends pegs; what they make
// is read on the server.

import { Hand, idle, nextSide, pick, put, Spot, Step, tap } from "./hand";
import { apply, Band, empty, Gesture, read, State, write } from "./state";
import { Layout, View } from "./view";
import { describe, hint, Texts } from "./words";

/** Where a board lies on its page: the svg goes into [data-board], words into [data-hint] and [data-words], and [data-do] are its buttons. */
export interface Place {
  root: HTMLElement;
  layout: Layout;
  texts: Texts;
  /** How many bands the task allows, 0 for any number. */
  most: number;
  /** Called after each change of the figure, with its text. */
  changed(figure: string): void;
}

/** What a board keeps over a reload. */
export interface Kept {
  figure: string;
  chosen: number;
  open: boolean;
  past: readonly { figure: string; chosen: number; open: boolean }[];
}

interface Drag {
  id: number;
  from: Spot;
  x: number;
  y: number;
  moved: boolean;
}

const keys: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};

export class Board {
  private readonly view: View;
  private state: State;
  private hand: Hand = idle;
  private here = 0;
  private drag: Drag | null = null;

  constructor(private readonly place: Place) {
    this.view = new View(place.layout, place.texts);
    this.state = empty(place.most);
    place.root.querySelector("[data-board]")?.replaceChildren(this.view.svg);
    this.listen();
    this.draw();
  }

  /** The figure as text, as the server reads it. */
  get figure(): string {
    return write(this.state.bands, this.view.names);
  }

  /** Whether a finger is pulling at the board now. */
  get moving(): boolean {
    return this.drag !== null;
  }

  /** Puts a figure from the server on the board; undo brings back what was there. */
  show(figure: string): void {
    const bands = read(figure, this.view.names);
    if (bands && figure !== this.figure) this.follow({ hand: idle, gestures: [{ kind: "set", bands }] }, false);
  }

  /** What to keep, with the last steps for undo. */
  keep(): Kept {
    const text = (bands: readonly Band[]) => write(bands, this.view.names);
    const { chosen, open } = this.state;
    const past = this.state.past.slice(-100).map((m) => ({ figure: text(m.bands), chosen: m.chosen, open: m.open }));
    return { figure: this.figure, chosen, open, past };
  }

  /** Takes back what was kept. */
  restore(k: Kept): void {
    const bands = read(k.figure, this.view.names);
    if (!bands || !bands[k.chosen] !== (k.chosen < 0)) return;
    const past = k.past.map((m) => ({ ...m, bands: read(m.figure, this.view.names) ?? [] }));
    this.state = { ...this.state, bands, past, chosen: k.chosen, open: k.open && k.chosen >= 0 };
    this.draw();
  }

  /** Lets go of whatever is held. */
  release(): void {
    this.follow({ hand: idle, gestures: [{ kind: "rest" }] });
  }

  private follow(step: Step, tell = true): void {
    const before = this.figure;
    this.hand = step.hand;
    for (const g of step.gestures) this.state = apply(this.state, g);
    this.draw();
    if (tell && this.figure !== before) this.place.changed(this.figure);
  }

  private draw(): void {
    this.view.draw(this.state, this.hand);
    const { root, texts } = this.place;
    this.write("[data-hint]", hint(texts, this.state, this.hand, this.view.names));
    this.write("[data-words]", describe(texts, this.state, this.view.names));
    const can: Record<string, boolean> = {
      undo: this.state.past.length > 0, off: this.state.chosen >= 0, clear: this.state.bands.length > 0,
      next: this.state.bands.length > 1, side: this.state.chosen >= 0, drop: this.hand.held.kind === "corner",
      fresh: this.state.bands.length > 0 && this.state.bands.length < this.state.most,
    };
    root.querySelectorAll<HTMLElement>("[data-do]").forEach((b) => {
      b.setAttribute("aria-disabled", String(can[b.dataset.do ?? ""] === false));
      if (b.dataset.do === "fresh") b.hidden = this.state.most === 1;
      if (b.dataset.do === "next") b.hidden = this.state.most === 1;
      if (b.dataset.do === "clear") b.hidden = this.state.most === 1;
    });
  }

  private write(selector: string, text: string): void {
    const el = this.place.root.querySelector(selector);
    if (el && el.textContent !== text) el.textContent = text;
  }

  private listen(): void {
    const svg = this.view.svg;
    svg.addEventListener("pointerdown", (e) => this.down(e));
    svg.addEventListener("pointermove", (e) => this.move(e));
    svg.addEventListener("pointerup", (e) => this.up(e));
    svg.addEventListener("pointercancel", () => this.stop());
    svg.addEventListener("keydown", (e) => this.key(e));
    svg.addEventListener("focusin", (e) => {
      const peg = this.view.pegOf(e);
      if (peg >= 0) this.here = peg;
    });
    // A screen reader's "press" arrives as a click without a pointer.
    svg.addEventListener("click", (e) => {
      const peg = e.detail === 0 ? this.view.pegOf(e) : -1;
      if (peg >= 0) this.follow(tap(this.state, this.hand, { kind: "peg", peg }));
    });
    this.place.root.addEventListener("click", (e) => {
      const b = (e.target as Element).closest<HTMLElement>("[data-do]");
      if (b && b.getAttribute("aria-disabled") !== "true") this.press(b.dataset.do ?? "");
    });
  }

  private down(e: PointerEvent): void {
    const from = this.view.spot(this.view.place(e), this.state, this.hand);
    if (!from || this.drag || e.button > 0) return;
    this.view.svg.setPointerCapture(e.pointerId);
    this.drag = { id: e.pointerId, from, x: e.clientX, y: e.clientY, moved: false };
    if (from.kind === "peg") this.view.reach((this.here = from.peg));
  }

  private move(e: PointerEvent): void {
    const d = this.drag;
    if (!d || d.id !== e.pointerId) return;
    const p = this.view.place(e);
    if (!d.moved && Math.hypot(e.clientX - d.x, e.clientY - d.y) > 10) {
      d.moved = true;
      this.hand = { ...this.hand, held: { kind: "none" } };
      this.follow(pick(this.state, this.hand, d.from));
    }
    if (!d.moved) return;
    this.view.pull(this.state, this.hand, p);
    this.view.over(this.view.near(p));
  }

  private up(e: PointerEvent): void {
    const d = this.drag;
    if (!d || d.id !== e.pointerId) return;
    this.stop();
    if (!d.moved) return this.follow(tap(this.state, this.hand, d.from));
    const p = this.view.place(e);
    const peg = this.view.near(p);
    if (peg >= 0) return this.follow(put(this.state, this.hand, peg));
    const held = this.hand.held;
    if (held.kind === "corner" && this.view.outside(p)) return this.follow({ hand: idle, gestures: [{ ...held, kind: "drop" }] });
    this.follow({ hand: idle, gestures: [] });
  }

  private stop(): void {
    this.drag = null;
    this.view.pull(this.state, this.hand, null);
    this.view.over(-1);
  }

  private key(e: KeyboardEvent): void {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const way = keys[e.key];
    if (way) {
      this.here = this.view.towards(this.here, way[0], way[1]);
      this.view.reach(this.here, true);
    } else if (e.key === "Enter" || e.key === " ") this.follow(tap(this.state, this.hand, { kind: "peg", peg: this.here }));
    else if (e.key === "Backspace") this.press("undo");
    else if (e.key === "Delete") this.press(this.hand.held.kind === "corner" ? "drop" : "off");
    else if (e.key === "Escape") this.release();
    else if (e.key === "n" || e.key === "N") this.press("fresh");
    else if (e.key === "b" || e.key === "B") this.press("next");
    else if (e.key === "s" || e.key === "S") this.press("side");
    else return;
    e.preventDefault();
  }

  private press(what: string): void {
    const g = (...gestures: Gesture[]) => this.follow({ hand: idle, gestures });
    const { chosen, bands } = this.state;
    if (what === "undo") g({ kind: "undo" });
    else if (what === "off") g({ kind: "off", band: chosen });
    else if (what === "clear") g({ kind: "clear" });
    else if (what === "next") g({ kind: "choose", band: bands.length ? (chosen + 1) % bands.length : -1 });
    else if (what === "drop" && this.hand.held.kind === "corner") g({ ...this.hand.held, kind: "drop" });
    else if (what === "fresh") this.follow({ hand: { held: { kind: "none" }, fresh: true }, gestures: [{ kind: "rest" }] });
    else if (what === "side") this.follow(nextSide(this.state, this.hand));
  }
}
