// The call page by keyboard: Enter goes to the next field, Shift+Enter back, Ctrl+Enter saves.
// The page works without this file; then Enter saves.
const form = document.querySelector("[data-desk]");

function fields() {
  return [...form.elements].filter(
    (field) => field.matches("input:not([type=hidden]), select, textarea, button")
      && !field.disabled && field.offsetParent !== null && field.tabIndex >= 0,
  );
}

function step(from, by) {
  const all = fields();
  const next = all[all.indexOf(from) + by];
  if (!next) return;
  next.focus();
  if (next.matches("input:not([type=checkbox]):not([type=radio])")) next.select();
}

function onKey(event) {
  const field = event.target;
  if (event.key !== "Enter" || event.isComposing || field.matches("button, summary, a")) return;
  if (event.ctrlKey || event.metaKey) {
    event.preventDefault();
    form.requestSubmit(form.querySelector("[data-save]"));
    return;
  }
  if (field.matches("textarea")) return;
  event.preventDefault();
  step(field, event.shiftKey ? -1 : 1);
}

// A second click saves nothing twice; coming back to the page opens it again.
function once(closed) {
  const save = form.querySelector("[data-save]");
  if (save) setTimeout(() => { save.disabled = closed; }, 0);
}

if (form) {
  form.addEventListener("keydown", onKey);
  form.addEventListener("submit", () => once(true));
  addEventListener("pageshow", () => once(false));
}

// The panel is drawn anew while a call is typed: what was unfolded in it stays unfolded.
const panel = document.querySelector("#desk-panel");
if (panel) {
  let unfolded = false;
  panel.addEventListener("toggle", (event) => {
    if (event.target.matches(".more-findings")) unfolded = event.target.open;
  }, true);
  new MutationObserver(() => {
    const more = panel.querySelector(".more-findings");
    if (more && unfolded) more.open = true;
  }).observe(panel, { childList: true });
}
