"use strict";
(() => {
  const all = (selector) => [...document.querySelectorAll(selector)];
  const byId = (id) => document.getElementById(id);
  const told = byId("told");
  const folds = () => all("main details");
  const bar = document.querySelector(".tools");
  bar.hidden = false;

  // What is jumped to, or has the focus, comes to lie below the bar, however many lines the bar has.
  const below = () => { document.documentElement.style.scrollPaddingTop = `${bar.offsetHeight + 8}px`; };
  new ResizeObserver(below).observe(bar);
  below();

  const shown = (fold) => !fold.closest("[hidden]");
  byId("open").addEventListener("click", () => folds().filter(shown).forEach((fold) => { fold.open = true; }));
  byId("close").addEventListener("click", () => folds().forEach((fold) => { fold.open = false; }));

  let rows = null;
  const find = () => {
    rows = rows || all("main li").map((row) => [row, row.textContent.toLowerCase()]);
    const wanted = byId("find").value.trim().toLowerCase();
    let count = 0;
    for (const [row, text] of rows) {
      row.hidden = !text.includes(wanted);
      count += row.hidden ? 0 : 1;
    }
    // Inner sections first, so that an outer one sees which of them are left.
    for (const section of all("main section, main > details").reverse()) {
      section.hidden = Boolean(wanted) && !section.querySelector("li:not([hidden])");
    }
    told.textContent = !wanted ? "" : count ? `${count} of ${rows.length} lines` : "Nothing found";
  };
  byId("find").addEventListener("input", find);

  // Where a page may not write to the clipboard, the text is laid out selected: one key copies it.
  const copyText = async (text, element, name) => {
    try {
      await navigator.clipboard.writeText(text);
      told.textContent = `Copied ${name}`;
    } catch {
      element.hidden = false;
      if (element.select) { element.focus(); element.select(); } else getSelection().selectAllChildren(element);
      told.textContent = "Selected: copy it with the keyboard";
    }
  };
  const copy = (code) => copyText(code.textContent, code, code.textContent);
  const markdown = byId("markdown");
  if (markdown) byId("copy-markdown").addEventListener("click", () => copyText(markdown.value, markdown, "as Markdown"));

  // A button is made when its row is first opened: thousands of rows stay quick.
  document.addEventListener("toggle", (event) => {
    for (const code of event.target.open ? event.target.querySelectorAll("code.copy:not(.ready)") : []) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "copied";
      button.textContent = "Copy";
      button.setAttribute("aria-label", `Copy ${code.textContent}`);
      button.addEventListener("click", () => copy(code));
      code.classList.add("ready");
      code.after(button);
    }
  }, true);

  const openTarget = () => {
    const target = location.hash && byId(decodeURIComponent(location.hash.slice(1)));
    const own = target && target.matches(".fold, .row") && target.querySelector("details");
    for (let fold = own || null; fold; fold = fold.parentElement.closest("details")) fold.open = true;
    if (own) target.scrollIntoView();
  };
  addEventListener("hashchange", openTarget);
  openTarget();
})();
