"use strict";
(() => {
  const boxes = [...document.querySelectorAll("input[type=checkbox]")];
  const key = `profilesmith-ticks-${document.querySelector("main").dataset.sheet}`;
  const told = document.getElementById("kept");

  // Where the page may store, ticks are kept under the sheet's own hash; else they last for the visit.
  const read = () => {
    try { return JSON.parse(localStorage.getItem(key)) || []; } catch { return (history.state || {})[key] || []; }
  };
  const write = (ticks) => {
    try {
      localStorage.setItem(key, JSON.stringify(ticks));
      return true;
    } catch {
      try { history.replaceState({ ...history.state, [key]: ticks }, ""); } catch { /* then they last as long as the page */ }
      return false;
    }
  };
  const keep = () => {
    const stored = write(boxes.filter((box) => box.checked).map((box) => box.id));
    told.textContent = stored
      ? "Ticks are kept in this browser, for this very sheet."
      : "This browser lets the page store nothing: ticks last for the visit.";
  };
  const ticked = new Set(read());
  for (const box of boxes) {
    box.checked = ticked.has(box.id);
    box.addEventListener("change", keep);
  }
  const clear = document.getElementById("clear");
  clear.hidden = false;
  clear.addEventListener("click", () => {
    boxes.forEach((box) => { box.checked = false; });
    keep();
  });
})();
