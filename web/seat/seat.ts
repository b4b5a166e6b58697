// A pupil's page: the board, "show my board", and what came of it. While there
// is no task the page has no board and only waits for one.

import { Board, Kept } from "../pegs/board";
import { Layout } from "../pegs/view";
import { fill, Texts } from "../pegs/words";
import { Moves } from "./moves";
import { Answer, newID, Outcome, Queue, Showing } from "./queue";

/** What the server knows of this seat. */
interface Known {
  seat: string;
  task: string;
  live: string | null;
  shown: { figure: string; answer: Answer } | null;
}

/** What the page is drawn with. */
interface Setting {
  seat: string;
  task: string;
  language: string;
  most: number;
  ends: number;
  now: number;
  layout: Layout;
  known: Known;
  texts: Texts;
}

const root = document.querySelector<HTMLElement>("[data-seat]");
const find = <E extends HTMLElement = HTMLElement>(name: string) => document.querySelector<E>(`[data-${name}]`);
const tab = newID(5);

function storage(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

async function post(path: string, body: unknown): Promise<Response> {
  const cut = new AbortController();
  const timer = setTimeout(() => cut.abort(), 10000);
  try {
    return await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal: cut.signal });
  } finally {
    clearTimeout(timer);
  }
}

class Seat {
  private readonly board: Board;
  private readonly shelf = storage();
  private readonly key: string;
  private readonly queue: Queue;
  private readonly moves: Moves;
  /** The figure that was shown last, so that one board is not shown twice. */
  private shown = "";
  private touched = false;
  /** How often the server was asked and told, and whether an answer came while it could not be followed. */
  private asked = 0;
  private told = 0;
  private missed = false;

  constructor(page: HTMLElement, private readonly set: Setting) {
    tidy(this.shelf);
    this.key = `pegwright.board.${set.seat}.${set.task}`;
    this.board = new Board({ root: page, layout: set.layout, texts: set.texts, most: set.most, changed: (f) => this.changed(f) });
    this.queue = new Queue(this.shelf, `pegwright.show.${set.seat}.`, {
      send: (s) => this.send(s),
      changed: (o, s) => this.status(o, s),
      wait: (ms, then) => window.setTimeout(then, ms),
    });
    this.moves = new Moves((f) => this.move(f), (f) => this.heard(f));
    this.begin();
  }

  /** Puts back what was on the board: what this device has and has not told yet, or else what the server knows. */
  private begin(): void {
    const kept = this.kept();
    const { live, shown } = this.set.known;
    if (kept) this.board.restore(kept.board);
    const theirs = live ?? (kept ? null : shown?.figure ?? null);
    if (theirs !== null && (!kept || kept.told)) this.board.show(theirs);
    if (kept && !kept.told) this.moves.tell(this.board.figure);
    if (shown) this.handedIn(shown.figure, shown.answer);
    find("show")?.addEventListener("click", () => this.show());
    this.queue.kick();
    this.status(null, null);
    this.clock();
    this.aloud();
    performance.mark("board");
  }

  /** Fetches what the server knows and follows it. An answer that is older than the next question, or than what this page told since, is passed over. */
  async refresh(): Promise<void> {
    const asked = ++this.asked;
    const told = this.told;
    const known = await ask();
    if (!known || asked !== this.asked) return;
    if (known.seat !== this.set.seat) return location.reload(); // moved to another place
    if (known.task !== this.set.task) return this.later(known.task !== "");
    if (told !== this.told) return this.refresh();
    // What the device's storage says of it is no help here: another tab writes there too.
    if (this.board.moving || this.moves.pending) this.missed = true;
    else if (known.live !== null && known.live !== this.board.figure) {
      this.board.show(known.live);
      this.keep(true);
    }
    if (known.shown && !this.queue.waiting().length) this.handedIn(known.shown.figure, known.shown.answer);
  }

  /** The network may be back. */
  awake(): void {
    this.queue.kick();
    this.moves.kick();
  }

  private changed(figure: string): void {
    this.touched = true;
    this.keep(false);
    this.moves.tell(figure);
    this.button();
  }

  /** The server has heard of a figure; another tab may have told it of one since. */
  private heard(figure: string): void {
    this.told++;
    if (figure === this.board.figure) this.keep(true);
    if (!this.missed) return;
    this.missed = false;
    void this.refresh();
  }

  private kept(): { board: Kept; told: boolean } | null {
    try {
      return JSON.parse(this.shelf?.getItem(this.key) ?? "null") as { board: Kept; told: boolean } | null;
    } catch {
      return null;
    }
  }

  private keep(told: boolean): void {
    try {
      this.shelf?.setItem(this.key, JSON.stringify({ board: this.board.keep(), told, at: Date.now() }));
    } catch {
      // The server hears of every move; the board comes back from there.
    }
  }

  private async move(figure: string): Promise<boolean> {
    try {
      const answer = await post("/seat/move", { task: this.set.task, figure, tab });
      if (answer.status === 401) void ask();
      return answer.status < 500 && answer.status !== 429;
    } catch {
      return false;
    }
  }

  private show(): void {
    const figure = this.board.figure;
    this.board.release();
    if (figure === "") return this.say(fill(this.set.texts, "nothing_to_show"), "");
    if (figure === this.shown) return;
    this.shown = figure;
    this.button();
    this.queue.add({ id: newID(16), task: this.set.task, figure, made: Date.now() });
  }

  private async send(s: Showing): Promise<Outcome> {
    try {
      const response = await post("/seat/show", s);
      const answer = (await response.json()) as Answer;
      if (answer.kept) return { kind: "kept", answer };
      if (response.status === 401) void ask();
      const never = response.status >= 400 && response.status < 500 && response.status !== 401 && response.status !== 429;
      return { kind: never ? "refused" : "later", answer };
    } catch {
      return { kind: "later", answer: { kept: false } };
    }
  }

  private status(o: Outcome | null, s: Showing | null): void {
    const { texts } = this.set;
    const left = this.queue.waiting();
    this.button();
    if (o?.kind === "refused") {
      this.shown = "";
      this.button();
      this.say(o.answer.words ?? fill(texts, "refused"), "trouble");
    } else if (left.length) {
      const words = this.queue.fragile ? "keep_open" : o ? "saved" : "sending";
      this.say(o?.answer.words ?? fill(texts, words, { count: left.length }), o || this.queue.fragile ? "waiting" : "");
    } else if (o?.kind === "kept" && s) this.handedIn(s.figure, o.answer);
  }

  private handedIn(figure: string, answer: Answer): void {
    this.shown = figure;
    this.button();
    this.say(answer.title ?? "", "kept", answer);
  }

  private button(): void {
    const same = this.shown !== "" && this.board.figure === this.shown;
    const show = find("show");
    show?.setAttribute("aria-disabled", String(same));
    if (show) show.textContent = fill(this.set.texts, !same ? "show" : this.queue.waiting().length ? "show_waits" : "show_done");
    find("answer")?.classList.toggle("past", !same && this.shown !== "");
    root?.classList.toggle("shown", same);
    const unshown = find("unshown");
    if (unshown) unshown.textContent = same ? "" : fill(this.set.texts, "later_unshown");
  }

  private say(title: string, kind: string, a?: Answer): void {
    const place = find("answer");
    if (!place) return;
    const line = (name: string, text: string, mark = "") => {
      const el = document.createElement(name);
      el.textContent = text;
      if (mark) el.dataset.mark = mark;
      return el;
    };
    place.dataset.kind = kind;
    const parts: HTMLElement[] = title ? [line("strong", title)] : [];
    const list = document.createElement("ul");
    for (const l of a?.lines ?? []) {
      const item = line("li", l.text, l.mark);
      if (l.mark) item.prepend(line("b", fill(this.set.texts, "mark_" + l.mark)));
      list.append(item);
    }
    if (list.firstChild) parts.push(list);
    if (a?.spoken) {
      parts.push(line("span", a.spoken));
      parts[parts.length - 1].className = "unseen";
    }
    place.replaceChildren(...parts);
  }

  /** Another task is here, or this one is over: go there, unless the board would be lost from sight. */
  private later(more: boolean): void {
    const place = find("later");
    if (place && !place.hidden) return;
    if (!this.touched || this.board.figure === "" || this.board.figure === this.shown) return location.reload();
    if (!place) return;
    place.hidden = false;
    find("later-words")!.textContent = fill(this.set.texts, more ? "later_task" : "later_stop");
    this.button();
    find("go")?.addEventListener("click", () => location.reload(), { once: true });
  }

  private clock(): void {
    const place = find("timer");
    if (!place || !this.set.ends) return;
    const ahead = this.set.now - Date.now();
    const tick = () => {
      const left = Math.ceil((this.set.ends - Date.now() - ahead) / 60000);
      const id = left > 1 ? "minutes" : left === 1 ? "minute" : "time_up";
      const text = fill(this.set.texts, id, { count: left });
      if (place.textContent !== text) place.textContent = text;
    };
    tick();
    window.setInterval(tick, 5000);
  }

  private aloud(): void {
    const button = find<HTMLButtonElement>("read");
    if (!button || !("speechSynthesis" in window)) return;
    button.hidden = false;
    button.addEventListener("click", () => {
      const words = new SpeechSynthesisUtterance(find("task")?.textContent ?? "");
      words.lang = this.set.language;
      words.rate = 0.9;
      speechSynthesis.cancel();
      speechSynthesis.speak(words);
    });
  }
}

/** Clears boards of lessons of other days away; showings that wait stay. */
function tidy(shelf: Storage | null): void {
  try {
    for (const key of Object.keys(shelf ?? {})) {
      if (!key.startsWith("pegwright.board.")) continue;
      const { at } = JSON.parse(shelf?.getItem(key) ?? "{}") as { at?: number };
      if (!(Date.now() - (at ?? 0) < 2 * 24 * 3600 * 1000)) shelf?.removeItem(key);
    }
  } catch {
    // What cannot be read takes no harm by staying.
  }
}

/** Asks the server what it knows; null when it does not answer. Someone who has no seat any more is shown so. */
async function ask(): Promise<Known | null> {
  try {
    const answer = await fetch("/seat/state", { headers: { Accept: "application/json" } });
    if (answer.status === 401) location.reload();
    return answer.ok ? ((await answer.json()) as Known) : null;
  } catch {
    return null;
  }
}

function listen(seat: Seat | null): void {
  const refresh = async () => {
    if (seat) return seat.refresh();
    const known = await ask();
    if (known && (known.task || known.seat !== root?.dataset.seat)) location.reload();
  };
  let quiet = 0;
  const lost = (yes: boolean) => {
    const el = find("lost");
    if (el) el.hidden = !yes;
  };
  const open = () => {
    const stream = new EventSource("/seat/stream");
    stream.addEventListener("hello", () => {
      clearTimeout(quiet);
      lost(false);
      seat?.awake();
      void refresh(); // something may have changed since the page was drawn
    });
    stream.addEventListener("changed", (e) => {
      const pieces = JSON.parse((e as MessageEvent<string>).data) as string[];
      if (pieces.some((p) => p !== "live-" + tab)) void refresh();
    });
    stream.onerror = () => {
      clearTimeout(quiet);
      quiet = window.setTimeout(() => lost(true), 1000);
      if (stream.readyState !== EventSource.CLOSED) return;
      void refresh();
      window.setTimeout(open, 3000);
    };
  };
  open();
  // Another tab has handed in what was waiting; until then its answer is not shown here.
  window.addEventListener("storage", (e) => e.newValue === null && void refresh());
  window.addEventListener("online", () => seat?.awake());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && (seat?.awake(), void refresh()));
}

const setting = find("setting")?.textContent;
if (root) listen(setting ? new Seat(root, JSON.parse(setting) as Setting) : null);
