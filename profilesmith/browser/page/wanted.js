// The third and the fourth step: what is wanted and known, and what is asked.
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
    ...(chosen.length ? drawKnown() : [el("p", { class: "soft" }, w("facts_later"))]),
  ];
}

function drawKnown() {
  return [
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
  const chosen = state.outcome ? state.outcome.choices.map(drawChoice) : [];
  if (!state.questions.length) return [el("p", {}, w("no_questions")), chosen];
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
        el("p", { class: "soft" }, w("decides", { settings: item.settings.map(nameOf).join(", ") }))));
  });
  return [el("p", {}, w("questions_lead")), chosen, items];
}

// A question that the derived text itself raises: which tool it is for, what becomes of its start commands, of its shares.
const CHOICES = {
  tool: ["tool", () => state.answers["spool.tool"] || "", (way) => { if (way) state.answers["spool.tool"] = way; else delete state.answers["spool.tool"]; }],
  "start block": ["follow", () => (state.follow ? "follow" : "keep"), (way) => (state.follow = way === "follow")],
  shares: ["shares", () => state.shares, (way) => (state.shares = way)],
};

function drawChoice(item) {
  if (item.name === "tool" && clubSays("spool.tool")) return null;
  const [key, now, choose] = CHOICES[item.name];
  const ways = item.ways.map((way) =>
    el("label", { class: "choice" },
      el("input", { type: "radio", name: `choice-${key}`, id: `choice-${key}-${way || "keep"}`, checked: now() === way, onchange: () => (choose(way), changed()) }),
      el("span", {}, capital(Number(way) ? w(`${key}_number`, { number: way }) : w(`${key}_${way || "keep"}`)))));
  return el("fieldset", { class: "question" }, el("legend", {}, w(`${key}_ask`)), ways,
    el("details", { open: item.about.length < 5 }, el("summary", { class: "soft" }, w("which", { count: item.about.length })), el("ul", { class: "lines" }, item.about.map((text) => el("li", {}, text)))));
}
