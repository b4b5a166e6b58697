// What every page of the desk can do beside its forms: lock by a key, hide in
// all tabs at once, show the passphrase, filter as one types.

const away = "BroadcastChannel" in window ? new BroadcastChannel("pegwright-desk") : null;

// Locking or leaving in one tab hides the others at once. They load again and
// find the form; should that be too early, the form itself says so once more.
away?.addEventListener("message", () => {
  if (!document.body.classList.contains("desk")) return;
  document.body.hidden = true;
  window.setTimeout(() => location.reload(), 200);
});
if (/\/desk\/(unlock|login)$/.test(location.pathname)) away?.postMessage("away");
document.addEventListener("submit", (e) => {
  const form = e.target as HTMLFormElement;
  if (/\/desk\/(lock|logout)$/.test(form.action)) {
    document.body.hidden = true;
    away?.postMessage("away");
  }
});

// A page that comes back out of the browser's memory asks whether it still may
// be seen.
window.addEventListener("pageshow", (e) => e.persisted && location.reload());

// A button with data-key is pressed by that key.
document.addEventListener("keydown", (e) => {
  if (!e.altKey || e.ctrlKey || e.metaKey) return;
  const button = document.querySelector<HTMLElement>(`[data-key="alt+${CSS.escape(e.key.toLowerCase())}"]`);
  if (button) {
    e.preventDefault();
    button.click();
  }
});

// The words of a passphrase can be seen while they are typed.
document.querySelectorAll<HTMLInputElement>("[data-show]").forEach((box) => {
  const input = document.getElementById(box.dataset.show ?? "") as HTMLInputElement | null;
  const sight = () => input && (input.type = box.checked ? "text" : "password");
  box.closest<HTMLElement>("[hidden]")?.removeAttribute("hidden");
  box.addEventListener("change", sight);
  input?.form?.addEventListener("submit", () => (input.type = "password"));
});

// How many characters there are, and how many are still wanted.
document.querySelectorAll<HTMLElement>("[data-count]").forEach((out) => {
  const input = document.getElementById(out.dataset.count ?? "") as HTMLInputElement | null;
  input?.addEventListener("input", () => (out.textContent = String([...input.value].length)));
});

// Printing is a button, not a menu.
document.querySelectorAll<HTMLElement>("[data-print]").forEach((b) => {
  b.hidden = false;
  b.addEventListener("click", () => window.print());
});
