// One question on the screen.
import { boxOf } from "./boxes.js";
import { button, el, notice, say, show } from "./dom.js";
import { cautionsAt, isAnswered, isCannot, pathOf, unitOf } from "./path.js";
import { photosAt } from "./photos.js";
import { mistakeOf, pictureOf } from "./picture.js";
import { apart, both, isDoubtful, readBox } from "./reading.js";
import { said } from "./said.js";

const store = globalThis.fairgapStore;
const FINE = 3_200_000, UNITS = "units"; // nm: two honest readings of a long tape (an eighth)

/** Show a question of a draft. `app` knows how to go on, back and to the list of boats. */
export async function showQuestion(app, draft, step) {
  const path = pathOf(draft), place = Math.max(path.findIndex((one) => one.slug === step.slug), 0);
  const asked = path[place] ?? step;
  await proposeUnit(draft, asked);
  const now = entry(app, draft, asked);
  const boxes = asked.boxes.map((box) => boxOf(box, asked, now));
  const form = el("form", { novalidate: true, class: "question" },
    ...errorsOf(draft, asked), el("div", { class: "boxes" }, ...boxes),
    now.mistake.parentNode ? null : now.mistake, now.compare,
    cannotOf(app, draft, asked), moving(app, asked));
  form.addEventListener("submit", (event) => { event.preventDefault(); goOn(app, draft, asked, now); });
  const screen = show(
    progress(path, place), pictureOf(asked, draft), el("h1", {}, asked.ask),
    ...cautions(app, draft, asked, path), asked.blind && el("p", { class: "help" }, say("first_hidden")),
    form, help(asked), asked.photo && photosAt(asked, draft));
  screen.dataset.slug = asked.slug;
  typingGoesToTheBox(screen);
  return { slug: asked.slug, refresh: (fresh) => freshen(screen, boxes, asked, draft, fresh) };
}

/** What the boxes need to know and do. */
function entry(app, draft, step) {
  const mistake = el("div", { class: "mistakes" }), doubts = new Map();
  return {
    described: step.how || step.slip ? "how-to" : null,
    mistake, compare: el("div", { class: "compare", role: "status" }), doubts, warned: false,
    get values() { return draft.values; },
    set(name, value) {
      draft.values[name] = value;
      this.warned = false;
      app.save(draft.id, (kept) => {
        kept.values[name] = value;
        if (value.length && !name.endsWith(".method")) delete kept.values[`answers.${step.slug}.state`];
      });
      redraw(step, draft);
    },
    unit(name, value) {
      this.set(`${name}:unit`, value);
      if (!draft.values.tape_unit || step.slug === "face_to_strut_aft") this.set("tape_unit", value);
      rememberUnit(toolOf(step, draft), value);
    },
    doubt(name, yes) {
      doubts.set(name, yes);
      const any = [...doubts.values()].some(Boolean), shown = mistake.childElementCount > 0;
      if (any && !shown) mistake.append(...[mistakeOf(step.mistake)].filter(Boolean));
      if (!any && shown) mistake.replaceChildren();
    },
  };
}

function redraw(step, draft) {
  const there = document.querySelector("#screen .asked-line"), fresh = there && pictureOf(step, draft);
  if (fresh) there.replaceWith(fresh);
}

/** A caliper and a tape may be marked differently: the unit is remembered for each. */
function toolOf(step, draft) {
  const way = draft.values[`answers.${step.slug.split(".")[0]}.method`] || step.default_method || "";
  return ["caliper", "caliper_in_place", "plug", "feeler", "mark", "drill_shank"].includes(way) ? "fine" : "tape";
}

async function proposeUnit(draft, step) {
  const kept = (await store.setting(UNITS)) ?? {}, unit = kept[toolOf(step, draft)] ?? kept.tape;
  for (const box of step.boxes) {
    const empty = box.kind === "length" && !unitOf(box.name, draft.values);
    if (empty && unit) draft.values[`${box.name}:unit`] = unit;
  }
}

async function rememberUnit(tool, value) {
  await store.keep(UNITS, { ...(await store.setting(UNITS)), [tool]: value });
}

function progress(path, place) {
  const n = place + 1, all = path.length, left = all - n;
  const told = left ? say("left", { n: left }) : say("left_one");
  return el("div", { class: "progress" },
    el("progress", { max: all, value: n, "aria-label": say("progress", { n, all }) }),
    el("p", {}, el("strong", {}, say("progress", { n, all })), ` · ${told}`));
}

/** What to be careful about before this step: once, until it is read. */
function cautions(app, draft, step, path) {
  const keys = cautionsAt(step.slug, path).filter((key) => !draft.told?.includes(key));
  if (!keys.length) return [];
  const read = async () => {
    await app.save(draft.id, (kept) => { kept.told = [...(kept.told ?? []), ...keys]; });
    draft.told = [...(draft.told ?? []), ...keys];
    box.remove();
    document.querySelector("#screen h1").focus();
  };
  const box = el("aside", { class: "notice caution-now", "aria-label": say("caution") },
    el("strong", {}, say("caution")), ...keys.map((key) => el("p", {}, app.cautions[key])),
    button(say("caution_read"), read));
  return [box];
}

function errorsOf(draft, step) {
  const told = Object.entries(draft.errors ?? {})
    .filter(([path]) => step.boxes.some((box) => box.name === path) || path === step.path || path.startsWith(`${step.path}.`));
  return told.flatMap(([, lines]) => lines).map((line) => el("p", { class: "error", role: "alert" }, said(line)));
}

/** "I can't measure this": never an error; says what happens instead, and opens it. */
function cannotOf(app, draft, step) {
  if (!step.cannot) return null;
  const name = `answers.${step.slug}.state`;
  const on = isCannot(step.slug, draft.values);
  const turn = async (wanted) => {
    await app.save(draft.id, (kept) => {
      if (!wanted) { delete kept.values[name]; return; }
      kept.values[name] = "cannot_measure";
      for (const box of step.boxes) if (!box.name.startsWith("answers.coupling_state")) delete kept.values[box.name];
    });
    app.again(wanted ? ".cannot-said" : "h1");
  };
  if (!on) return el("p", { class: "cannot-now" }, button(step.cannot_label || say("cannot"), () => turn(true)));
  return el("div", { class: "asked cannot-said", tabindex: "-1" }, el("p", {}, el("strong", {}, say("cannot_on")), " ", step.cannot),
            el("p", {}, button(say("cannot_undo"), () => turn(false), "link")));
}

function moving(app, step) {
  return el("div", { class: "moving" }, button(say("back"), () => app.back(step.slug)),
            el("button", { class: "button", type: "submit" }, say("next")));
}

function help(step) {
  const more = [
    step.how && el("p", {}, step.how),
    step.slip && el("p", {}, el("strong", {}, say("slip")), " ", step.slip),
    step.know && el("p", {}, el("a", { href: step.know, class: "know" }, say("know"))),
  ].filter(Boolean);
  return more.length ? el("section", { class: "help how", id: "how-to", "aria-label": say("how") }, ...more) : null;
}

function goOn(app, draft, step, now) {
  const box = step.boxes.find((one) => one.kind === "length");
  const read = box && readBox(box, draft.values[box.name], unitOf(box.name, draft.values));
  const empty = !isAnswered(step, draft.values);
  if (!now.warned && (empty || (read && !read.understood))) {
    now.warned = true;
    notice(empty ? say("skip_hint") : read.message, "warning");
    return;
  }
  if (step.blind && read?.understood && !now.compare.childElementCount && compare(step, draft, read, now)) return;
  notice("");
  app.next(step.slug);
}

/** After the second number: both, and how far apart. Shown once, before going on. */
function compare(step, draft, second, now) {
  const first = readBox({ range: null }, draft.values[step.blind], unitOf(step.blind, draft.values));
  if (!first?.understood) return false;
  const off = apart(first, second);
  now.compare.append(el("div", { class: "asked" },
    el("p", { class: "both" }, say("first_was", { first: both(first), second: both(second) })),
    el("p", {}, off.nm ? say("apart", { apart: off.text }) : say("the_same"), " ",
       say(off.nm <= FINE ? "apart_fine" : "apart_much"))));
  now.compare.scrollIntoView({ block: "center" });
  return true;
}

/** Whoever has a keyboard types at once, from the heading. */
function typingGoesToTheBox(screen) {
  const input = screen.querySelector(".boxes input[type=text], .boxes input[type=tel]");
  screen.querySelector("h1").addEventListener("keydown", (event) => {
    const typed = event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
    if (typed && event.key !== " " && input) input.focus();
    if (event.key === "Enter") screen.querySelector("form").requestSubmit();
  });
}

/** Another window changed this draft: show its newest, but never under the fingers of who types. */
function freshen(screen, boxes, step, draft, fresh) {
  Object.assign(draft, fresh);
  step.boxes.forEach((box, n) => {
    const value = fresh.values[box.name] ?? "";
    for (const input of boxes[n].querySelectorAll("input")) {
      if (input.name !== box.name || input === document.activeElement) continue;
      if (["radio", "checkbox"].includes(input.type)) input.checked = [value].flat().includes(input.value);
      else input.value = value;
    }
    boxes[n].refresh?.();
  });
  redraw(step, draft);
}
