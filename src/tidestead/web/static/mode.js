// Whether a change is saved at once or tried first; remembered for as long as the page's window is open.
const NAME = "tidestead-mode";

export const trying = () => sessionStorage.getItem(NAME) === "try";

function show() {
  const now = trying() ? "try" : "save";
  document.querySelectorAll("[data-mode] input").forEach((one) => { one.checked = one.value === now; });
}

document.addEventListener("change", (event) => {
  if (!event.target.closest?.("[data-mode]")) return;
  sessionStorage.setItem(NAME, event.target.value);
});
document.addEventListener("renewed", show);
show();
