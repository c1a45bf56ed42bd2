
"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const rows = [...document.querySelectorAll("[data-f]")];
  if (!rows.length) return;
  const list = rows[0].parentNode, told = byId("told");
  const read = (row, at) => ({
    row, at, text: row.textContent.toLowerCase(), low: Number(row.dataset.e),
    words: row.dataset.f ? row.dataset.f.split(";") : [],
  });
  const all = rows.map(read);
  const kinds = ["to", "drive", "bore"];
  for (const kind of kinds) {
    const words = new Set(all.flatMap((item) => item.words.filter((word) => word.startsWith(`${kind}:`))));
    for (const word of [...words].sort()) {
      byId(kind).append(new Option(word.slice(kind.length + 1), word));
    }
    byId(kind).closest("label").hidden = !words.size;
  }
  const has = (item, word) => !word || item.words.includes(word);
  const look = () => {
    const wanted = byId("find").value.trim().toLowerCase().split(/\s+/);
    const part = byId("part").value, tried = byId("tried").value;
    let count = 0;
    for (const item of all) {
      const fits = wanted.every((word) => item.text.includes(word)) && kinds.every((kind) => has(item, byId(kind).value))
        && has(item, part) && (!tried || has(item, "tried") === (tried === "tried"));
      item.row.hidden = !fits;
      count += fits ? 1 : 0;
    }
    told.textContent = count < all.length ? `${count} of ${all.length} recipes` : "";
  };
  const order = () => {
    const by = byId("order").value === "evidence" ? (one, other) => other.low - one.low : (one, other) => one.at - other.at;
    list.append(...[...all].sort((one, other) => by(one, other) || one.at - other.at).map((item) => item.row));
  };
  byId("find").addEventListener("input", look);
  for (const id of [...kinds, "part", "tried"]) byId(id).addEventListener("change", look);
  byId("order").addEventListener("change", order);
  document.querySelector(".tools").hidden = false;
  look();
  order();
})();
