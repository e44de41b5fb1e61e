// The card by keyboard: Enter goes to the next box, Shift and Enter back, Ctrl and Enter writes it
// down. The card works without this file; then Enter compares or writes down.
const form = document.querySelector("[data-card]");

// A group of radios is one stop: the chosen one, or the first.
function isStop(field) {
  if (field.type !== "radio") return true;
  const group = [...form.elements].filter((other) => other.name === field.name);
  return field === (group.find((other) => other.checked) ?? group[0]);
}

function stops(from) {
  return [...form.elements].filter(
    (field) => field.matches("input:not([type=hidden]), select, textarea, button")
      && !field.disabled && form.contains(field) && field.offsetParent !== null
      && (field === from || isStop(field)),
  );
}

function step(from, by) {
  let start = from;
  if (from.type === "radio") start = stops(from).find((field) => field.name === from.name);
  const all = stops(from).filter((field) => field.name !== from.name || field === start);
  const next = all[all.indexOf(start) + by];
  if (!next) return;
  next.focus();
  if (next.matches("input[type=text]")) next.select();
}

function onKey(event) {
  const field = event.target;
  if (event.key !== "Enter" || event.isComposing) return;
  if (event.ctrlKey || event.metaKey) {
    event.preventDefault();
    const save = form.querySelector("[data-save]");
    if (save && !save.disabled) form.requestSubmit(save);
    return;
  }
  if (field.matches("button, summary, a, textarea")) return;
  event.preventDefault();
  step(field, event.shiftKey ? -1 : 1);
}

// A second click writes nothing twice; coming back to the page opens it again.
function once(closed) {
  const save = form.querySelector("[data-save]");
  if (save) setTimeout(() => { save.disabled = closed; }, 0);
}

if (form) {
  form.addEventListener("keydown", onKey);
  form.addEventListener("submit", (event) => once(!event.defaultPrevented));
  addEventListener("pageshow", () => once(false));
  const told = document.querySelector("[data-focus]");
  const first = stops(null).find((field) => field.matches("input[type=text], select, [type=radio]"));
  if (!told && first) first.focus({ preventScroll: true });
}
