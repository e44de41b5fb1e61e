// The list of keys, and the call read back: both are dialogs that Escape closes.
import { asForm, texts } from "./boxes.js";
import { el } from "./dom.js";
import { post } from "./wire.js";

/** Show the list of all keys. */
export function showKeys() {
  document.getElementById("call-chords").showModal();
}

/** Read everything back that is typed, also what is not kept yet. */
export async function readBack(form) {
  const dialog = document.getElementById("call-read"), body = dialog.querySelector("[data-body]");
  const headers = { "X-Part": "1" };
  const { came, text } = await post(form.dataset.read, asForm(form, texts(form)), { headers });
  if (came === "ok") body.innerHTML = text; // our own page, escaped where it is made
  else {
    body.replaceChildren(
      el("h2", { id: "read-back-h" }, "Read back"),
      el("p", {}, "The desk cannot be reached, so nothing can be read back yet. Nothing typed is lost."),
    );
  }
  if (!dialog.open) dialog.showModal();
}

for (const button of document.querySelectorAll("dialog [data-close]")) {
  button.addEventListener("click", () => button.closest("dialog").close());
}
for (const button of document.querySelectorAll("dialog [data-print]")) {
  button.addEventListener("click", () => print());
}
