// What the checks say, drawn anew after each answer; what was unfolded stays unfolded, and what is
// new is said aloud once, in a few words.
import { fieldOf } from "./boxes.js";

let unfolded = false, said = "";

/** Put an answer of the desk in its places. */
export function draw(form, html) {
  const answer = new DOMParser().parseFromString(html, "text/html").body;
  const lines = new Map([...answer.querySelectorAll("[hx-swap-oob]")].map((line) => [line.id, line]));
  for (const line of lines.values()) line.remove();
  for (const place of form.querySelectorAll(".read-back")) readBack(form, place, lines.get(place.id));
  drawPanel(document.getElementById("desk-panel"), answer);
}

function readBack(form, place, line) {
  const html = line ? line.innerHTML.trim() : "";
  if (place.innerHTML.trim() !== html) place.innerHTML = html;
  const way = place.querySelector("[data-way]")?.dataset.way;
  if (!way) return;
  // The way that was said in the number's box is the one the answer has: its own box shows it too.
  const how = fieldOf(form, `answers.${place.id.replace(/^f-answers-|-read$/g, "")}.method`);
  if (how && how.value !== way && document.activeElement !== how) how.value = way;
}

function drawPanel(panel, answer) {
  const asked = panel.querySelector(".question")?.textContent;
  const more = panel.querySelector(".more-findings");
  if (more) unfolded = more.open;
  const before = panel.dataset.html, html = answer.innerHTML;
  if (before === html) return;
  panel.dataset.html = html;
  const inside = panel.contains(document.activeElement);
  panel.replaceChildren(...answer.childNodes);
  const fold = panel.querySelector(".more-findings");
  if (fold) fold.open = unfolded;
  const side = document.getElementById("checks");
  if (inside) side.focus({ preventScroll: true });
  else if (panel.querySelector(".question")?.textContent !== asked) side.scrollTop = 0; // a new question is in sight
  sayNew(panel);
}

function sayNew(panel) {
  const words = [...panel.querySelectorAll("[data-say]")].map((one) => one.textContent.trim().replace(/\s+/g, " "));
  const now = words.join(". ");
  if (now !== said) document.getElementById("call-says").textContent = now;
  said = now;
}
