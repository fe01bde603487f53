// Photographs: drawn anew and smaller before they are sent, which leaves out where and with what they were taken; and
// taps on one put into the fields of its form, where arrow keys move them. The sum is done elsewhere.
"use strict";
(() => {
  const SIDE = 2000, QUALITY = 0.8;

  async function smaller(file) {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const share = Math.min(1, SIDE / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(picture.width * share);
    canvas.height = Math.round(picture.height * share);
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", QUALITY));
    return new File([blob], "photo.jpg", { type: "image/jpeg" });
  }

  document.addEventListener("change", async (event) => {
    const input = event.target;
    if (!input.matches("form.photograph input[type=file]") || !input.files.length) return;
    const button = input.form.querySelector("button");
    button.disabled = true;
    try {
      const held = new DataTransfer();
      held.items.add(await smaller(input.files[0]));
      input.files = held.files;
    } catch {
      // what the browser cannot draw is sent as it is, and made anew or refused there
    } finally {
      button.disabled = false;
      button.focus();
    }
  });

  function measuring() {
    const picture = document.querySelector("svg.measure"), form = document.getElementById("taps");
    if (!picture || !form || form.dataset.ready) return;
    form.dataset.ready = "yes";
    document.querySelectorAll(".no-script").forEach((one) => { one.hidden = true; });
    form.querySelectorAll("[hidden]").forEach((one) => { if (one.type !== "hidden") one.hidden = false; });
    const inputs = [...form.querySelectorAll("[data-point]")], box = picture.viewBox.baseVal;
    const points = (input) => (input.value.match(/-?[\d.]+\s*,\s*-?[\d.]+/g) || []).map((one) => one.split(",").map(Number));
    const write = (input, some) => { input.value = some.map((one) => one.map(Math.round).join(",")).join(" "); };
    let chosen = inputs.find((input) => !points(input).length) || inputs[4];

    function draw() {
      const corners = inputs.slice(0, 4).flatMap(points), line = points(inputs[4]), r = box.width / 60;
      const cross = ([x, y]) => `M${x - r} ${y}H${x + r}M${x} ${y - r}V${y + r}`;
      const joined = (some, end) => (some.length > 1 ? `M${some.map((one) => one.join(" ")).join("L")}${end}` : "");
      picture.querySelectorAll(".card").forEach((one) => one.setAttribute("d", joined(corners, corners.length > 3 ? "Z" : "") + corners.map(cross).join("")));
      picture.querySelectorAll(".line").forEach((one) => one.setAttribute("d", joined(line, "") + line.map(cross).join("")));
      inputs.forEach((input) => input.classList.toggle("now", input === chosen));
    }

    function move(x, y) {
      const some = points(chosen), last = some.pop();
      if (!last) return;
      write(chosen, [...some, [Math.min(box.width, Math.max(0, last[0] + x)), Math.min(box.height, Math.max(0, last[1] + y))]]);
      draw();
    }

    const step = box.width / 400, ways = { left: [-1, 0], up: [0, -1], down: [0, 1], right: [1, 0] };
    picture.addEventListener("click", (event) => {
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(picture.getScreenCTM().inverse());
      write(chosen, chosen === inputs[4] ? [...points(chosen), [at.x, at.y]] : [[at.x, at.y]]);
      const written = chosen;
      if (written !== inputs[4]) chosen = inputs[inputs.indexOf(written) + 1];
      draw();
    });
    form.addEventListener("focusin", (event) => { if (event.target.matches("[data-point]")) { chosen = event.target; draw(); } });
    form.addEventListener("input", draw);
    form.addEventListener("keydown", (event) => {
      const way = ways[event.key.replace("Arrow", "").toLowerCase()];
      if (!event.target.matches("[data-point]") || !event.key.startsWith("Arrow") || !way) return;
      event.preventDefault();
      if (!points(chosen).length) write(chosen, [[box.width / 2, box.height / 2]]);
      const far = event.shiftKey ? 10 : 1;
      move(way[0] * step * far, way[1] * step * far);
    });
    form.querySelectorAll("[data-way]").forEach((button) => button.addEventListener("click", () => {
      const back = inputs.indexOf(chosen);
      if (!points(chosen).length && back > 0) chosen = inputs[back - 1];
      move(...ways[button.dataset.way].map((one) => one * step));
    }));
    form.querySelector("[data-clear]").addEventListener("click", () => {
      inputs.forEach((input) => { input.value = ""; });
      chosen = inputs[0];
      draw();
    });
    draw();
  }

  document.addEventListener("shown", measuring);
  document.addEventListener("DOMContentLoaded", measuring);
})();
