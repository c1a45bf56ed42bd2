// What happens: a text is taken, a map used, a recipe chosen, an answer changed. Each ends in drawing what it touched.
const NEW_STEPS = [
  ["text", "step1", drawText, () => state.info || state.noText],
  ["reading", "step2", drawReading, () => state.reading],
  ["wanted", "step3", drawWanted, () => state.recipes.length],
  ["questions", "step4", drawQuestions, () => state.recipes.length && !state.questions.some(isOpen)],
  ["review", "step5", drawReview, () => state.outcome || state.sheets],
  ["take", "step6", drawTake, () => false],
];
const steps = () => (state.road === "new" ? NEW_STEPS : AFTER_STEPS);
const troubled = (name) => (state.road === "new" ? state.problems : after.problems)[name];
const bodies = {};
let engine;
let began = false;
let turn = 0;

function draw(...names) {
  const before = document.activeElement;
  const focused = before && before.id;
  const typed = before && before.type === "text" ? [before.value, before.selectionStart, before.selectionEnd] : null;
  for (const [name, , make] of steps()) {
    if (!names.includes(name)) continue;
    const wrong = troubled(name);
    bodies[name].replaceChildren(...[wrong ? problems(wrong) : null, make()].flat(9).filter(Boolean));
    if (name === "reading") bodies[name].parentNode.hidden = state.noText;
    bodies[name].parentNode.classList.toggle("off", bodies[name].childNodes.length === 1 && bodies[name].firstChild.className === "soft");
  }
  const again = focused && !document.activeElement.id && document.getElementById(focused);
  if (again) {
    if (typed && again.type === "text") {
      again.value = typed[0]; // what was typed meanwhile is not lost
      again.setSelectionRange(typed[1], typed[2]);
    }
    again.focus({ preventScroll: true });
  }
  drawSteps();
}

function drawSteps() {
  const next = steps().find(([name, , , done]) => !done() && !(state.noText && name === "reading"));
  for (const [name, , , done] of steps()) {
    const item = document.getElementById(`go-${name}`);
    item.parentNode.className = done() ? "done" : "";
    item.parentNode.hidden = state.noText && name === "reading";
    if (next && next[0] === name) item.setAttribute("aria-current", "step");
    else item.removeAttribute("aria-current");
  }
}

function go(name) {
  const head = document.getElementById(`head-${name}`);
  head.focus({ preventScroll: true });
  head.scrollIntoView();
}

// ---- the engine's state, told
function tell(message) {
  const line = document.getElementById("state");
  const words = document.getElementById("state-words");
  const bar = document.getElementById("state-bar");
  const cancel = document.getElementById("state-cancel");
  const again = document.getElementById("state-again");
  line.dataset.step = message.step;
  clearTimeout(tell.soon);
  const say = (text, progress, stop = false, anew = false) => {
    words.textContent = text;
    bar.hidden = progress === null;
    if (progress !== null && progress !== undefined) bar.value = progress;
    else bar.removeAttribute("value");
    cancel.hidden = !stop;
    again.hidden = !anew;
  };
  const all = ABOUT.megabytes;
  if (message.step === "unpack" && message.part === 3) say(w("starting"), 0.6, true);
  else if (message.step === "unpack") say(w("loading", { done: ((all * message.part) / 3).toFixed(1), all: all.toFixed(1) }), message.part / 5, true);
  else if (message.step === "engine") say(w("library"), 0.85, true);
  else if (message.step === "ready") say(w("ready"), null);
  else if (message.step === "idle") say(w("ready"), null);
  else if (message.step === "busy") tell.soon = setTimeout(() => say(w("busy"), undefined, true), 300);
  else if (message.step === "slow") say(w("slow"), undefined, true, true);
  else if (message.step === "cannot") say(w("cannot"), null);
  else if (message.step === "cancelled") say(w("cancelled"), null, false, true);
  else if (message.step === "fatal") {
    fault(w("fatal", { reason: message.reason.slice(0, 200) }));
    say("", null, false, true);
    tell.faults = (tell.faults || 0) + 1;
    if (tell.faults < 3) begin();
  }
}

// What went wrong stands there until the person goes on.
function fault(text = "") {
  document.getElementById("fault").replaceChildren(...(text ? [el("p", { class: "alarm", role: "alert" }, text)] : []));
}

async function begin() {
  began = false;
  await engine.start();
  if (!engine.ready) return;
  await engine.ready;
  const { recipes, maps, facts, troubles } = LIBRARY;
  state.offer = await engine.call("begin", { recipes, maps, facts, troubles });
  state.recipes = state.recipes.filter((word) => state.offer.recipes.some((item) => item.word === word));
  state.clubFacts = state.clubFacts.filter((word) => state.offer.facts.some((item) => item.word === word));
  began = true;
  await learnNames();
  if (state.road === "new") draw("wanted");
  if (state.texts.length) await readTexts(false);
  else await changed();
  if (after.files.length) await openLaid(false);
  document.documentElement.dataset.ready = "1";
  engine.call("warm"); // while somebody looks for their file
}

// What people call the settings in the page's language.
async function learnNames() {
  if (began && !state.offer.names[language]) state.offer.names[language] = (await engine.call("names", { language })).names;
}

function cancel() {
  engine.end();
  tell({ step: "cancelled" });
}

// ---- what a person does
async function takeTexts(found) {
  fault();
  if (found.some((file) => isLedger(file.name))) {
    await setRoad("after");
    return takeLaid(found);
  }
  const byName = new Map(found.map((file) => [file.name, file]));
  const added = byName.size > state.texts.length && state.texts.length > 0;
  Object.assign(state, { texts: [...byName.values()], info: null, noText: false, reading: null, proposals: null, said: {}, outcome: null, review: null, name: "" });
  if (!added) state.map = "";
  draw("text", "reading", "review", "take");
  if (!state.texts.length) document.getElementById("text-file").focus();
  else if (began) await readTexts(true);
}

const leaveOut = (at) => takeTexts(state.texts.filter((_, number) => number !== at));

async function readTexts(follow) {
  const read = await engine.call("read", { names: state.texts.map((file) => file.name) }, state.texts.map((file) => file.bytes.slice().buffer));
  state.problems.text = read.refused;
  if (read.refused) {
    state.texts = [];
    return draw("text", "reading", "review", "take");
  }
  state.info = read;
  const best = read.fits[0];
  const fits = best && best.known >= 5 && best.known * 2 >= best.of && !best.wrong;
  await useMap(state.map || (fits ? best.word : "new"));
  draw("text");
  if (follow && state.road === "new") go("reading");
}

async function useMap(word, again = false) {
  state.map = word;
  state.problems.reading = null;
  if (word === "new") {
    if (!state.proposals) {
      const found = await engine.call("suggest");
      if (found.refused) return noMap(found.refused);
      state.proposals = found;
    }
    return answerMap();
  }
  const own = word === "own" ? state.ownMap : null;
  const read = await engine.call("use", own ? { name: own.name } : { word }, own ? [own.bytes.slice().buffer] : []);
  if (read.refused) return noMap(read.refused);
  state.reading = read;
  state.mapBytes = read.files[0];
  draw("reading");
  if (again) document.getElementById(`map-${word}`).focus({ preventScroll: true });
  return changed();
}

function noMap(refused) {
  state.problems.reading = refused;
  state.reading = null;
  state.outcome = null;
  draw("reading", "review", "take");
}

async function takeMap(chosen) {
  if (!chosen) return;
  state.ownMap = { name: chosen.name, bytes: new Uint8Array(await chosen.arrayBuffer()) };
  await useMap("own");
}

// asked: focus goes to the next question, or back to the step's head when all were looked at
async function answerMap(asked = "") {
  const answers = Object.fromEntries(Object.entries(state.said).filter(([, said]) => said !== "later"));
  const read = await engine.call("answer", { answers });
  if (read.refused) return noMap(read.refused);
  state.reading = read;
  state.mapBytes = read.files[0];
  draw("reading");
  if (asked) (document.getElementById("asked") || document.getElementById("head-reading")).focus();
  return changed();
}

function withoutText(none) {
  state.noText = none;
  Object.assign(state, { texts: [], info: null, reading: null, outcome: null, review: null, sheets: null });
  draw("text", "reading", "review", "take");
  changed();
  go(none ? "wanted" : "text");
}

async function chooseRecipe(word, on) {
  fault();
  state.recipes = on ? [...state.recipes, word] : state.recipes.filter((item) => item !== word);
  state.name = "";
  await changed();
  draw("wanted");
}

// Something was chosen or said: what follows from it is worked out anew. Only the latest turn is shown.
async function changed() {
  remember();
  if (!began) return;
  turn += 1;
  const mine = turn;
  const { recipes, answers, clubFacts: facts, follow, shares } = state;
  const asked = await engine.call("ask", { recipes });
  const checked = await engine.call("check", { recipes, answers });
  if (mine !== turn) return;
  const before = JSON.stringify(state.wrong);
  state.questions = asked.questions || [];
  state.wrong = Object.fromEntries(Object.entries(checked.wrong || {}).filter(([, why]) => why));
  draw("questions", ...(before !== JSON.stringify(state.wrong) ? ["wanted"] : []));
  const good = Object.fromEntries(Object.entries(answers).filter(([name]) => !state.wrong[name] && (name.split(".")[0] in { machine: 1, spool: 1, part: 1 } || state.questions.some((item) => item.name === name))));
  state.problems.review = null;
  state.sheets = null;
  if (state.noText) {
    const sheets = recipes.length ? await engine.call("sheet", { recipes, answers: good }) : null;
    if (mine !== turn) return;
    state.problems.review = sheets && sheets.refused;
    state.sheets = sheets && !sheets.refused ? sheets : null;
  } else if (state.reading && recipes.length) {
    const made = await engine.call("derive", { recipes, facts, answers: good, follow, shares });
    if (mine !== turn) return;
    state.problems.review = made.refused;
    state.outcome = made.refused ? null : made;
    state.review = made.refused ? null : made.files[0];
    state.name = state.name || proposedName();
  } else state.outcome = null;
  const choices = JSON.stringify(state.outcome ? state.outcome.choices : []);
  draw("review", "take", ...(choices === changed.choices ? [] : ["questions"]));
  changed.choices = choices;
  document.documentElement.dataset.turn = String(mine);
}

// ---- the page
async function setRoad(road) {
  state.road = road;
  laySteps();
  document.getElementById(`road-${road}`).checked = true;
}

function lay() {
  document.documentElement.lang = language;
  document.title = `Profilesmith: ${w("title")}`;
  const pick = el("select", { id: "language", "aria-label": "Language, Sprache, langue", onchange: async (event) => ((language = event.target.value), remember(), await learnNames(), lay()) },
    Object.keys(WORDS).map((name) => el("option", { value: name, selected: name === language, lang: name }, WORDS[name].language)));
  const roads = ["new", "after"].map((road) => el("label", { class: "road" },
    el("input", { type: "radio", name: "road", id: `road-${road}`, checked: state.road === road, onchange: () => setRoad(road) }),
    el("span", {}, el("b", {}, w(`road_${road}`)), el("small", {}, w(`road_${road}_why`)))));
  document.getElementById("app").replaceChildren(
    el("header", {},
      el("div", { class: "top" }, el("span", { class: "brand" }, el("span", { class: "mark", "aria-hidden": "true" }), ABOUT.library ? `Profilesmith · ${ABOUT.library}` : "Profilesmith"), pick),
      el("h1", {}, w("title")),
      el("p", { class: "lead" }, w("lead")),
      el("p", { class: "private" }, w("private"))),
    el("main", {},
      el("fieldset", { class: "roads" }, el("legend", { class: "sr" }, w("roads")), roads),
      el("nav", { id: "steps", "aria-label": w("steps") }),
      el("div", { class: "state", id: "state" },
        el("progress", { id: "state-bar", max: 1, "aria-label": w("progress"), hidden: true }),
        el("span", { id: "state-words", role: "status" }),
        Object.assign(button(w("cancel"), cancel, "plain"), { id: "state-cancel", hidden: true }),
        Object.assign(button(w("again"), () => begin(), "plain"), { id: "state-again", hidden: true })),
      el("div", { id: "fault" }),
      el("div", { id: "sections" })),
    el("footer", {},
      el("p", {}, w("made_by", { version: ABOUT.version })),
      el("details", {}, el("summary", {}, w("licences")), el("pre", { tabindex: "0", "aria-label": w("licences") }, ABOUT.notices))));
  laySteps();
  if (began) tell({ step: "idle" });
}

// The steps of the road that is walked, and the way to each.
function laySteps() {
  document.getElementById("steps").replaceChildren(el("ol", { class: `of${steps().length}` }, steps().map(([name, key], at) =>
    el("li", {}, el("a", { href: `#head-${name}`, id: `go-${name}`, onclick: (event) => (event.preventDefault(), go(name)) },
      el("span", { class: "number", "aria-hidden": "true" }, String(at + 1)), el("span", { class: "label" }, w(key)))))));
  document.getElementById("sections").replaceChildren(...steps().map(([name, key], at) => {
    bodies[name] = el("div", {});
    return el("section", { class: "step", "aria-labelledby": `head-${name}` },
      el("h2", { id: `head-${name}`, tabindex: "-1" }, `${at + 1}. ${w(key)}`), bodies[name]);
  }));
  draw(...steps().map(([name]) => name));
}

recall();
lay();
engine = new Engine(tell);
begin();
