// A script asked for something while the desk was locked: say so where a person sees it, and open
// the way out in another window, so that what is typed here stays.
const UNLOCK = "/accounts/unlock/";

function tell({ title, detail }) {
  document.querySelector(".locked-bar")?.remove();
  const bar = document.createElement("div");
  bar.className = "locked-bar notice warning";
  bar.setAttribute("role", "alert");
  const way = document.createElement("a");
  way.href = `${UNLOCK}?next=${encodeURIComponent(location.pathname + location.search)}`;
  way.target = "_blank";
  way.rel = "noopener";
  way.textContent = "Open the way in, in another window";
  bar.append(`${title}. ${detail} `, way);
  document.querySelector("#main")?.prepend(bar);
}

document.addEventListener("desk:locked", (event) => tell(event.detail));
// The next answer that is taken shows that the desk is open again.
document.addEventListener("desk:kept", () => document.querySelector(".locked-bar")?.remove());
