// A tap on the boat tells where it was, so that the nearest places are those nearest to the finger, whether it hit one or
// not. Without this, and by keyboard, they are those nearest to the place whose link was followed.
"use strict";
document.addEventListener("click", (event) => {
  const boat = event.target.closest && event.target.closest(".four svg.boat, .boat-here.tap svg.boat");
  if (!boat || !event.detail || event.target.closest(".marker")) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(boat.getScreenCTM().inverse());
  const where = `at=${Math.round(at.x)},${Math.round(at.y)}`, link = event.target.closest("a");
  if (link) {
    link.setAttribute("href", `${link.getAttribute("href").replace(/&at=.*$/, "")}&${where}`);
    return;
  }
  const there = document.createElement("a");
  there.href = `near?view=${boat.id.split("-").pop()}&${where}`;
  boat.after(there);
  there.click();
  there.remove();
}, true);
