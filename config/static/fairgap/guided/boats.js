// The boats kept on this phone, each with where it stands: here, waiting for signal, or sent.
import { button, el, replace, say, show } from "./dom.js";
import { isAnswered, pathOf, stepOf, stepOfPath } from "./path.js";
import { canSpeak, speakAlways, speaksAlways } from "./speech.js";
import { said } from "./said.js";

const store = globalThis.fairgapStore, outbox = globalThis.fairgapOutbox;
const SHAPES = { draft: "▢", waiting: "◔", sent: "✓", trouble: "▲" };

/** Show the list; `quietly`: it is there already and only its states have changed. */
export async function showBoats(app, quietly = false) {
  const drafts = (await store.drafts()).sort((a, b) => b.changed - a.changed);
  const rows = await Promise.all(drafts.map((draft) => row(app, draft)));
  const start = el("p", { class: "actions" },
    button(drafts.length ? say("start_another") : say("start"), () => app.start(), "button"));
  const list = drafts.length ? el("ul", { class: "boats" }, ...rows) : el("p", {}, say("no_boats"));
  (quietly ? replace : show)(el("h1", {}, say("boats")), el("p", { class: "help" }, say("save_first")), ...order(start, list, drafts), settings());
}

/** Nothing kept yet: the button first. Else the boats first. */
function order(start, list, drafts) {
  return drafts.length ? [list, start] : [start, list];
}

/** What a person calls it. */
export function nameOf(draft) {
  const { values } = draft, station = values["answers.boat_name_and_station.station"];
  const name = values["answers.boat_name_and_station.name"]?.trim() || say("nameless");
  const options = stepOf("boat_name_and_station")?.boxes[1].options ?? [];
  const side = station && station !== "single" && new Map(options).get(station);
  return side ? `${name}, ${side}` : name;
}

const stateOf = (draft) => (draft.state === "draft" && draft.problem ? "trouble" : draft.state);

async function row(app, draft) {
  const state = stateOf(draft);
  const chip = el("span", { class: `state state-${state}` },
    el("span", { "aria-hidden": "true" }, SHAPES[state]), ` ${say(`state_${state}`)}`);
  const photos = await store.photosOf(draft.id);
  return el("li", { "data-draft": draft.id }, el("h2", {}, nameOf(draft)), el("p", {}, chip, ...photosTold(photos, state)),
            ...about(app, draft), el("p", { class: "row-actions" }, ...actions(app, draft)));
}

function photosTold(photos, state) {
  if (!photos.length) return [];
  const kept = photos.filter((photo) => photo.state === "kept").length;
  const count = say(photos.length === 1 ? "photo_one" : "photo_many", { n: photos.length });
  const refused = photos.filter((photo) => photo.state === "refused").map((photo) => say("photo_refused", { why: photo.why }));
  const sent = photos.some((photo) => photo.state === "sent");
  const told = state === "sent" && (kept || sent) ? say(kept ? "photos_waiting" : "photos_sent") : "";
  return [` · ${count} ${told}`, ...refused.map((why) => el("span", { class: "doubt" }, ` ${why}`))];
}

function about(app, draft) {
  if (draft.state === "sent") {
    return [el("p", {}, say("sent_as", { reference: draft.reference })),
            el("p", {}, el("a", { class: "button", href: draft.link }, say("status_page")))];
  }
  if (draft.state === "waiting") return waiting(draft);
  const problem = { refused: say("refused"), conflict: say("conflict") }[draft.problem];
  const homeless = Object.entries(draft.errors ?? {}).filter(([path]) => !stepOfPath(path));
  return [problem && el("p", { class: "error" }, problem),
          ...homeless.flatMap(([, lines]) => lines).map((line) => el("p", { class: "error" }, said(line)))].filter(Boolean);
}

function waiting(draft) {
  const problem = draft.problem && el("p", {}, say(draft.problem));
  const time = draft.retryAt > Date.now()
    && new Date(draft.retryAt).toLocaleTimeString(document.documentElement.lang, { timeStyle: "short" });
  return [problem, time && el("p", {}, say("retry_at", { time }))].filter(Boolean);
}

function actions(app, draft) {
  const remove = button(say("delete"), () => confirmDelete(app, draft, remove), "button quiet");
  if (draft.state === "sent") return [remove];
  if (draft.state === "waiting") {
    const back = !draft.tries && button(say("take_back"), async () => {
      await outbox.takeBack(draft.id);
      app.open(draft.id, "review");
    });
    return [button(say("try_now"), () => app.send("all"), "button"), back].filter(Boolean);
  }
  const go = button(say("open"), () => app.open(draft.id, whereIn(draft)), "button");
  return [go, button(say("rename"), (event) => rename(app, draft, event.target)),
          button(say("hand_over"), () => app.open(draft.id, "hand")), remove];
}

/** Where to go on: at an error, else where one stopped, else at the first question left. */
export function whereIn(draft) {
  const wrong = Object.keys(draft.errors ?? {}).map(stepOfPath).find(Boolean);
  if (wrong) return wrong.slug;
  const path = pathOf(draft);
  if (draft.at === "review" || path.some((step) => step.slug === draft.at)) return draft.at;
  return (path.find((step) => !isAnswered(step, draft.values)) ?? path[0]).slug;
}

function confirmDelete(app, draft, asked) {
  const row = asked.closest("li");
  const keep = button(say("delete_keep"), () => showBoats(app));
  row.querySelector(".row-actions").replaceChildren(
    el("span", { role: "alert" }, say("delete_sure", { name: nameOf(draft) })),
    button(say("delete"), async () => { await store.remove(draft.id); await showBoats(app); }), keep);
  keep.focus();
}

function rename(app, draft, asked) {
  const input = el("input", { type: "text", id: "rename", value: draft.values["answers.boat_name_and_station.name"] ?? "" });
  const form = el("form", { class: "field" }, el("label", { for: "rename" }, say("name")), input,
                  el("p", {}, el("button", { class: "button" }, say("done"))));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    await app.save(draft.id, (kept) => { kept.values["answers.boat_name_and_station.name"] = input.value; });
    await showBoats(app);
  });
  asked.closest("li").querySelector(".row-actions").replaceChildren(form);
  input.focus();
}

function settings() {
  if (!canSpeak) return null;
  const box = el("input", { type: "checkbox", checked: speaksAlways(), onchange: () => speakAlways(box.checked) });
  return el("section", { class: "settings" }, el("h2", {}, say("settings")),
            el("label", { class: "choice" }, box, el("span", {}, say("say_always"))));
}
