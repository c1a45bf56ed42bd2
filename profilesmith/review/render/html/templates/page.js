
"use strict";
(() => {
  const all = (selector) => [...document.querySelectorAll(selector)];
  const byId = (id) => document.getElementById(id);
  const told = byId("told");
  const folds = () => all("main details");
  document.querySelector(".tools").hidden = false;

  const shown = (fold) => !fold.closest("[hidden]");
  byId("open").addEventListener("click", () => folds().filter(shown).forEach((fold) => { fold.open = true; }));
  byId("close").addEventListener("click", () => folds().forEach((fold) => { fold.open = false; }));

  let rows = null;
  const find = () => {
    rows = rows || all("main .rows > li, main .fold li").map((row) => [row, row.textContent.toLowerCase()]);
    const wanted = byId("find").value.trim().toLowerCase();
    let count = 0;
    for (const [row, text] of rows) {
      row.hidden = !text.includes(wanted);
      count += row.hidden ? 0 : 1;
    }
    for (const section of all("main .group, main .fold")) {
      section.hidden = !section.querySelector("li:not([hidden])");
    }
    told.textContent = wanted ? `${count} of ${rows.length} lines` : "";
  };
  byId("find").addEventListener("input", find);

  const copy = async (code) => {
    try {
      await navigator.clipboard.writeText(code.textContent);
      told.textContent = `Copied ${code.textContent}`;
    } catch {
      getSelection().selectAllChildren(code);
      told.textContent = "Selected: copy it with the keyboard";
    }
  };
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
    const target = location.hash && byId(location.hash.slice(1));
    const fold = target && target.classList.contains("fold") && target.querySelector("details");
    if (fold) fold.open = true;
  };
  addEventListener("hashchange", openTarget);
  openTarget();

  let closed = [];
  addEventListener("beforeprint", () => {
    closed = all(".row > details:not([open])");
    closed.forEach((fold) => { fold.open = true; });
  });
  addEventListener("afterprint", () => closed.forEach((fold) => { fold.open = false; }));
})();
