// Who called before: type a few letters, arrows walk through what is found, Enter opens it.
const box = document.getElementById("find-q"), found = document.getElementById("found");
let isOld = false, wanted = false; // what stands there answers earlier letters; Enter waits for these

/** Go to the finder. */
export function find() {
  box?.focus();
  box?.select();
}

/** Let the arrow keys walk; `leave` puts the reader back where they were. */
export function walkFound(leave) {
  if (!box) return;
  const stops = () => [...found.querySelectorAll("a[href], button")];
  const open = () => { if (document.activeElement === box) stops()[0]?.click(); };
  const onKey = (event) => {
    const all = stops(), at = all.indexOf(document.activeElement);
    if (event.key === "ArrowDown") (all[at + 1] ?? all.at(-1))?.focus();
    else if (event.key === "ArrowUp") (at > 0 ? all[at - 1] : box).focus();
    else if (event.key === "Enter" && at < 0) isOld ? wanted = true : open();
    else if (event.key === "Escape") {
      box.value = "";
      isOld = wanted = false;
      found.replaceChildren();
      leave();
    } else return;
    event.preventDefault();
  };
  box.addEventListener("input", () => { isOld = true; wanted = false; });
  new MutationObserver(() => {
    isOld = false;
    if (wanted) open();
    wanted = false;
  }).observe(found, { childList: true });
  box.addEventListener("keydown", onKey);
  found.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") onKey(event); // Enter on a link opens it by itself
  });
}
