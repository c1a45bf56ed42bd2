// A field for a fact or a question, by its kind. What is typed becomes the text that the engine reads: "4 mm3/s".
const UNITS = { "mm/s2": "mm/s²", "mm3/s": "mm³/s", "g/cm3": "g/cm³", mm2: "mm²" };
const shownUnit = (unit) => UNITS[unit] || unit;
const bare = /^\s*-?[\d.,]+\s*$/;
const withUnit = (text, unit) => (unit && bare.test(text) ? `${text.trim().replace(",", ".")} ${unit}` : text.trim());
const withoutUnit = (text, unit) => (unit && text.endsWith(` ${unit}`) ? text.slice(0, -unit.length - 1) : text);

function textBox(id, value, change, more = {}) {
  const { wide: _, ...rest } = more;
  return el("input", { type: "text", id, value, autocomplete: "off", onchange: change, ...rest });
}

function choiceBox(id, item, value, change) {
  const options = item.values.map((word) => el("option", { value: word, selected: word === value }, word));
  return el("select", { id, onchange: change }, el("option", { value: "" }, w("unknown")), options);
}

// Returns the node of a field; change(text) is called with the answer, "" for none.
function field(item, value, change, wrong, named) {
  const id = `f-${item.name.replace(/[^\w-]/g, "-")}`;
  const unit = shownUnit(item.unit);
  const hint = wrong || (item.range ? w("range", { range: item.range }) : "");
  const more = { "aria-describedby": hint ? `${id}-hint` : null, "aria-invalid": wrong ? "true" : null };
  let control;
  if (item.kind === "choice") control = el("div", { class: "one" }, choiceBox(id, item, value, (e) => change(e.target.value)));
  else if (item.kind === "window") {
    const ends = value ? value.split(" to ").map((end) => withoutUnit(end, item.unit)) : ["", ""];
    const both = () => {
      const [low, high] = [`${id}`, `${id}-high`].map((part) => withUnit(document.getElementById(part).value, item.unit));
      if (low && high) change(`${low} to ${high}`);
      else if (!low && !high) change("");
    };
    control = el(
      "div",
      { class: "pair" },
      textBox(id, ends[0] || "", both, { inputmode: "decimal", "aria-label": `${named}: ${w("lowest")}`, ...more }),
      "–",
      textBox(`${id}-high`, ends[1] || "", both, { inputmode: "decimal", "aria-label": `${named}: ${w("highest")}`, ...more }),
      el("span", { class: "unit" }, unit),
    );
  } else if (item.kind === "hardness") {
    const [number, , letter] = value ? value.split(" ") : ["", "", "A"];
    const both = () => {
      const typed = document.getElementById(id).value.trim();
      change(typed ? `${typed} Shore ${document.getElementById(`${id}-scale`).value}` : "");
    };
    const scales = ["A", "D"].map((name) => el("option", { value: name, selected: name === letter }, `Shore ${name}`));
    control = el(
      "div",
      { class: "pair" },
      textBox(id, number, both, { inputmode: "decimal", ...more }),
      el("select", { id: `${id}-scale`, onchange: both, "aria-label": `${named}: ${w("scale")}` }, scales),
    );
  } else if (item.kind === "text") {
    control = el("div", { class: "one" }, textBox(id, value, (e) => change(e.target.value.trim()), more));
  } else {
    const typed = (event) => change(event.target.value.trim() ? withUnit(event.target.value, item.unit) : "");
    const shown = withoutUnit(value, item.unit);
    control = el("div", { class: "one" }, textBox(id, shown, typed, { inputmode: "decimal", ...more }), el("span", { class: "unit" }, unit));
  }
  return el(
    "div",
    { class: `field kind-${item.kind}` },
    el("label", { for: id }, named),
    control,
    hint ? el("small", { id: `${id}-hint`, class: wrong ? "wrong" : "soft" }, hint) : null,
  );
}
