// Sheets at the width of the page or at their true size.

function startSheets() {
  for (const button of document.querySelectorAll("[data-enlarge]")) {
    button.addEventListener("click", () => {
      const isLarge = button.getAttribute("aria-pressed") !== "true";
      button.setAttribute("aria-pressed", String(isLarge));
      button.closest("figure").querySelector(".jb-hold").classList.toggle("jb-large", isLarge);
    });
  }
}
