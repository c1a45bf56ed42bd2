// What was chosen and said so far, and the first two steps of a new text. Each step is drawn from the state alone.
const state = {
  road: "new", // or "after"
  offer: null, // what the library offers, from the engine
  texts: [], // {name, bytes} each, of one profile
  info: null, // what the engine says of them
  noText: false,
  map: "", // "word of the library", "new" or "own"
  reading: null,
  mapBytes: null,
  ownMap: null,
  proposals: null,
  said: {}, // answers to proposals
  at: 0,
  recipes: [],
  clubFacts: [],
  answers: {},
  wrong: {},
  questions: [],
  follow: false,
  shares: "",
  outcome: null,
  review: null,
  sheets: null,
  name: "",
  problems: {}, // by step
};
const STORE = "profilesmith";
let keep = false;

function remember() {
  try {
    const { recipes, clubFacts, answers } = state;
    if (keep) localStorage.setItem(STORE, JSON.stringify({ recipes, clubFacts, answers, language }));
    else localStorage.removeItem(STORE);
  } catch {
    keep = false; // a browser may forbid it
  }
}

function recall() {
  try {
    const kept = JSON.parse(localStorage.getItem(STORE) || "null");
    if (!kept) return;
    keep = true;
    Object.assign(state, { recipes: kept.recipes || [], clubFacts: kept.clubFacts || [], answers: kept.answers || {} });
    if (WORDS[kept.language]) language = kept.language;
  } catch {
    keep = false;
  }
}

// ---- 1. the text
const filesOf = (list) => Promise.all([...list].map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })));
const isLedger = (name) => name.endsWith(".ledger.json");

// A place to drop files or to choose them. take([{name, bytes}]) is given them all.
function dropPlace(id, words, more, take, wide = true) {
  const input = el("input", { type: "file", id, multiple: true, onchange: async (event) => take(await filesOf(event.target.files)) });
  const label = el("label", { class: wide ? "button main" : "button", for: id }, words);
  if (!wide) return el("span", { class: "drop small" }, label, input);
  const drop = el("div", {
    class: "drop",
    ondragover: (event) => (event.preventDefault(), drop.classList.add("over")),
    ondragleave: () => drop.classList.remove("over"),
    ondrop: async (event) => {
      event.preventDefault();
      drop.classList.remove("over");
      take(await filesOf(event.dataTransfer.files));
    },
  }, label, input, el("p", { class: "soft" }, more));
  return drop;
}

function drawText() {
  if (state.noText) return [el("p", {}, w("none_lead")), el("div", { class: "row" }, button(w("with_text"), () => withoutText(false)))];
  const paste = el("textarea", { id: "paste", "aria-label": w("paste_label"), spellcheck: "false" });
  const bytes = (text) => new TextEncoder().encode(text);
  const usePaste = () => paste.value.trim() && takeTexts([{ name: w("pasted_name"), bytes: bytes(paste.value) }]);
  if (state.texts.length) {
    const said = (at) => (state.info ? w("read_as", state.info.texts[at]) : w("soon"));
    return [
      el("ul", { class: "texts" }, state.texts.map((item, at) => el("li", {},
        el("span", {}, el("b", { class: "name" }, item.name), el("small", {}, said(at))),
        state.texts.length > 1 ? named(button(w("leave_out"), () => leaveOut(at), "plain"), `${w("leave_out")}: ${item.name}`) : null))),
      el("div", { class: "row" },
        button(w("other_text"), () => takeTexts([])),
        dropPlace("more-files", w("add_text"), "", (found) => takeTexts([...state.texts, ...found]), false)),
      el("p", { class: "soft" }, w("add_text_why")),
    ];
  }
  return [
    el("p", {}, w("text_lead")),
    dropPlace("text-file", w("choose"), w("drop"), takeTexts),
    el("div", { class: "row" },
      LIBRARY.example ? button(w("example"), () => takeTexts([{ name: LIBRARY.example.name, bytes: bytes(LIBRARY.example.text) }])) : null,
      button(w("none"), () => withoutText(true), "plain")),
    el("details", {}, el("summary", {}, w("paste")), paste, el("div", { class: "row" }, button(w("use_paste"), usePaste))),
  ];
}

// ---- 2. what was read
function drawReading() {
  const info = state.info;
  if (!info) return el("p", { class: "soft" }, w("no_text_yet"));
  const choices = info.fits.slice(0, 3).map((fit) => [fit.word, w("map_known", { map: mapName(fit.word), ...fit }), ""]);
  choices.push(["new", w("map_new"), ""]);
  if (state.ownMap) choices.push(["own", state.ownMap.name, ""]);
  const radios = choices.map(([word, words]) =>
    el("label", { class: "choice" },
      el("input", { type: "radio", name: "map", id: `map-${word}`, checked: state.map === word, onchange: () => useMap(word, true) }),
      el("span", {}, words)),
  );
  const own = el("label", { class: "button file" }, w("map_own"),
    el("input", { type: "file", id: "map-file", accept: ".toml", "aria-label": w("map_file"), onchange: (event) => takeMap(event.target.files[0]) }));
  return [
    el("fieldset", {}, el("legend", {}, w("map_lead")), radios, el("div", { class: "row" }, own)),
    state.map === "new" ? drawProposals() : null,
    drawValues(),
  ];
}

const nameOf = (setting) => (state.offer.names[language] || {})[setting] || state.offer.names.en[setting] || setting;
const mapName = (word) => (state.offer.maps.find((item) => item.word === word) || { name: word }).name;

function drawProposals() {
  const found = state.proposals;
  if (!found) return null;
  const open = found.check.filter((item) => state.said[item.setting] === undefined);
  const taken = found.check.filter((item) => ![undefined, false, "later"].includes(state.said[item.setting])).length;
  const parts = [el("p", {}, w("sure", { count: found.sure.length }))];
  if (found.check.length && open.length) parts.push(el("p", {}, w("to_check", { count: found.check.length })), drawAsked(found, open[0]), drawList(found, open));
  else if (found.check.length) {
    parts.push(
      el("p", {}, w("all_checked", { taken, left: found.check.length - taken })),
      button(w("look_again"), () => ((state.said = {}), answerMap()), "plain"),
    );
  }
  if (state.mapBytes) {
    parts.push(el("div", { class: "row" },
      button(w("save_map"), () => save(`${stem(state.texts[0].name)}.toml`, state.mapBytes, "application/toml")),
      el("span", { class: "soft" }, w("save_map_why"))));
  }
  return parts;
}

// All that is to be looked at on one list, for who knows the text well.
let listOpen = false;
function drawList(found, open) {
  const rows = found.check.map((item) => {
    const id = `take-${item.setting.replaceAll(".", "-")}`;
    const tick = (event) => ((state.said[item.setting] = event.target.checked), answerMap());
    return el("li", {},
      el("input", { type: "checkbox", id, checked: ![undefined, false, "later"].includes(state.said[item.setting]), onchange: tick }),
      el("label", { for: id }, nameOf(item.setting)), el("b", {}, item.value),
      el("span", { class: "soft" }, item.others.length ? drawLines(item) : `${item.line}: ${item.key} = ${item.text}`));
  });
  const all = () => (open.forEach((item) => (state.said[item.setting] = true)), answerMap("asked"));
  const fold = el("details", { open: listOpen, id: "list" }, el("summary", {}, w("as_list", { count: found.check.length })),
    el("ul", { class: "list" }, rows),
    el("div", { class: "row" }, button(w("take_all", { count: open.length }), all), el("span", { class: "soft" }, w("take_all_why"))));
  fold.addEventListener("toggle", () => (listOpen = fold.open));
  return fold;
}

// Which line it is, where several could be it.
function drawLines(item) {
  const lines = [item, ...item.others.map((other) => ({ ...other, key: other.name }))];
  const now = typeof state.said[item.setting] === "number" ? state.said[item.setting] + 1 : 0;
  return el("select", { id: `line-${item.setting.replaceAll(".", "-")}`, "aria-label": `${nameOf(item.setting)}: ${w("column_line")}`,
    onchange: (event) => ((state.said[item.setting] = Number(event.target.value) ? Number(event.target.value) - 1 : true), answerMap()) },
    lines.map((line, at) => el("option", { value: at, selected: at === now }, `${line.line}: ${line.key} = ${line.text}`)));
}

function drawAsked(found, item) {
  const say = (answer) => () => ((state.said[item.setting] = answer), answerMap("asked"));
  const lines = item.around.map((line) => {
    const text = `${String(line.line).padStart(5)}  ${line.text}\n`;
    return line.line === item.line ? el("b", {}, text) : el("span", {}, text);
  });
  const number = found.check.indexOf(item) + 1;
  return el("div", { class: "asked", role: "group", "aria-labelledby": "asked", id: "asked-box" },
    el("p", { class: "soft" }, w("of", { number, all: found.check.length }), state.texts.length > 1 ? ` · ${item.file}` : ""),
    el("h3", { id: "asked", tabindex: "-1" }, nameOf(item.setting)),
    el("p", {}, `${capital(item.meaning)}.`),
    el("pre", { tabindex: "0", "aria-label": w("column_line") }, lines),
    el("p", {}, w("would_read", { value: item.value }), " ", item.reasons.length ? w("because", { reasons: item.reasons.join("; ") }) : ""),
    item.doubts.map((doubt) => el("p", { class: "soft" }, doubt)),
    el("div", { class: "row" }, button(w("yes"), say(true), "main"), button(w("no"), say(false)), button(w("later"), say("later"), "plain")),
    item.others.length
      ? el("div", { class: "row" }, el("span", { class: "soft" }, w("instead")),
        item.others.map((other, at) => button(`${other.name} = ${other.text}`, say(at))))
      : null);
}

function drawValues() {
  const read = state.reading;
  if (!read) return null;
  const odd = read.values.filter((item) => item.odd);
  const rows = (items) => items.map((item) =>
    el("tr", {}, el("td", {}, nameOf(item.setting)), el("td", {}, item.value), el("td", { class: "soft" }, `${state.texts.length > 1 ? `${item.file}:` : ""}${item.line}: ${item.key} = ${item.text}`)));
  const table = (items, label) => el("div", { class: "table", tabindex: "0", role: "region", "aria-label": label }, el("table", {},
    el("thead", {}, el("tr", {}, ["column_setting", "column_value", "column_line"].map((key) => el("th", { scope: "col" }, w(key))))),
    el("tbody", {}, rows(items))));
  return [
    el("p", { class: "headline" }, w("read_count", { count: read.values.length, map: read.map })),
    read.problems.length ? problems(read.problems) : null,
    odd.length ? el("div", { class: "alarm" }, el("p", {}, w("read_odd")), table(odd, w("read_odd"))) : null,
    read.unknown ? el("p", { class: "soft" }, w("read_unknown", { count: read.unknown })) : null,
    el("details", {}, el("summary", {}, w("read_all")), table(read.values, w("read_all"))),
  ];
}
