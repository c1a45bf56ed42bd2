// The road: what was chosen and said so far, and the six steps that show it. Each step is drawn from the state alone.
const state = {
  offer: null, // what the library offers, from the engine
  text: null, // {name, bytes, info}
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
function drawText() {
  const chosen = async (file) => file && takeText(file.name, new Uint8Array(await file.arrayBuffer()));
  const input = el("input", { type: "file", id: "text-file", onchange: (event) => chosen(event.target.files[0]) });
  const drop = el(
    "div",
    {
      class: "drop",
      ondragover: (event) => (event.preventDefault(), drop.classList.add("over")),
      ondragleave: () => drop.classList.remove("over"),
      ondrop: (event) => (event.preventDefault(), drop.classList.remove("over"), chosen(event.dataTransfer.files[0])),
    },
    el("label", { class: "button main", for: "text-file" }, w("choose")),
    input,
    el("p", { class: "soft" }, w("drop")),
  );
  const paste = el("textarea", { id: "paste", "aria-label": w("paste_label"), spellcheck: "false" });
  const usePaste = () => paste.value.trim() && takeText(w("pasted_name"), new TextEncoder().encode(paste.value));
  if (state.noText) return [el("p", {}, w("none_lead")), el("div", { class: "row" }, button(w("with_text"), () => withoutText(false)))];
  return [
    el("p", {}, w("text_lead")),
    drop,
    el("div", { class: "row" },
      LIBRARY.example ? button(w("example"), () => takeText(LIBRARY.example.name, new TextEncoder().encode(LIBRARY.example.text))) : null,
      button(w("none"), () => withoutText(true), "plain")),
    el("details", {}, el("summary", {}, w("paste")), paste, el("div", { class: "row" }, button(w("use_paste"), usePaste))),
    state.text && state.text.info ? el("p", { class: "headline" }, w("read_as", { name: state.text.name, ...state.text.info })) : null,
  ];
}

// ---- 2. what was read
function drawReading() {
  const info = state.text && state.text.info;
  if (!info) return null;
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

const mapName = (word) => (state.offer.maps.find((item) => item.word === word) || { name: word }).name;

function drawProposals() {
  const found = state.proposals;
  if (!found) return null;
  const open = found.check.filter((item) => state.said[item.setting] === undefined);
  const taken = found.check.filter((item) => ![undefined, false, "later"].includes(state.said[item.setting])).length;
  const parts = [el("p", {}, w("sure", { count: found.sure.length }))];
  if (found.check.length && open.length) parts.push(el("p", {}, w("to_check", { count: found.check.length })), drawAsked(found, open[0]));
  else if (found.check.length) {
    parts.push(
      el("p", {}, w("all_checked", { taken, left: found.check.length - taken })),
      button(w("look_again"), () => ((state.said = {}), answerMap()), "plain"),
    );
  }
  if (state.mapBytes) {
    parts.push(el("div", { class: "row" },
      button(w("save_map"), () => save(`${state.text.name.replace(/\.[^.]*$/, "")}.toml`, state.mapBytes, "application/toml")),
      el("span", { class: "soft" }, w("save_map_why"))));
  }
  return parts;
}

function drawAsked(found, item) {
  const say = (answer) => () => ((state.said[item.setting] = answer), answerMap("asked"));
  const lines = item.around.map((line) => {
    const text = `${String(line.line).padStart(5)}  ${line.text}\n`;
    return line.line === item.line ? el("b", {}, text) : el("span", {}, text);
  });
  const number = found.check.indexOf(item) + 1;
  return el("div", { class: "asked", role: "group", "aria-labelledby": "asked", id: "asked-box" },
    el("p", { class: "soft" }, w("of", { number, all: found.check.length })),
    el("h3", { id: "asked", tabindex: "-1" }, item.name),
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
    el("tr", {}, el("td", {}, item.name), el("td", {}, item.value), el("td", { class: "soft" }, `${item.line}: ${item.key} = ${item.text}`)));
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

// ---- 3. what is wanted, and what is known
function drawWanted() {
  if (!state.offer) return null;
  const boxes = state.offer.recipes.map((item) => {
    const words = item.from && item.to ? w("from_to", item) : "";
    return el("label", { class: "choice" },
      el("input", { type: "checkbox", id: `recipe-${item.word}`, checked: state.recipes.includes(item.word), onchange: (event) => chooseRecipe(item.word, event.target.checked) }),
      el("span", {}, el("b", {}, item.title), el("small", {}, [item.name, item.version].join(" "), words ? `, ${words}` : "", `, ${w("rules", { count: item.rules })}`,
        item.goes_with.length ? `. ${w("goes_with", { names: item.goes_with.join(", ") })}` : "")));
  });
  const chosen = state.offer.recipes.filter((item) => state.recipes.includes(item.word));
  const cautions = [...new Set(chosen.flatMap((item) => item.cautions))];
  return [
    el("fieldset", {}, el("legend", {}, w("recipes_lead")), boxes),
    cautions.length ? el("details", {}, el("summary", {}, `${w("cautions")} (${cautions.length})`), el("ul", {}, cautions.map((text) => el("li", {}, text)))) : null,
    el("p", { class: "known" }, w("facts_lead")),
    state.offer.facts.length && !state.noText ? drawClubFacts() : null,
    ["spool", "machine", "part"].map(drawSubject),
    el("label", { class: "choice" },
      el("input", { type: "checkbox", id: "keep", checked: keep, onchange: (event) => ((keep = event.target.checked), remember()) }),
      el("span", {}, el("b", {}, w("keep")), el("small", {}, w("keep_why")))),
  ];
}

function drawClubFacts() {
  return el("fieldset", {}, el("legend", {}, w("club_facts")), state.offer.facts.map((item) =>
    el("label", { class: "choice" },
      el("input", { type: "checkbox", id: `facts-${item.word}`, checked: state.clubFacts.includes(item.word), onchange: (event) => {
        state.clubFacts = event.target.checked ? [...state.clubFacts, item.word] : state.clubFacts.filter((word) => word !== item.word);
        changed();
      } }),
      el("span", {}, el("b", {}, item.word), el("small", {}, Object.values(item.facts).join(" · "))))));
}

const openFolds = new Set(["spool"]);
const answer = (name) => (text) => {
  if (text) state.answers[name] = text;
  else delete state.answers[name];
  changed();
};

function drawSubject(subject) {
  const kinds = state.offer.kinds.filter((kind) => kind.name.startsWith(`${subject}.`));
  const fields = kinds.map((kind) => field(kind, state.answers[kind.name] || "", answer(kind.name), state.wrong[kind.name], capital(kind.name.split(".")[1].replaceAll("_", " "))));
  const count = kinds.filter((kind) => state.answers[kind.name]).length;
  const fold = el("details", { open: openFolds.has(subject), id: `known-${subject}` },
    el("summary", {}, el("h3", {}, w(subject)), count ? ` (${count})` : ""), el("div", { class: "fields" }, fields));
  fold.addEventListener("toggle", () => (fold.open ? openFolds.add(subject) : openFolds.delete(subject)));
  return fold;
}

const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

// ---- 4. questions
const clubSays = (name) => state.clubFacts.map((word) => state.offer.facts.find((item) => item.word === word).facts[name]).find(Boolean);
const isOpen = (item) => !item.default && !state.answers[item.name] && !clubSays(item.name);

function drawQuestions() {
  if (!state.recipes.length) return el("p", { class: "soft" }, w("no_recipe"));
  if (!state.questions.length) return el("p", {}, w("no_questions"));
  const items = state.questions.map((item) => {
    const told = state.answers[item.name] || "";
    const known = clubSays(item.name);
    const asked = { ...item, name: `q.${item.name}` };
    return el("div", { class: "question" },
      field(asked, told, answer(item.name), state.wrong[item.name], item.ask),
      isOpen(item) ? el("p", {}, el("span", { class: "badge" }, w("unknown"))) : null,
      item.default && !told && !known ? el("p", { class: "soft" }, w("default", { default: item.default })) : null,
      known && !told ? el("p", { class: "soft" }, `${w("club_facts")}: ${known}`) : null,
      el("details", {}, el("summary", { class: "soft" }, w("why")), item.reasons.map((text) => el("p", {}, text)),
        el("p", { class: "soft" }, w("decides", { settings: item.settings.join(", ") }))));
  });
  return [el("p", {}, w("questions_lead")), items];
}

// ---- 5. the review
function drawReview() {
  if (state.noText && state.sheets) return [el("p", {}, w("sheets_lead")), state.sheets.files.map((raw, at) => frame(raw, state.sheets.names[at]))];
  if (!state.outcome) return el("p", { class: "soft" }, w("nothing_yet"));
  const found = state.outcome;
  return [
    el("p", { class: "headline", role: "status" }, capital(found.headline)),
    el("p", { class: "soft" }, w("review_lead")),
    found.conflicts.length ? problems(found.conflicts, w("conflict")) : null,
    found.literals || state.follow
      ? el("label", { class: "choice" },
        el("input", { type: "checkbox", id: "follow", checked: state.follow, onchange: (event) => ((state.follow = event.target.checked), changed()) }),
        el("span", {}, el("b", {}, w("follow")), el("small", {}, w("follow_why"))))
      : null,
    frame(state.review, w("review_frame")),
  ];
}

// ---- 6. take along
function drawTake() {
  if (state.noText) {
    if (!state.sheets) return el("p", { class: "soft" }, w("no_recipe"));
    return el("ul", { class: "files" }, state.sheets.names.map((name, at) => file(name, w("file_checklist"), state.sheets.files[at], "text/html")));
  }
  if (!state.outcome) return el("p", { class: "soft" }, w("nothing_yet"));
  const list = el("ul", { class: "files", id: "files" });
  return [
    el("p", {}, w("take_lead")),
    el("div", { class: "field kind-text" }, el("label", { for: "out-name" }, w("name_label")),
      textBox("out-name", state.name, (event) => ((state.name = event.target.value.trim() || proposedName()), fill(list)))),
    (fill(list), list),
  ];
}

function file(name, words, raw, type, main = false) {
  const act = button(w("save"), () => save(name, raw, type), main ? "main" : "");
  act.setAttribute("aria-label", `${w("save")}: ${name}`);
  const acts = el("div", { class: "row" }, act);
  if (type === "text/markdown") {
    const copy = button(w("copy"), async () => {
      try {
        await navigator.clipboard.writeText(new TextDecoder().decode(raw));
        copy.textContent = w("copied");
      } catch {
        save(name, raw, type); // a page from a disk may not be allowed to
      }
    });
    copy.setAttribute("aria-label", `${w("copy")}: ${name}`);
    acts.append(copy);
  }
  return el("li", {}, el("div", {}, el("span", { class: "name" }, name), el("small", {}, `${words}, ${bytesIn(raw.length)}`)), acts);
}

const FILE_WORDS = [[".ledger.json", "file_ledger", "application/json"], ["-review.html", "file_review", "text/html"],
  ["-checklist.html", "file_checklist", "text/html"], ["-review.md", "file_markdown", "text/markdown"]];

async function fill(list) {
  const taken = await engine.call("take", { name: state.name });
  if (taken.refused) return list.replaceChildren(el("li", {}, problems(taken.refused)));
  list.replaceChildren(...taken.names.map((name, at) => {
    const [, key, type] = FILE_WORDS.find(([ending]) => name.endsWith(ending)) || ["", "file_text", "application/octet-stream"];
    return file(name, w(key), taken.files[at], type, at === 0);
  }));
}

function proposedName() {
  const [, stem, ending] = /^(.*?)(\.[^.]*)?$/.exec(state.text.name);
  return `${stem}-${state.recipes.join("-")}${ending || ""}`;
}
