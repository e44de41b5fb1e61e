// A draft given to another phone, by a link or its square code; and one that came from there.
import { button, el, notice, say, show } from "./dom.js";
import { nameOf } from "./boats.js";

const store = globalThis.fairgapStore;
const SVG = "http://www.w3.org/2000/svg";

/** Make the link of a draft and show it. */
export async function showHandOver(app, draft) {
  const { values, opened = [], at } = draft;
  const body = JSON.stringify({ values: plainOf(values), opened, at: at === "review" ? "" : at ?? "" });
  const answer = await fetch(app.handOver, {
    method: "POST", headers: { "Content-Type": "application/json" }, body, credentials: "omit",
  }).catch(() => null);
  const back = button(say("back"), () => history.back());
  const heading = el("h1", {}, say("hand_over"));
  if (answer?.status !== 201) {
    show(heading, el("p", { class: "notice warning" }, say("hand_over_fails")), back);
    return;
  }
  const told = await answer.json();
  const paper = app.paper && el("a", { class: "button quiet", href: `${app.paper}?draft=${told.token}` }, say("paper"));
  const link = el("input", { type: "text", readonly: true, value: told.link, "aria-label": say("hand_over") });
  const copy = button(say("copy"), async () => {
    await navigator.clipboard.writeText(told.link);
    notice(say("copied"));
  });
  show(heading, el("p", { class: "lead" }, nameOf(draft)), el("p", {}, say("hand_over_lead")),
       square(told.code), el("p", {}, link), el("p", { class: "row-actions" }, copy, paper, back));
}

/** Only what the other side takes: boxes with something in them; units travel inside the texts. */
function plainOf(values) {
  const kept = Object.entries(values).filter(([name, value]) => value?.length && !name.includes(":"));
  return Object.fromEntries(kept.map(([name, value]) => [name, withUnit(name, value, values)]));
}

function withUnit(name, value, values) {
  const own = values[`${name}:unit`];
  const bare = typeof value === "string" && /^[\d\s/.,-]+$/.test(value);
  return own && bare ? `${value.trim()} ${own}` : value;
}

function square({ size, path }) {
  const svg = document.createElementNS(SVG, "svg"), dark = document.createElementNS(SVG, "path");
  svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
  svg.setAttribute("class", "square-code");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", say("hand_over_qr"));
  dark.setAttribute("d", path);
  svg.append(dark);
  return svg;
}

/** Take over what the link holds, once: opened again, it leads to the same draft here. */
export async function takeOver(app, token) {
  const there = (await store.drafts()).find((draft) => draft.from === token);
  if (there) return app.open(there.id, "", true);
  const answer = await fetch(`${app.handOver}${encodeURIComponent(token)}/`, { credentials: "omit" }).catch(() => null);
  if (!answer?.ok) {
    notice(say(answer ? "hand_over_gone" : "hand_over_fails"), "warning");
    return app.home();
  }
  const told = await answer.json();
  const draft = await app.add({ values: told.values, opened: told.opened, at: told.at, from: token });
  notice(say("hand_over_came"));
  return app.open(draft.id, "", true);
}
