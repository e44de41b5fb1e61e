// What stands in the way of keeping a call, said plainly, with what to do about it.
import { el } from "./dom.js";

const SAID = {
  offline: "No connection to the desk.",
  away: "The desk's computer does not answer.",
  login: "You are logged out.",
  locked: "Your login is locked.",
  refused: "The desk did not take it.",
};
const STAYS = "Everything typed stands here and is kept in this browser; it is sent as soon as that is possible.";
const place = document.getElementById("call-trouble");
let shown = "";

/** Say what is in the way; the same thing is said once. */
export function trouble(form, came) {
  if (shown === came) return;
  shown = came;
  const again = came === "login"
    ? el("a", { href: `${form.dataset.login}?next=${encodeURIComponent(location.pathname)}`, target: "_blank", rel: "noopener" }, "Log in in another tab")
    : came === "locked" ? el("a", { href: location.pathname, target: "_blank", rel: "noopener" }, "Open it in another tab and unlock it there") : "";
  place.replaceChildren(el("p", { class: "notice error" }, `${SAID[came] ?? SAID.refused} ${STAYS} `, again));
}

/** Another plain sentence, with what belongs to it. */
export function notice(...parts) {
  shown = "notice";
  place.replaceChildren(el("p", { class: "notice" }, ...parts));
}

/** All is well again. */
export function well() {
  if (shown === "" || shown === "notice") return;
  shown = "";
  place.replaceChildren();
}

/** Take a notice away. */
export function clear() {
  shown = "";
  place.replaceChildren();
}
