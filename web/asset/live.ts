// A page that shows what changes: it listens to one stream that says which
// pieces of the page are new, fetches these, and puts them in the place of the
// old ones. The body carries data-stream and data-pieces, two addresses. Words
// for a lost connection stand in the element [data-lost], hidden while all is well.

const body = document.body;
const changed = new Set<string>();
const held = new Set<string>(); // pieces that wait until their field loses the focus
let timer = 0;
let busy = false;

const nested = (el: Element) => el.parentElement?.closest("[data-piece]") != null;

function every(): void {
  document.querySelectorAll<HTMLElement>("[data-piece]").forEach((el) => nested(el) || changed.add(el.id));
}

function soon(after = 0): void {
  if (!timer) timer = window.setTimeout(fetchPieces, after);
}

async function fetchPieces(): Promise<void> {
  timer = 0;
  if (busy || changed.size === 0) return;
  busy = true;
  const names = [...changed].slice(0, 60);
  names.forEach((n) => changed.delete(n));
  try {
    const query = names.map((n) => "name=" + encodeURIComponent(n)).join("&");
    const answer = await fetch(body.dataset.pieces + "?" + query, { headers: { Accept: "text/html" } });
    if (answer.status === 401 || answer.redirected) return location.reload();
    if (!answer.ok) throw new Error(String(answer.status));
    replace(await answer.text());
    lost(false);
  } catch {
    names.forEach((n) => changed.add(n));
    lost(true);
    soon(2000);
  } finally {
    busy = false;
    if (changed.size) soon();
  }
}

function replace(html: string): void {
  const t = document.createElement("template");
  t.innerHTML = html;
  const pieces = [...t.content.querySelectorAll<HTMLElement>("[id]")];
  for (const piece of pieces.filter((p) => !p.parentElement?.closest("[id]"))) put(piece);
}

// frame is a piece without the pieces in it.
function frame(piece: HTMLElement): Node {
  const copy = piece.cloneNode(true) as HTMLElement;
  copy.querySelectorAll("[data-piece]").forEach((p) => p.replaceWith(p.id));
  return copy;
}

// put replaces the element with the piece's id, or of a piece that holds others
// only those that changed. What had the focus in it has it again, as far as the
// new piece has something with the same id or name.
function put(piece: HTMLElement): void {
  const old = document.getElementById(piece.id);
  if (!old || old.isEqualNode(piece)) return;
  const inner = piece.querySelectorAll<HTMLElement>("[data-piece]");
  if (inner.length && frame(old).isEqualNode(frame(piece))) return inner.forEach(put);
  const at = document.activeElement;
  const inside = at instanceof HTMLElement && old.contains(at) ? at : null;
  if (inside && inside.matches("input, textarea, select")) {
    held.add(piece.id);
    return;
  }
  const path = inside ? trail(old, inside) : [];
  old.querySelectorAll<HTMLDetailsElement>("details[open][id]").forEach((d) => {
    piece.querySelector<HTMLDetailsElement>("#" + CSS.escape(d.id))?.setAttribute("open", "");
  });
  old.replaceWith(piece);
  if (inside) find(piece, inside, path)?.focus({ preventScroll: true });
  piece.dispatchEvent(new CustomEvent("piece", { bubbles: true }));
}

function trail(root: Element, el: Element): number[] {
  const path: number[] = [];
  for (let e: Element = el; e !== root && e.parentElement; e = e.parentElement) path.unshift([...e.parentElement.children].indexOf(e));
  return path;
}

function find(piece: HTMLElement, old: HTMLElement, path: number[]): HTMLElement | null {
  if (old.id) {
    const same = document.getElementById(old.id);
    if (same) return same;
  }
  let e: Element | undefined = piece;
  for (const i of path) e = e?.children[i];
  return e instanceof HTMLElement && e.tagName === old.tagName ? e : null;
}

function lost(yes: boolean): void {
  document.querySelectorAll<HTMLElement>("[data-lost]").forEach((el) => (el.hidden = !yes));
}

function listen(address: string): void {
  const stream = new EventSource(address);
  let quiet = 0;
  stream.addEventListener("hello", () => {
    clearTimeout(quiet);
    lost(false);
    every();
    soon(0);
  });
  stream.addEventListener("changed", (e) => {
    for (const name of JSON.parse((e as MessageEvent<string>).data) as string[]) {
      // A page that may no longer be seen is told so by this name.
      if (name === "away") return location.reload();
      if (document.getElementById(name)) changed.add(name);
      document.querySelectorAll(`[data-with="${CSS.escape(name)}"]`).forEach((el) => changed.add(el.id));
    }
    soon();
  });
  stream.onerror = () => {
    clearTimeout(quiet);
    quiet = window.setTimeout(() => lost(true), 1000);
    if (stream.readyState === EventSource.CLOSED) {
      stream.close();
      window.setTimeout(() => listen(address), 3000);
    }
  };
}

document.addEventListener("focusout", () => {
  held.forEach((name) => changed.add(name));
  held.clear();
  if (changed.size) soon();
});

// The words for the time that is left, from data-left seconds: they say minutes,
// and when none is left the piece around them is fetched again.
const ends = new WeakMap<HTMLElement, number>();

function clock(): void {
  document.querySelectorAll<HTMLElement>("[data-left]").forEach((el) => {
    const end = ends.get(el) ?? performance.now() + 1000 * Number(el.dataset.left);
    ends.set(el, end);
    const minutes = Math.ceil((end - performance.now()) / 60000);
    const words = minutes > 1 ? (el.dataset.many ?? "").replace("{n}", String(minutes)) : el.dataset.last ?? "";
    if (el.textContent !== words) el.textContent = words;
    const piece = minutes < 1 && el.closest("[data-piece]");
    if (piece) {
      changed.add(piece.id);
      soon();
    }
  });
}

window.setInterval(clock, 2000);
document.addEventListener("piece", clock);
clock();
if (body.dataset.stream) listen(body.dataset.stream);
