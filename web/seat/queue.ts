// Showings on their way to the server. One is written to the device's storage
// before it is sent and goes from there only when the server has it on disk, or
// says that it never will. A resend is harmless: the id is made here.

export interface Showing {
  id: string;
  task: string;
  figure: string;
  made: number;
}

/** What the server said: it is kept; it never will be; or not now. */
export type Outcome = { kind: "kept" | "refused" | "later"; answer: Answer };

/** What the page shows of it. */
export interface Answer {
  kept: boolean;
  late?: boolean;
  title?: string;
  lines?: readonly { mark: string; text: string }[];
  spoken?: string;
  words?: string;
}

/** The part of the device's storage that is used here. */
export type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem" | "key" | "length">;

export interface Post {
  /** Sends one showing. It never throws. */
  send(s: Showing): Promise<Outcome>;
  /** Called when the queue has changed, with what the server said if it said something. */
  changed(outcome: Outcome | null, s: Showing | null): void;
  /** Waits; tests bring a clock of their own. */
  wait(ms: number, then: () => void): void;
}

const shortest = 500;
const longest = 15000;

export class Queue {
  private readonly memory = new Map<string, Showing>();
  private delay = shortest;
  private busy = false;
  private again = false;
  private waits = 0;

  constructor(private readonly shelf: Shelf | null, private readonly prefix: string, private readonly post: Post) {}

  /** The showings that are not handed in yet, oldest first. */
  waiting(): Showing[] {
    const all = [...this.memory.values(), ...this.stored()];
    return all.sort((a, b) => a.made - b.made || (a.id < b.id ? -1 : 1));
  }

  /** Whether something is held by this page alone and would go with it. */
  get fragile(): boolean {
    return this.memory.size > 0;
  }

  /** Takes a showing in and sends it. */
  add(s: Showing): void {
    try {
      if (!this.shelf) throw new Error("no storage");
      this.shelf.setItem(this.prefix + s.id, JSON.stringify(s));
    } catch {
      this.memory.set(s.id, s);
    }
    this.post.changed(null, null);
    this.kick();
  }

  /** Tries at once: the network may be back. */
  kick(): void {
    this.delay = shortest;
    if (this.busy) this.again = true;
    else void this.pump();
  }

  private async pump(): Promise<void> {
    const mine = ++this.waits;
    this.busy = true;
    for (let s = this.waiting()[0]; s; s = this.waiting()[0]) {
      this.again = false;
      const outcome = await this.post.send(s);
      if (outcome.kind === "later") {
        this.post.changed(outcome, s);
        if (this.again) continue;
        this.busy = false;
        this.post.wait(this.delay, () => mine === this.waits && !this.busy && void this.pump());
        this.delay = Math.min(longest, this.delay * 2);
        return;
      }
      this.remove(s.id);
      this.delay = shortest;
      this.post.changed(outcome, s);
    }
    this.busy = false;
  }

  private stored(): Showing[] {
    const out: Showing[] = [];
    try {
      for (let i = 0; this.shelf && i < this.shelf.length; i++) {
        const key = this.shelf.key(i) ?? "";
        if (key.startsWith(this.prefix)) out.push(JSON.parse(this.shelf.getItem(key) ?? "") as Showing);
      }
    } catch {
      // A shelf that cannot be read holds nothing that could be sent.
    }
    return out;
  }

  private remove(id: string): void {
    this.memory.delete(id);
    try {
      this.shelf?.removeItem(this.prefix + id);
    } catch {
      // It will be sent again, which does no harm.
    }
  }
}

/** Makes an id that nobody else makes. */
export function newID(bytes: number): string {
  const b = crypto.getRandomValues(new Uint8Array(bytes));
  return [...b].map((x) => x.toString(16).padStart(2, "0")).join("");
}
