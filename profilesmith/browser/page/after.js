// After the print: the derived text with its ledger, its review, what the print showed, the one change, the printer's file.
const after = {
  files: [], // {name, bytes}
  told: null, // what the engine says of them
  review: null,
  seen: {}, // trouble -> grade
  looks: {},
  did: [],
  last: "",
  restGood: false,
  sought: "",
  advice: null,
  name: "",
  words: null, // a words map, {name, text}
  motion: null, // {name, headline, alarming, page}
  problems: {},
};
const MOST_BYTES = 100_000_000; // of a motion file
const PIECE = 262_144;
const AFTER_STEPS = [
  ["files", "after1", drawFiles, () => after.told && !after.told.missing.length],
  ["again", "after2", drawAgain, () => after.review],
  ["seen", "after3", drawSeen, () => after.advice],
  ["change", "after4", drawChange, () => false],
  ["motion", "after5", drawMotion, () => after.motion],
];

// ---- 1. the files
function drawFiles() {
  const told = after.told;
  const needs = told ? [
    ...told.missing.map((name) => w("wants_text", { name })),
    ...(told.map ? [w("wants_map", { name: told.map })] : []),
    ...(told.bases.length ? [w("wants_base", { name: told.bases.join(", ") })] : []),
  ] : [];
  return [
    el("p", {}, w("files_lead")),
    after.files.length
      ? el("ul", { class: "texts" }, after.files.map((file) => el("li", {}, el("span", {}, el("b", { class: "name" }, file.name), el("small", {}, bytesIn(file.bytes.length))),
        named(button(w("leave_out"), () => takeLaid(after.files.filter((other) => other !== file)), "plain"), `${w("leave_out")}: ${file.name}`))))
      : null,
    dropPlace("laid-files", w("choose_files"), w("drop"), (found) => takeLaid([...after.files, ...found])),
    state.outcome && state.outcome.writes && !after.files.length ? el("div", { class: "row" }, button(w("of_this_visit"), afterThis)) : null,
    needs.length ? el("div", { class: "asked", id: "needs" }, el("p", {}, w("wants")), el("ul", {}, needs.map((text) => el("li", {}, text)))) : null,
  ];
}

async function takeLaid(files) {
  fault();
  const byName = new Map(files.map((file) => [`${file.name}\n${file.bytes.length}`, file]));
  after.files = [...byName.values()];
  Object.assign(after, { told: null, review: null, advice: null, problems: {} });
  draw(...AFTER_STEPS.map(([name]) => name));
  if (began && after.files.length) await openLaid(true);
}

async function openLaid(follow) {
  const told = await engine.call("open", { names: after.files.map((file) => file.name) }, after.files.map((file) => file.bytes.slice().buffer));
  if (!state.offer.troubles) Object.assign(state.offer, await engine.call("troubles"));
  after.problems.files = told.refused;
  after.told = told.refused ? null : told;
  after.review = told.refused ? null : told.files[0] || null;
  after.name = after.told ? told.proposed : "";
  draw("files", "again", "seen", "change");
  if (follow) go(after.review ? "again" : "files");
  if (after.review) await advise();
}

// What this visit has made, as if it had been saved and chosen again.
async function afterThis() {
  const taken = await engine.call("take", { name: state.name });
  const all = taken.names.map((name, at) => ({ name, bytes: taken.files[at] }));
  const kept = all.filter(({ name }, at) => at <= state.texts.length || name.endsWith(".toml"));
  await setRoad("after");
  await takeLaid([...kept, ...state.texts]);
}

// ---- 2. the review as the files stand
function drawAgain() {
  if (!after.review) return el("p", { class: "soft" }, w("no_files_yet"));
  const told = after.told;
  return [
    el("p", { class: "headline", role: "status" }, capital(told.headline)),
    el("p", { class: "soft" }, told.edited.length ? w("edited", { count: told.edited.length }) : w("not_edited")),
    frame(after.review, w("review_frame")),
  ];
}

// ---- 3. what the print showed
const calls = (item) => [item.name, ...Object.values(item.words).flat()];
const folded = (text) => text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "").replace(/ß/g, "ss");
const callsIt = (item) => (item.words[language] && language !== "en" ? item.words[language][0] : item.name) || item.name;
const trouble = (name) => state.offer.troubles.find((item) => item.name === name);

function drawSeen() {
  if (!after.review || !state.offer.troubles) return el("p", { class: "soft" }, w("no_files_yet"));
  const box = textBox("sought", after.sought, () => {}, { "aria-describedby": "sought-hint" });
  const list = el("div", { class: "chips", id: "chips" });
  const fillList = () => {
    after.sought = box.value;
    const wanted = folded(box.value.trim());
    const found = state.offer.troubles.filter((item) => !(item.name in after.seen) && calls(item).some((word) => folded(word).includes(wanted)));
    list.replaceChildren(...(found.length ? found.map((item) => Object.assign(button(callsIt(item), () => see(item.name, "poor")), { title: item.looks })) : [el("p", { class: "soft" }, w("none_called"))]));
  };
  box.addEventListener("input", fillList);
  fillList();
  const seen = Object.keys(after.seen);
  return [
    el("p", {}, w("seen_lead")),
    seen.length ? el("div", { class: "seen" }, seen.map(drawGrade)) : null,
    el("div", { class: "field kind-text" }, el("label", { for: "sought" }, seen.length ? w("sought_more") : w("sought")), box, el("small", { id: "sought-hint", class: "soft" }, w("sought_hint"))),
    list,
    seen.length ? el("label", { class: "choice" },
      el("input", { type: "checkbox", id: "rest-good", checked: after.restGood, onchange: (event) => ((after.restGood = event.target.checked), advise()) }),
      el("span", {}, w("rest_good"))) : null,
    after.told.road ? drawLast() : null,
    state.offer.doings.length ? el("details", { open: after.did.length > 0 }, el("summary", {}, w("did_lead")), state.offer.doings.map((item) =>
      el("label", { class: "choice" },
        el("input", { type: "checkbox", checked: after.did.includes(item.name), onchange: (event) => didIt(item.name, event.target.checked) }),
        el("span", {}, el("b", {}, capital(item.name)), el("small", {}, item.how))))) : null,
  ];
}

function drawGrade(name) {
  const item = trouble(name);
  const id = `grade-${name.replaceAll(" ", "-")}`;
  return el("fieldset", { class: "grade", id, tabindex: "-1" }, el("legend", {}, capital(callsIt(item))), el("small", {}, item.looks),
    el("div", { class: "row" },
      ["poor", "fair", "good"].map((grade) => el("label", { class: "pick" },
        el("input", { type: "radio", name: id, value: grade, checked: after.seen[name] === grade, onchange: () => see(name, grade) }), w(`grade_${grade}`))),
      named(button(w("leave_out"), () => see(name, ""), "plain"), `${w("leave_out")}: ${callsIt(item)}`)));
}

function drawLast() {
  return el("fieldset", {}, el("legend", {}, w("last_lead")), el("div", { class: "row" },
    ["better", "same", "worse"].map((word) => el("label", { class: "pick" },
      el("input", { type: "radio", name: "last", value: word, checked: after.last === word, onchange: () => ((after.last = word), advise()) }), w(`last_${word}`))),
    button(w("undo"), undoMend, "plain")));
}

async function see(name, grade) {
  const isNew = !(name in after.seen);
  after.sought = "";
  if (grade) after.seen[name] = grade;
  else delete after.seen[name];
  draw("seen");
  if (isNew) document.getElementById(`grade-${name.replaceAll(" ", "-")}`).focus({ preventScroll: true });
  else if (!grade) document.getElementById("sought").focus({ preventScroll: true });
  await advise();
}

async function didIt(name, on) {
  after.did = on ? [...after.did, name] : after.did.filter((item) => item !== name);
  await advise();
  draw("seen");
}

const today = () => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
};
const said = () => ({ seen: after.seen, looks: after.looks, did: after.did, last: after.last, rest_good: after.restGood, date: today() });

async function advise() {
  const asks = Object.keys(after.seen).length || after.last;
  const told = asks && after.review ? await engine.call("advise", said()) : null;
  after.problems.change = told && told.refused;
  after.advice = told && !told.refused ? told : null;
  draw("change");
}

async function undoMend() {
  const told = await engine.call("undo", said());
  after.problems.change = told.refused;
  after.advice = told.refused ? null : { doings: [], changes: [], later: [], look: null, writes: true, undone: true };
  draw("change");
  go("change");
}

// ---- 4. the one change
function drawChange() {
  const told = after.advice;
  if (!told) return after.problems.change ? null : el("p", { class: "soft" }, w("nothing_seen"));
  const nothing = !told.undone && !told.changes.length && !told.doings.length;
  const list = el("ul", { class: "files", id: "mended-files" });
  return [
    told.undone ? el("p", { class: "headline" }, w("undone")) : null,
    nothing ? el("p", {}, Object.values(told.seen).every((grade) => grade === "good") ? w("all_good") : w("nothing_helps")) : null,
    told.again ? el("p", {}, w("print_again")) : null,
    told.little ? el("p", { class: "soft" }, w("little_speaks")) : null,
    told.doings.map((item) => el("div", { class: "advice do" },
      el("p", { class: "soft" }, w("before_settings")), el("h3", {}, capital(item.name)), el("p", {}, item.how), reason(item),
      item.caution ? el("p", { class: "care" }, item.caution) : null,
      el("div", { class: "row" }, button(w("was_done"), () => didIt(item.name, true))))),
    told.changes.map((item) => el("div", { class: "advice" },
      el("p", { class: "soft" }, told.doings.length ? w("then_change") : w("change")),
      item.moves.map((move) => el("h3", { class: "move" }, el("span", {}, nameOf(move.setting)), " ", el("span", { class: "from" }, move.before), el("span", { class: "to", "aria-hidden": "true" }, " → "), el("span", { class: "sr" }, ` ${w("to")} `), el("span", { class: "now" }, move.after))),
      reason(item), item.why ? null : el("p", {}, w("taken_back")),
      item.moves.filter((move) => move.ends.length).map((move) => el("p", { class: "soft" }, w("ends", { name: nameOf(move.setting), low: move.ends[0], high: move.ends[1] }))),
      item.cautions.map((text) => el("p", { class: "care" }, text)),
      item.trouble ? el("p", {}, w("look_at", { name: callsIt(trouble(item.trouble) || { name: item.trouble, words: {} }), looks: item.looks })) : null)),
    told.look ? el("fieldset", { class: "question" }, el("legend", {}, told.look.ask), el("p", { class: "soft" }, w("look_why")), el("div", { class: "row" },
      button(w("look_yes"), () => looked(told.look.name, true)), button(w("look_no"), () => looked(told.look.name, false)))) : null,
    told.later.length ? el("p", { class: "soft" }, `${w("later_lead")} ${told.later.join(" · ")}`) : null,
    told.writes ? [
      el("p", {}, w("mended_lead")),
      after.told.outputs.length > 1
        ? el("p", {}, w("own_folder"))
        : el("div", { class: "field kind-text" }, el("label", { for: "mended-name" }, w("name_label")),
          textBox("mended-name", after.name, (event) => ((after.name = event.target.value.trim() || after.told.proposed), fill(list, "take_mended", after.name)))),
      (fill(list, "take_mended", after.name), list),
    ] : null,
  ];
}

function reason(item) {
  if (!item.why) return null;
  return [el("p", {}, item.why, " ", el("span", { class: "soft" }, `[${item.source}]`)), item.costs ? el("p", { class: "soft" }, w("costs", { costs: item.costs })) : null];
}

async function looked(name, answer) {
  after.looks[name] = answer;
  await advise();
  go("change");
}

// ---- 5. the printer's file
function drawMotion() {
  const found = after.motion;
  return [
    el("p", {}, after.told ? w("motion_lead", { name: after.told.name }) : w("motion_alone")),
    dropPlace("motion-file", w("choose_motion"), w("drop"), takeMotion),
    el("details", { open: Boolean(after.words) }, el("summary", {}, w("words_map")), el("p", { class: "soft" }, w("words_map_why")), after.words ? el("p", {}, after.words.name) : null,
      el("div", { class: "row" }, dropPlace("words-file", w("choose_words"), "", takeWords, false))),
    found ? [el("p", { class: found.alarming ? "headline care" : "headline", role: "status" }, capital(found.headline)), frame(found.files[0], w("motion_frame", { name: found.name }))] : null,
  ];
}

async function takeWords(found) {
  if (!found.length) return;
  after.words = { name: found[0].name, text: new TextDecoder().decode(found[0].bytes) };
  draw("motion");
  if (after.motionFile) await takeMotion([after.motionFile]);
}

async function takeMotion(found) {
  if (!found.length) return;
  const file = found[0];
  after.motionFile = file;
  after.motion = null;
  after.problems.motion = file.bytes.length > MOST_BYTES ? [{ message: w("too_large"), place: file.name }] : null;
  if (!after.problems.motion) {
    const pieces = [];
    for (let at = 0; at < file.bytes.length; at += PIECE) pieces.push(file.bytes.slice(at, at + PIECE).buffer);
    const told = await engine.call("motion", { name: file.name, words: after.words ? after.words.text : "" }, pieces);
    after.problems.motion = told.refused;
    after.motion = told.refused ? null : { ...told, name: file.name };
  }
  draw("motion");
  go("motion");
}
