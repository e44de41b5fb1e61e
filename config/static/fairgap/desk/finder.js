// Who called before: type a few letters, arrows walk through what is found, Enter opens it.
const box = document.getElementById("find-q"), found = document.getElementById("found");

/** Go to the finder. */
export function find() {
  box?.focus();
  box?.select();
}

/** Let the arrow keys walk; `leave` puts the reader back where they were. */
export function walkFound(leave) {
  if (!box) return;
  const links = () => [...found.querySelectorAll("a[href]")];
  const onKey = (event) => {
    const all = links(), at = all.indexOf(document.activeElement);
    if (event.key === "ArrowDown") (all[at + 1] ?? all.at(-1))?.focus();
    else if (event.key === "ArrowUp") (at > 0 ? all[at - 1] : box).focus();
    else if (event.key === "Enter" && at < 0) all[0]?.click();
    else if (event.key === "Escape") {
      box.value = "";
      found.replaceChildren();
      leave();
    } else return;
    event.preventDefault();
  };
  box.addEventListener("keydown", onKey);
  found.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") onKey(event); // Enter on a link opens it by itself
  });
}
