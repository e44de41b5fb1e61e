// Alt with Page up or Page down: the request before or after this one in the list it came from.
const WAY = { PageUp: "prev", PageDown: "next" };

document.addEventListener("keydown", (event) => {
  const way = WAY[event.key];
  if (!way || !event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const link = document.querySelector(`.beside a[rel="${way}"]`);
  if (!link) return;
  event.preventDefault();
  link.click();
});
