// Tap-in: the board of one tile at the desk. Pegs are tapped, the verdict comes
// as the figure closes, "done" keeps it and goes on to the next tile.

import { Board } from "../pegs/board";
import { Layout } from "../pegs/view";
import { Texts } from "../pegs/words";

interface Setting {
  path: string;
  pupil: string;
  most: number;
  layout: Layout;
  figure: string;
  texts: Texts;
  kept: string;
  failed: string;
  nothing: string;
}

interface Answer {
  kept: boolean;
  verdict: { standing: string; words: string; name: string; lines: string[] };
  next: string;
  words?: string;
}

const root = document.querySelector<HTMLElement>("[data-tap]");

function newID(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
}

async function post(path: string, body: unknown): Promise<Answer> {
  const answer = await fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
  if (answer.status === 401) location.reload();
  return (await answer.json()) as Answer;
}

class Tap {
  private readonly board: Board;
  private readonly id = newID();
  private timer = 0;
  private asked = "";
  private busy = false;

  constructor(private readonly place: HTMLElement, private readonly set: Setting) {
    place.querySelector<HTMLElement>(".scripted")?.removeAttribute("hidden");
    place.querySelector<HTMLElement>(".typed")?.setAttribute("hidden", "");
    this.board = new Board({ root: place, layout: set.layout, texts: set.texts, most: set.most, changed: () => this.soon() });
    if (set.figure) this.board.show(set.figure);
    place.querySelector("[data-done]")?.addEventListener("click", () => void this.done());
  }

  private soon(): void {
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => void this.check(), 120);
  }

  private async check(): Promise<void> {
    const figure = this.board.figure;
    this.asked = figure;
    if (!figure) return this.say("");
    try {
      const { verdict } = await post(this.set.path + "/check", { figure });
      if (this.asked !== figure || !verdict) return;
      this.say([`${verdict.words} · ${verdict.name}.`, ...verdict.lines].join(" "), verdict.standing);
    } catch {
      // The verdict is a help; keeping the board says whether the line is cut.
    }
  }

  private async done(): Promise<void> {
    this.board.release();
    const figure = this.board.figure;
    if (!figure) return this.say(this.set.nothing);
    if (this.busy) return;
    this.busy = true;
    try {
      const answer = await post(this.set.path, { id: this.id, pupil: this.set.pupil, figure, made: Date.now() });
      if (answer.kept) return location.assign(answer.next);
      this.say(answer.words ?? this.set.failed);
    } catch {
      this.say(this.set.failed);
    }
    this.busy = false;
  }

  private say(text: string, standing = ""): void {
    const out = this.place.querySelector<HTMLElement>("[data-verdict]");
    if (!out) return;
    out.textContent = text;
    out.dataset.standing = standing;
  }
}

if (root) new Tap(root, JSON.parse(root.dataset.setting ?? "{}") as Setting);
