// Makes the screens quicker, and nothing more: a link or a form is fetched and the page swapped for the answer, so that
// nothing flashes and focus and scroll stay where they belong. Without it every screen works the same.
// A page that answers by itself sets `window.answers(url, options)` to what returns a Response.
"use strict";
(() => {
  const own = (url) => url.origin === location.origin && !/\.(html|yaml|ics|jpg)$/.test(url.pathname);
  let asked = 0;

  async function show(url, options, push) {
    const turn = ++asked;
    document.documentElement.setAttribute("aria-busy", "true");
    try {
      const response = await (window.answers || fetch)(url, options);
      const type = response.headers.get("content-type") || "";
      if (!type.startsWith("text/html")) throw new Error(type);
      const text = await response.text();
      if (turn === asked) swap(text, response.url || String(url), push);
    } catch {
      if (options && options.method === "POST") throw new Error("not sent");
      location.href = url;
    } finally {
      if (turn === asked) document.documentElement.removeAttribute("aria-busy");
    }
  }

  function swap(text, url, push) {
    const next = new DOMParser().parseFromString(text, "text/html");
    const focused = document.activeElement && document.activeElement.id;
    const same = new URL(url).pathname === location.pathname && next.title === document.title;
    if (push) history.pushState(null, "", url);
    document.title = next.title;
    document.body.replaceWith(document.adoptNode(next.body));
    const stay = same && focused && document.getElementById(focused);
    if (stay) stay.focus({ preventScroll: true });
    else settle();
    document.dispatchEvent(new CustomEvent("shown"));
  }

  function settle() {
    const heading = document.querySelector("h1");
    if (heading) {
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    }
    scrollTo(0, 0);
  }

  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[href]");
    if (!link || event.defaultPrevented || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    const url = new URL(link.href instanceof SVGAnimatedString ? link.href.baseVal : link.getAttribute("href"), document.baseURI);
    if (link.hasAttribute("download") || link.target || !own(url) || (url.pathname === location.pathname && url.hash)) return;
    event.preventDefault();
    show(url, {}, true);
  });

  document.addEventListener("submit", (event) => {
    const form = event.target, button = event.submitter;
    if (event.defaultPrevented) return;
    const url = new URL(form.getAttribute("action") || "", document.baseURI);
    if (form.method !== "post" || !own(url)) return;
    event.preventDefault();
    const data = new FormData(form, button);
    const files = form.enctype === "multipart/form-data";
    const body = files ? data : new URLSearchParams(data);
    show(url, { method: "POST", body }, true).catch(() => form.submit());
  });

  // A note is shared where the device can, else copied.
  document.addEventListener("click", async (event) => {
    const button = event.target.closest("button[data-share]");
    if (!button) return;
    const text = document.getElementById(button.dataset.share).textContent;
    try {
      if (navigator.share) await navigator.share({ text });
      else await navigator.clipboard.writeText(text);
      button.classList.add("on");
    } catch { /* the person thought better of it */ }
  });
  const offer = () => document.querySelectorAll("button[data-share]").forEach((button) => {
    button.hidden = !(navigator.share || (navigator.clipboard && isSecureContext));
  });
  document.addEventListener("shown", offer);
  offer();

  addEventListener("popstate", () => show(location.href, {}, false));
})();
