// What has just been noted is read out to whoever does not see it. A live line that comes with its words in it is
// silent, so it comes empty and is filled a moment later; then it goes, and nobody meets the words twice.
"use strict";
(() => {
  const SETTLES = 200, HEARD = 10000; // ms

  document.addEventListener("shown", () => {
    const noted = document.querySelector("main .said-now[role=status]");
    if (!noted) return;
    noted.removeAttribute("role");
    const line = document.getElementById("main").appendChild(document.createElement("p"));
    line.className = "unseen";
    line.setAttribute("role", "status");
    setTimeout(() => { line.textContent = [...noted.querySelectorAll(":scope > p")].map((one) => one.textContent).join(" "); }, SETTLES);
    setTimeout(() => line.remove(), HEARD);
  });
})();
