// The boxes of the call: their names, what stands in them, and the row each belongs to. What is
// wanted is one box of several ticks, its text the ticked words joined by commas.

const OURS = /^(answers|contact)\.|^(tape_unit|job|wants)$/;

/** Every box's text by its name. */
export function texts(form) {
  const found = {};
  for (const field of form.elements) {
    if (!field.name || !OURS.test(field.name)) continue;
    if (field.name === "wants") found.wants = ticked(form).join(",");
    else if (field.type === "checkbox") found[field.name] = field.checked ? field.value : "";
    else found[field.name] = field.value;
  }
  return found;
}

const wants = (form) => [...form.querySelectorAll("[name=wants]")];
const ticked = (form) => wants(form).filter((box) => box.checked).map((box) => box.value);

/** Put a text into a box; a choice that the page has not is added rather than dropped. */
export function put(form, name, text) {
  if (name === "wants") {
    for (const box of wants(form)) box.checked = text.split(/,\s*/).includes(box.value);
    return;
  }
  const field = fieldOf(form, name);
  if (!field) return;
  if (field.type === "checkbox") field.checked = text !== "" && text === field.value;
  else {
    if (field.matches("select") && text && ![...field.options].some((option) => option.value === text)) {
      field.add(new Option(text, text));
    }
    field.value = text;
  }
}

/** The first element of that name. */
export function fieldOf(form, name) {
  return [...form.elements].find((field) => field.name === name) ?? null;
}

/** What a person calls the box. */
export function labelOf(form, name) {
  const row = fieldOf(form, name)?.closest(".call-row");
  return row?.querySelector(".call-name")?.textContent.trim() || name;
}

/** The form as it is sent: every box, also those that are empty. */
export function asForm(form, found, more = {}) {
  const body = new URLSearchParams();
  for (const [name, text] of Object.entries(found)) {
    const words = name === "wants" ? text.split(",").filter(Boolean) : [text];
    for (const word of words) body.append(name, word);
  }
  for (const [name, text] of Object.entries(more)) body.append(name, text);
  body.append("csrfmiddlewaretoken", form.querySelector("[name=csrfmiddlewaretoken]").value);
  return body;
}

/** Open what a field is folded into, and go to it; the page moves no further than it must. */
export function goTo(field) {
  const fold = field.closest("details");
  if (fold) fold.open = true;
  field.focus({ preventScroll: true });
  if (field.matches("input:not([type=checkbox])")) field.select();
  (field.closest(".call-row") ?? field).scrollIntoView({ block: "nearest" }); // with its question
}
