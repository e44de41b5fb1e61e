// Making elements, and saying things in the page's language.

let words = {};

/** Keep the page's words: key -> sentence. */
export function keepWords(given) {
  words = given;
}

/** The sentence of that key, with {name} filled in from `values`. */
export function say(key, values = {}) {
  const sentence = words[key] ?? key;
  return sentence.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

/**
 * An element: attributes by name, `onclick` and the like as functions, children as nodes or texts.
 * @returns {HTMLElement}
 */
export function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") made.addEventListener(key.slice(2), value);
    else if (value === true) made.setAttribute(key, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(key, value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return made;
}

/** A button that does something on this page. */
export function button(label, onclick, look = "button quiet", more = {}) {
  return el("button", { type: "button", class: look, onclick, ...more }, label);
}

/** Put content on the screen, and leave the reader where they are. */
export function replace(...content) {
  const screen = document.getElementById("screen");
  screen.replaceChildren(...content.filter(Boolean));
  delete screen.dataset.slug;
  const heading = screen.querySelector("h1");
  document.title = `${heading.textContent} · ${document.title.split(" · ").pop()}`;
  heading.tabIndex = -1;
  return screen;
}

/** Show a screen and put the reader at its heading. */
export function show(...content) {
  const screen = replace(...content), heading = screen.querySelector("h1");
  window.scrollTo(0, 0);
  heading.focus({ preventScroll: true });
  return screen;
}

/** Something that happened, said once and aloud to who cannot see it. "" clears it. */
export function notice(text, kind = "") {
  const box = document.getElementById("notices");
  box.replaceChildren(...(text ? [el("p", { class: `notice ${kind}` }, text)] : []));
}
