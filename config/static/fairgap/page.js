// What every page may want: bring the error summary into view for people who cannot see it appear.
document.querySelector("[data-focus]")?.focus();
