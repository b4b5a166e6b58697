// The task builder: the atlas answers beside the form while it is filled in. A
// question that is no longer asked is called off.

const form = document.querySelector<HTMLFormElement>("[data-build]");
const searching = document.querySelector<HTMLElement>("[data-searching]");
let timer = 0;
let asking: AbortController | null = null;
let asked = "";

function question(of: HTMLFormElement): string {
  const query = new URLSearchParams();
  for (const [name, value] of new FormData(of)) {
    if (["board", "property", "comparison", "value"].includes(name)) query.append(name, String(value));
  }
  query.append("run", location.pathname.split("/")[3] ?? "");
  return query.toString();
}

async function ask(of: HTMLFormElement): Promise<void> {
  const query = question(of);
  if (query === asked) return;
  asked = query;
  asking?.abort();
  const now = (asking = new AbortController());
  const slow = window.setTimeout(() => searching && (searching.hidden = false), 300);
  try {
    const answer = await fetch("/desk/answer?" + query, { signal: now.signal });
    if (answer.status === 401) return location.reload();
    const t = document.createElement("template");
    t.innerHTML = await answer.text();
    const piece = t.content.getElementById("answer");
    if (piece) document.getElementById("answer")?.replaceWith(piece);
  } catch {
    // Called off, or the line is cut; the next change asks again.
  } finally {
    clearTimeout(slow);
    if (asking === now && searching) searching.hidden = true;
  }
}

if (form) {
  asked = question(form);
  form.querySelector<HTMLElement>("[data-look]")?.setAttribute("hidden", "");
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = window.setTimeout(() => void ask(form), 250);
  });
}
