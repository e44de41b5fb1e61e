// The measuring form: light the dimension that is being asked, and read lengths back again when
// the tape's unit changes. Everything works without this.
const form = document.querySelector("[data-measure]");
const beside = matchMedia("(min-width: 60rem)"); // on a phone each question has its own drawing
const drawing = form?.querySelector(".measure-picture .drawing");

function light(slug) {
  const wanted = slug.replace(/\.again$/, "");
  const parts = drawing.querySelectorAll("[data-slug]");
  let found = false;
  for (const part of parts) {
    const lit = part.dataset.slug === wanted;
    part.classList.toggle("is-lit", lit);
    found ||= lit;
  }
  drawing.classList.toggle("has-lit", found);
}

form?.addEventListener("focusin", (event) => {
  const question = event.target.closest("fieldset.question");
  if (question && drawing && beside.matches) light(question.dataset.slug);
});

form?.addEventListener("change", (event) => {
  if (event.target.name !== "tape_unit") return;
  for (const box of form.querySelectorAll(".box-length input")) {
    if (box.value.trim()) box.dispatchEvent(new Event("change", { bubbles: true }));
  }
});

// Questions for one kind of drive open when it is chosen, and close again unless they were used.
form?.addEventListener("change", (event) => {
  if (event.target.name !== "answers.drive_layout") return;
  for (const part of form.querySelectorAll("details[data-opens-for]")) {
    if (!part.dataset.opensFor) continue;
    const used = [...part.querySelectorAll("input:not([type=hidden])")].some((box) =>
      box.type === "radio" || box.type === "checkbox" ? box.checked : box.value.trim());
    part.open = part.dataset.opensFor === event.target.value || used;
  }
});

// What was open as the form is sent is not asked for once more.
for (const part of form?.querySelectorAll("details.folded") ?? []) {
  part.addEventListener("toggle", () => {
    part.querySelector('input[name="shown"]').disabled = !part.open;
  });
}
