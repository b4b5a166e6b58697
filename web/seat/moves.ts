// The board as it moves, sent so that the teacher can watch: at most four times
// a second, the last one always.

const apart = 250;

export class Moves {
  private next: string | null = null;
  private busy = false;
  private timer = 0;
  private last = 0;

  /** `send` tells the server; it returns whether the server has heard. */
  constructor(private readonly send: (figure: string) => Promise<boolean>, private readonly heard: (figure: string) => void) {}

  /** Whether something is still to be told. */
  get pending(): boolean {
    return this.next !== null || this.busy;
  }

  /** Tells a figure soon; one that was still waiting is left out. */
  tell(figure: string): void {
    this.next = figure;
    this.soon();
  }

  /** Tries at once: the network may be back. */
  kick(): void {
    if (this.next === null) return;
    this.last = 0;
    clearTimeout(this.timer);
    this.timer = 0;
    this.soon();
  }

  private soon(): void {
    if (this.busy || this.timer) return;
    this.timer = window.setTimeout(() => void this.go(), Math.max(0, this.last + apart - Date.now()));
  }

  private async go(): Promise<void> {
    this.timer = 0;
    const figure = this.next;
    if (figure === null) return;
    this.next = null;
    this.busy = true;
    this.last = Date.now();
    const ok = await this.send(figure);
    this.busy = false;
    if (ok) this.heard(figure);
    else if (this.next === null) {
      this.next = figure;
      this.last = Date.now() + 2000;
    }
    if (this.next !== null) this.soon();
  }
}
